import { LocaleType, LogLevel, Univer, UniverInstanceType } from "@univerjs/core";
import {
  AstTreeBuilder,
  type BaseReferenceObject,
  FORMULA_REF_TO_ARRAY_CACHE,
  FormulaDataModel,
  type FunctionVariantType,
  IDefinedNamesService,
  IFormulaCurrentConfigService,
  IFormulaRuntimeService,
  IFunctionService,
  Interpreter,
  ISheetRowFilteredService,
  Lexer,
  LexerTreeBuilder,
  UniverFormulaEnginePlugin,
} from "@univerjs/engine-formula";
import { MAX_COLUMNS, MAX_ROWS, parseRange } from "../formula/address";
import { typedFormula } from "../formula/names";
import { NAMESPACE } from "../functions/formula-style";
import type { DefinedName, WorkbookModel } from "../workbook/model";
import { numberIn } from "./conditional-functions";
import type { ReadNumber } from "./criteria";
import { checkBudget, startBudget } from "./deadline";
import type { CellPlace, CellSentence, EngineFunction } from "./engine";
import { engineSheetName, MAX_CELLS_READ, READS_TOO_MUCH } from "./translation";
import { rangeKey } from "./rectangles";
import type { Correction } from "./corrections";
import { ParsedFormulas } from "./parsed-formulas";
import { JOINED } from "./reference-operators";
import { CellSource, type ReadCell } from "./univer-cells";
import { RefusedFormula } from "./refused-formula";
import { correctFunctions, type EngineCorrection } from "./univer-corrections";
import { watchBudget } from "./univer-deadline";
import {
  type CallFailure,
  type CallNotes,
  CatalogueExecutor,
  Intersection,
  JoinedAreas,
  UnknownExecutor,
} from "./univer-own-functions";
import { resultOf, sentencesOf } from "./univer-values";
import type { ValueCells } from "./value-cells";
import type { WrittenFormula } from "./written-formula";

/** What a formula gives: rows of cells, one row of one cell for a single value. */
export interface Evaluated extends ValueCells {
  readonly failures: readonly CallFailure[];
  /** Why cells of the result are errors, by position in it. */
  readonly sentences: readonly CellSentence[];
  /** Whether a function of ours was called for each cell of a range. */
  readonly isSpread: boolean;
}

/** How a formula is to be evaluated. */
export interface EvaluateOptions {
  /** Milliseconds that it may take. */
  readonly budget?: number;
  /** How many blank cells ranges lost that are written up to the part in use only, by `rangeKey`. */
  readonly shortened?: ReadonlyMap<string, number>;
}

const NOTHING_SHORTENED: ReadonlyMap<string, number> = new Map();

/** Cells of ranges that Univer may keep at hand for the next formula: many overlapping ranges would fill the memory. */
const MAX_CELLS_KEPT = 2 ** 21;
/** Numbers the workbooks held in this process: Univer's caches are shared, and their keys must differ. */
let workbooks = 0;

/**
 * Univer's formula language without Univer's scheduling: one formula at a time, the caller decides when.
 * So one formula that fails inside Univer is one failing formula, and nothing is evaluated twice.
 */
export class UniverFormulas {
  private readonly unit = `workbook-${String(++workbooks)}`;
  private readonly univer: Univer;
  private readonly interpreter: Interpreter;
  private readonly runtime: IFormulaRuntimeService;
  private readonly functions: IFunctionService;
  private shortened: ReadonlyMap<string, number> = NOTHING_SHORTENED;
  private cellsRead = 0;
  private cellsKept = 0;
  private readonly parsed: ParsedFormulas;
  private readonly notes: CallNotes = { failures: [], isSpread: false };

  constructor(
    workbook: Pick<WorkbookModel, "sheets" | "names" | "tables">,
    functions: readonly EngineFunction[],
    private readonly readCell: ReadCell,
    /** Corrections to leave out, to see what Univer gives by itself. */
    private readonly without: (correction: Correction | EngineCorrection) => boolean = () => false,
  ) {
    this.univer = new Univer({ logLevel: LogLevel.SILENT, locale: LocaleType.EN_US });
    this.univer.registerPlugin(UniverFormulaEnginePlugin, {});
    const sheets = workbook.sheets.map(({ name }, index) => ({ id: String(index), name }));
    this.univer.createUnit(UniverInstanceType.UNIVER_SHEET, {
      id: this.unit,
      sheetOrder: sheets.map(({ id }) => id),
      sheets: Object.fromEntries(
        sheets.map(({ id, name }) => [id, { id, name, rowCount: MAX_ROWS, columnCount: MAX_COLUMNS }]),
      ),
    });
    const injector = this.univer.__getInjector();
    this.interpreter = injector.get(Interpreter);
    this.parsed = new ParsedFormulas({
      lexer: injector.get(Lexer),
      lexed: injector.get(LexerTreeBuilder),
      builder: injector.get(AstTreeBuilder),
      interpreter: this.interpreter,
    });
    this.runtime = injector.get(IFormulaRuntimeService);
    this.functions = injector.get(IFunctionService);
    this.register(functions);
    this.offerNames(injector.get(IDefinedNamesService), workbook);
    injector.get(FormulaDataModel).getFormulaStringByCell = (row, column, sheet) => {
      const formula = this.readCell(Number(sheet), row, column)?.formula;
      return formula === undefined ? null : `=${typedFormula(formula)}`;
    };
    this.offerCells(injector.get(IFormulaCurrentConfigService), workbook);
    injector
      .get(ISheetRowFilteredService)
      .register((_, sheet, row) => isFiltered(workbook, Number(sheet), row));
  }

  /** The functions that formulas may call. */
  functionNames(): Iterable<string> {
    return [...this.functions.getExecutors().keys()].map(String);
  }

  /** The number that a text spells, also as a date or an amount of money. */
  readonly numberIn: ReadNumber = numberIn;

  /**
   * Evaluates a formula without its equals sign. Throws what Univer or the reading of a cell throws, and BudgetSpent
   * after `budget` milliseconds.
   */
  evaluate(
    formula: WrittenFormula,
    place: CellPlace,
    { budget = Infinity, shortened = NOTHING_SHORTENED }: EvaluateOptions = {},
  ): Evaluated | Promise<Evaluated> {
    startBudget(budget);
    this.shortened = shortened;
    const { node, isAsync } = this.parsed.of(formula);
    this.cellsKept += this.cellsRead;
    this.cellsRead = 0;
    if (this.cellsKept > MAX_CELLS_KEPT) this.forgetValues();
    this.notes.failures = [];
    this.notes.isSpread = false;
    this.runtime.setCurrent(place.row, place.column, MAX_ROWS, MAX_COLUMNS, String(place.sheet), this.unit);
    const task = { node, refOffsetX: 0, refOffsetY: 0 };
    const result = (value: unknown): Evaluated => ({
      ...resultOf(value as FunctionVariantType),
      ...this.notes,
      sentences: sentencesOf(value as FunctionVariantType),
    });
    const reset = (): void => {
      node.resetCalculationState();
    };
    if (isAsync) return this.interpreter.executeAsync(task).then(result).finally(reset);
    try {
      return result(this.interpreter.execute(task));
    } finally {
      reset();
    }
  }

  /** Must be called whenever a cell got a new value that a formula may already have read. */
  forgetValues(): void {
    FORMULA_REF_TO_ARRAY_CACHE.clear();
    this.cellsKept = 0;
  }

  /** Must be called where an evaluation was ended from outside: what it left half done is thrown away. */
  abandon(): void {
    this.parsed.clear();
    this.forgetValues();
  }

  dispose(): void {
    this.parsed.clear();
    this.univer.dispose();
  }

  private blanksBeyond(reference: BaseReferenceObject): number {
    if (this.shortened.size === 0) return 0;
    const { startRow, startColumn, endRow, endColumn } = reference.getRangePosition();
    const range = { firstRow: startRow, firstColumn: startColumn, lastRow: endRow, lastColumn: endColumn };
    return this.shortened.get(rangeKey({ sheet: Number(reference.getSheetId()), ...range })) ?? 0;
  }

  private register(functions: readonly EngineFunction[]): void {
    this.functions.registerExecutors(
      new Intersection("SINGLE"),
      new JoinedAreas(JOINED),
      ...functions.map((fn) => new CatalogueExecutor(fn, this.notes)),
    );
    correctFunctions(this.functions, (reference) => this.blanksBeyond(reference), this.without);
    watchBudget();
    const hasExecutor = this.functions.hasExecutor.bind(this.functions);
    // A name in our namespace that is none of ours is an error in its cell, as in Excel with the add-in.
    this.functions.hasExecutor = (token) => {
      if (hasExecutor(token)) return true;
      const name = String(token);
      if (!name.startsWith(`${NAMESPACE}_`)) return false;
      this.functions.registerExecutors(new UnknownExecutor(name, this.notes));
      return true;
    };
  }

  private offerNames(
    service: IDefinedNamesService,
    { names }: { readonly names: readonly DefinedName[] },
  ): void {
    // Formulas come with their names written out; only INDIRECT and its like still look names up.
    for (const [index, { name, text, sheet }] of names.entries()) {
      // Excel has no name that looks like a cell; the engine would follow it instead of reading the cell.
      if (sheet !== undefined || parseRange(name) !== undefined) continue;
      const id = String(index);
      service.registerDefinedName(this.unit, { id, name, formulaOrRefString: text });
    }
  }

  private offerCells(config: IFormulaCurrentConfigService, { sheets }: Pick<WorkbookModel, "sheets">): void {
    const unit = this.unit;
    const real = sheets.map(({ name }, index) => [name, String(index)] as const);
    const own = sheets.map((_, index) => [engineSheetName(index), String(index)] as const);
    const data = sheets.map(({ hiddenRows }, index) => {
      const rowData = Object.fromEntries([...hiddenRows].map((row) => [row, { hd: 1 }]));
      const cellData = new CellSource(index, (...place) => {
        checkBudget();
        if (++this.cellsRead > MAX_CELLS_READ) throw new RefusedFormula(READS_TOO_MUCH);
        return this.readCell(...place);
      });
      return [
        String(index),
        { cellData, rowCount: MAX_ROWS, columnCount: MAX_COLUMNS, rowData, columnData: {} },
      ];
    });
    config.load({
      formulaData: {},
      arrayFormulaCellData: {},
      arrayFormulaRange: {},
      forceCalculate: false,
      dirtyRanges: [],
      dirtyNameMap: {},
      dirtyDefinedNameMap: {},
      dirtyUnitFeatureMap: {},
      dirtyUnitOtherFormulaMap: {},
      allUnitData: { [unit]: Object.fromEntries(data) },
      unitStylesData: {},
      unitSheetNameMap: { [unit]: Object.fromEntries([...own, ...real]) },
    });
    config.setExecuteUnitId(unit);
    config.setExecuteSubUnitId("0");
  }
}

/** Whether a filter hides a row; SUBTOTAL leaves such a row out, but takes one in that a person hid. */
function isFiltered(
  { sheets, tables }: Pick<WorkbookModel, "sheets" | "tables">,
  sheet: number,
  row: number,
): boolean {
  const { hiddenRows, filter } = sheets[sheet] ?? {};
  if (hiddenRows?.has(row) !== true) return false;
  const filtered = tables.filter((table) => table.sheet === sheet && table.isFiltered === true);
  return [...(filter === undefined ? [] : [filter]), ...filtered.map(({ range }) => range)].some(
    ({ firstRow, lastRow }) => row >= firstRow && row <= lastRow,
  );
}
