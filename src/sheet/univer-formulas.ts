import {
  CellValueType,
  LocaleType,
  LogLevel,
  type Nullable,
  Univer,
  UniverInstanceType,
} from "@univerjs/core";
import {
  ArrayValueObject,
  AstTreeBuilder,
  BaseFunction,
  type BaseReferenceObject,
  type BaseValueObject,
  BooleanValueObject,
  ERROR_TYPE_SET,
  ErrorType,
  ErrorValueObject,
  FORMULA_REF_TO_ARRAY_CACHE,
  FormulaDataModel,
  type FunctionVariantType,
  IDefinedNamesService,
  IFormulaCurrentConfigService,
  IFormulaRuntimeService,
  IFunctionService,
  Interpreter,
  Lexer,
  LexerNode,
  NullValueObject,
  NumberValueObject,
  StringValueObject,
  UniverFormulaEnginePlugin,
} from "@univerjs/engine-formula";
import { type CellRange, MAX_COLUMNS, MAX_ROWS, MAX_TEXT, parseRange } from "../formula/address";
import type { CellValue, DefinedName, WorkbookModel } from "../workbook/model";
import type { CellPlace, EngineArgument, EngineFunction, EngineResult } from "./engine";
import { NAMESPACE } from "../functions/formula-style";
import { typedFormula } from "../formula/names";
import { engineFunctionName, MAX_CELLS_READ, READS_TOO_MUCH } from "./formula-translation";
import { correctFunctions, RefusedFormula } from "./univer-corrections";

/** What the engine reads: the content of one cell, with its formula in file form where it has one. */
export interface CellContent {
  readonly value: CellValue;
  readonly formula?: string;
}

/** Gives the content of a cell, or undefined where it is blank. May throw: the evaluation then ends with that. */
export type ReadCell = (sheet: number, row: number, column: number) => CellContent | undefined;

/** A failing call of ours. */
export interface Failure {
  readonly code: string;
  readonly sentence: string;
}

/** What a formula gives: rows of cells, one row of one cell for a single value. */
export interface Evaluated {
  readonly rows: readonly (readonly CellValue[])[];
  /** The rectangle, where the formula gives a reference. */
  readonly reference?: CellRange;
  readonly failures: readonly Failure[];
  /** Whether a function of ours was called for each cell of a range. */
  readonly isSpread: boolean;
}

/** Where functions of ours leave what Univer's values cannot carry. */
interface Notes {
  failures: Failure[];
  isSpread: boolean;
}

/** A parsed formula; Univer's declarations leave out what resets it. */
type AstNode = NonNullable<ReturnType<AstTreeBuilder["parse"]>> & { resetCalculationState(): void };

interface ParsedFormula {
  readonly node: AstNode;
  readonly isAsync: boolean;
}

/** Cells of ranges that Univer may keep at hand for the next formula: many overlapping ranges would fill the memory. */
const MAX_CELLS_KEPT = 2 ** 21;
/** Parsed formulas at hand: each holds some kilobytes, and parsing costs a third of evaluating. */
const MAX_PARSED = 2 ** 14;
/** Numbers the workbooks held in this process: Univer's caches are shared, and their keys must differ. */
let workbooks = 0;

/**
 * Univer's formula language without Univer's scheduling: one formula at a time, the caller decides when.
 * So one formula that fails inside Univer is one failing formula, and nothing is evaluated twice.
 */
export class UniverFormulas {
  private readonly unit = `workbook-${String(++workbooks)}`;
  private readonly univer: Univer;
  private readonly lexer: Lexer;
  private readonly builder: AstTreeBuilder;
  private readonly interpreter: Interpreter;
  private readonly runtime: IFormulaRuntimeService;
  private readonly functions: IFunctionService;
  private cellsRead = 0;
  private cellsKept = 0;
  private readonly parsed = new Map<string, ParsedFormula>();
  private readonly notes: Notes = { failures: [], isSpread: false };

  constructor(
    workbook: Pick<WorkbookModel, "sheets" | "names">,
    functions: readonly EngineFunction[],
    private readonly readCell: ReadCell,
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
    this.lexer = injector.get(Lexer);
    this.builder = injector.get(AstTreeBuilder);
    this.interpreter = injector.get(Interpreter);
    this.runtime = injector.get(IFormulaRuntimeService);
    this.functions = injector.get(IFunctionService);
    this.register(functions);
    this.offerNames(injector.get(IDefinedNamesService), workbook);
    injector.get(FormulaDataModel).getFormulaStringByCell = (row, column, sheet) => {
      const formula = this.readCell(Number(sheet), row, column)?.formula;
      return formula === undefined ? null : `=${typedFormula(formula)}`;
    };
    this.offerCells(injector.get(IFormulaCurrentConfigService), workbook);
  }

  /** The engine's name of a sheet: free of quotes, whatever the sheet is called. */
  static sheetName(sheet: number): string {
    return `sheet.${String(sheet)}.`;
  }

  knowsFunction(name: string): boolean {
    return ["LET", "LAMBDA"].includes(name) || this.functions.hasExecutor(name);
  }

  /** Evaluates a formula without its equals sign. Throws what Univer or the reading of a cell throws. */
  evaluate(formula: string, place: CellPlace): Evaluated | Promise<Evaluated> {
    const { node, isAsync } = this.parse(formula);
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

  dispose(): void {
    this.parsed.clear();
    this.univer.dispose();
  }

  private parse(formula: string): ParsedFormula {
    const known = this.parsed.get(formula);
    if (known !== undefined) return known;
    const tree = this.lexer.treeBuilder(`=${formula}`);
    if (!(tree instanceof LexerNode)) throw new Error(`the formula cannot be read: ${String(tree)}`);
    const node = this.builder.parse(tree) as AstNode | null | undefined;
    if (node === null || node === undefined) throw new Error("the formula cannot be read");
    const parsed = { node, isAsync: this.interpreter.checkAsyncNode(node) };
    if (this.parsed.size >= MAX_PARSED) this.parsed.clear();
    this.parsed.set(formula, parsed);
    return parsed;
  }

  private register(functions: readonly EngineFunction[]): void {
    this.functions.registerExecutors(
      new Intersection("SINGLE"),
      ...functions.map((fn) => new CatalogueExecutor(fn, this.notes)),
    );
    correctFunctions(this.functions);
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
    const own = sheets.map((_, index) => [UniverFormulas.sheetName(index), String(index)] as const);
    const data = sheets.map(({ hiddenRows }, index) => {
      const rowData = Object.fromEntries([...hiddenRows].map((row) => [row, { hd: 1 }]));
      const cellData = new CellSource(index, (...place) => {
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

/** The cells of one sheet as Univer asks for them; it stands where Univer expects its own matrix. */
class CellSource {
  constructor(
    private readonly sheet: number,
    private readonly readCell: ReadCell,
  ) {}

  getValue(row: number, column: number): { v: string | number; t: CellValueType; f?: string } | null {
    const content = this.readCell(this.sheet, row, column);
    if (content === undefined || content.value === null) return null;
    const { value } = content;
    // A cell that holds an empty text is not blank; Univer takes it for blank unless it has a formula.
    const f = content.formula ?? (value === "" ? '""' : undefined);
    const cell = univerCell(value);
    return f === undefined ? cell : { ...cell, f: `=${f}` };
  }

  /** Asked for by ISFORMULA, which looks cells up by row and column. */
  getMatrix(): unknown {
    const rowOf = (row: number): unknown =>
      new Proxy({}, { get: (_, column) => this.getValue(row, Number(column)) ?? undefined });
    return new Proxy({}, { get: (_, row) => rowOf(Number(row)) });
  }
}

function univerCell(value: Exclude<CellValue, null>): { v: string | number; t: CellValueType } {
  switch (typeof value) {
    case "number":
      return { v: value, t: CellValueType.NUMBER };
    case "boolean":
      return { v: value ? 1 : 0, t: CellValueType.BOOLEAN };
    case "string":
      return { v: value, t: CellValueType.STRING };
    default:
      return { v: knownError(value.error), t: CellValueType.STRING };
  }
}

function knownError(code: string): ErrorType {
  return ERROR_TYPE_SET.has(code as ErrorType) ? (code as ErrorType) : ErrorType.VALUE;
}

function resultOf(value: FunctionVariantType): Pick<Evaluated, "rows" | "reference"> {
  if (!value.isReferenceObject()) return { rows: rowsOf(value) };
  const reference = value as BaseReferenceObject;
  const { startRow, startColumn, endRow, endColumn } = reference.getRangePosition();
  return {
    rows: rowsOf(reference),
    reference: { firstRow: startRow, firstColumn: startColumn, lastRow: endRow, lastColumn: endColumn },
  };
}

/** The cells of a value, an array or what a reference refers to. */
function rowsOf(value: FunctionVariantType): readonly (readonly CellValue[])[] {
  if (value.isReferenceObject()) return rowsOf((value as BaseReferenceObject).toArrayValueObject());
  if (!value.isArray()) return [[cellOf(value as BaseValueObject)]];
  const array = value as ArrayValueObject;
  const values = array.getArrayValue();
  const columns = Array.from({ length: array.getColumnCount() }, (_, column) => column);
  return Array.from({ length: array.getRowCount() }, (_, row) =>
    columns.map((column) => cellOf(values[row]?.[column])),
  );
}

function cellOf(value: Nullable<BaseValueObject>): CellValue {
  if (!value || value.isNull()) return null;
  if (value.isArray()) return cellOf((value as ArrayValueObject).getFirstCell());
  if (value.isLambda()) return { error: ErrorType.CALC };
  const content = value.getValue();
  if (value.isError()) return { error: String(content) };
  if (typeof content === "number") return storable(content);
  return value.isBoolean() ? Boolean(content) : storable(String(content));
}

/** What Excel makes of a number or text that a cell cannot hold. */
function storable(value: number | string): CellValue {
  if (typeof value === "string") return value.length > MAX_TEXT ? { error: ErrorType.VALUE } : value;
  if (!Number.isFinite(value)) return { error: ErrorType.NUM };
  return value === 0 ? 0 : value;
}

function valueObject(value: CellValue): BaseValueObject {
  switch (typeof value) {
    case "number":
      return Number.isFinite(value)
        ? NumberValueObject.create(value)
        : ErrorValueObject.create(ErrorType.NUM);
    case "string":
      return StringValueObject.create(value);
    case "boolean":
      return BooleanValueObject.create(value);
    default:
      return value === null ? NullValueObject.create() : ErrorValueObject.create(knownError(value.error));
  }
}

function arrayObject(rows: readonly (readonly BaseValueObject[])[]): BaseValueObject {
  const [first] = rows;
  if (first?.[0] === undefined) return ErrorValueObject.create(ErrorType.CALC);
  if (rows.length === 1 && first.length === 1) return first[0];
  const columnCount = Math.max(...rows.map((row) => row.length));
  const missing = ErrorValueObject.create(ErrorType.NA);
  return ArrayValueObject.create({
    calculateValueList: rows.map((row) => Array.from({ length: columnCount }, (_, at) => row[at] ?? missing)),
    rowCount: rows.length,
    columnCount,
    unitId: "",
    sheetId: "",
    row: -1,
    column: -1,
  });
}

function isErrorCell(value: CellValue): value is { readonly error: string } {
  return typeof value === "object" && value !== null;
}

/** A function of ours inside Univer. */
class CatalogueExecutor extends BaseFunction {
  constructor(
    private readonly fn: EngineFunction,
    private readonly notes: Notes,
  ) {
    super(engineFunctionName(fn.name));
  }

  override calculate(...variants: FunctionVariantType[]): BaseValueObject {
    const { parameters } = this.fn;
    if (variants.length > parameters.length) return this.failed(`${this.fn.name} takes fewer arguments`);
    if (variants.some((variant) => (variant as BaseValueObject).isLambda()))
      return this.failed("an argument must not be a function");
    const args = variants.map(rowsOf);
    const isSpread = args.map((rows, at) => parameters[at]?.takesRange !== true && isRectangle(rows));
    const height = Math.max(1, ...args.map((rows, at) => (isSpread[at] === true ? rows.length : 1)));
    const width = Math.max(
      1,
      ...args.map((rows, at) => (isSpread[at] === true ? (rows[0]?.length ?? 1) : 1)),
    );
    const callAt = (row: number, column: number): BaseValueObject =>
      this.callWith(
        args.map((rows, at) => {
          if (parameters[at]?.takesRange === true)
            return variants[at]?.isArray() === true ? rows : singleCell(rows);
          return isSpread[at] === true ? cellAt(rows, row, column) : singleCell(rows);
        }),
      );
    if (height === 1 && width === 1) return callAt(0, 0);
    this.notes.isSpread = true;
    return arrayObject(
      Array.from({ length: height }, (_, row) =>
        Array.from({ length: width }, (_, column) => firstOf(callAt(row, column))),
      ),
    );
  }

  private callWith(args: readonly EngineArgument[]): BaseValueObject {
    for (const argument of args) {
      const error = Array.isArray(argument) ? (argument as CellValue[][]).flat().find(isErrorCell) : argument;
      if (isErrorCell(error as CellValue)) return valueObject(error as CellValue);
    }
    let result: EngineResult;
    try {
      result = this.fn.call(args);
    } catch (error) {
      return this.failed(error instanceof Error ? error.message : String(error));
    }
    switch (result.kind) {
      case "value":
        return valueObject(result.value);
      case "table":
        return arrayObject(result.rows.map((row) => row.map(valueObject)));
      case "error":
        return this.failed(result.sentence, result.code);
    }
  }

  private failed(sentence: string, code: string = ErrorType.VALUE): BaseValueObject {
    const error = knownError(code);
    this.notes.failures.push({ code: error, sentence });
    return ErrorValueObject.create(error);
  }
}

function isRectangle(rows: readonly (readonly CellValue[])[]): boolean {
  return rows.length > 1 || (rows[0]?.length ?? 0) > 1;
}

function singleCell(rows: readonly (readonly CellValue[])[]): CellValue {
  return rows[0]?.[0] ?? null;
}

/** The cell of a rectangle that belongs to one call, where a single row or column serves all of them. */
function cellAt(rows: readonly (readonly CellValue[])[], row: number, column: number): CellValue {
  const line = rows.length === 1 ? rows[0] : rows[row];
  const cell = line?.length === 1 ? line[0] : line?.[column];
  return cell === undefined ? { error: ErrorType.NA } : cell;
}

function firstOf(value: BaseValueObject): BaseValueObject {
  return value.isArray() ? (value as ArrayValueObject).getFirstCell() : value;
}

/** Stands for a name in our namespace that is no function. */
class UnknownExecutor extends BaseFunction {
  constructor(
    name: string,
    private readonly notes: Notes,
  ) {
    super(name);
  }

  override calculate(): BaseValueObject {
    const sentence = `there is no function ${String(this.name).replace("_", ".")}`;
    this.notes.failures.push({ code: ErrorType.NAME, sentence });
    return ErrorValueObject.create(ErrorType.NAME);
  }
}

/** `@`: the cell of a range that lies in the formula's row or column; anything else as its first cell. */
class Intersection extends BaseFunction {
  override needsReferenceObject = true;
  override minParams = 1;
  override maxParams = 1;

  override calculate(variant: FunctionVariantType): BaseValueObject {
    const { rows, reference } = resultOf(variant);
    return valueObject(intersected(rows, reference, { row: this.row, column: this.column }));
  }
}

/** What is left of a rectangle where a formula in `place` may have one value only. */
export function intersected(
  rows: readonly (readonly CellValue[])[],
  reference: CellRange | undefined,
  place: { readonly row: number; readonly column: number },
): CellValue {
  if (reference === undefined || !isRectangle(rows)) return singleCell(rows);
  const { firstRow, firstColumn, lastRow, lastColumn } = reference;
  const row = firstRow === lastRow ? 0 : place.row - firstRow;
  const column = firstColumn === lastColumn ? 0 : place.column - firstColumn;
  const cell = rows[row]?.[column];
  return cell === undefined ? { error: ErrorType.VALUE } : cell;
}
