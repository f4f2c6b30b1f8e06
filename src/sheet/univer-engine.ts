import { type CellRange, MAX_COLUMNS, MAX_ROWS } from "../formula/address";
import type { CellFormula, CellValue, SheetModel, WorkbookModel } from "../workbook/model";
import { Dependents, intersects } from "./dependents";
import type {
  CellPlace,
  ComputedCell,
  EngineFunction,
  Recalculation,
  RecalculateOptions,
  SheetEngine,
  UncomputedCell,
} from "./engine";
import {
  addressFor,
  dateProblem,
  type FormulaContext,
  FormulaTranslator,
  RANGE_OPERATOR,
  type SheetRange,
  type Translation,
} from "./formula-translation";
import { MAX_CELLS_FILLED, RefusedFormula } from "./univer-corrections";
import { type CellContent, type Evaluated, intersected, UniverFormulas } from "./univer-formulas";

/** Milliseconds of work after which the engine lets others have the thread. */
const SLICE = 40;
/** Evaluations of one cell in one run after which it counts as unsettled: spills can push each other about. */
const MAX_RUNS = 25;
/** Results that change although nothing they read does. */
const CHANGING = new Set(["NOW", "TODAY", "RAND", "RANDBETWEEN", "RANDARRAY"]);
/** Formulas that read other cells than their text says. */
const WANDERING = new Set(["OFFSET", "INDIRECT", "CELL", "INFO", RANGE_OPERATOR]);
/** Functions that give arrays of their own making: where one value is wanted, it is the first. */
const ARRAY_MAKERS = new Set(
  `BYCOL BYROW CHOOSE CHOOSECOLS CHOOSEROWS DROP EXPAND FILTER FREQUENCY GROWTH HSTACK INDEX INDIRECT LINEST LOGEST
  MAKEARRAY MAP MINVERSE MMULT MODE.MULT MUNIT OFFSET RANDARRAY REDUCE SCAN SEQUENCE SORT SORTBY TAKE TEXTSPLIT TOCOL
  TOROW TRANSPOSE TREND UNIQUE VSTACK WRAPCOLS WRAPROWS XLOOKUP`.split(/\s+/),
);
const NOT_FOLLOWED = "the engine cannot follow this formula";
/** Errors by which Univer says that it cannot follow a formula. */
const NOT_UNDERSTOOD = ["#NAME?", "#ERROR!", "#CYCLE!"];

type Rows = readonly (readonly CellValue[])[];

/** A formula cell and where its calculation stands. */
interface FormulaCell extends CellPlace {
  readonly formula: CellFormula;
  /** What stands in the file. */
  readonly stored: CellValue;
  state: "dirty" | "waiting" | "done";
  value: CellValue;
  /** What it fills, and with what, where that is more than its own cell. */
  area?: CellRange;
  table?: Rows;
  /** What it would fill if nothing stood in the way. */
  blocked?: CellRange;
  sentence?: string;
  why?: string;
  translation?: Translation;
  runs: number;
}

type Outcome = Pick<FormulaCell, "value" | "area" | "table" | "blocked" | "sentence" | "why">;

/** Ends an evaluation that needs another formula first. */
class NotReady extends Error {
  constructor(readonly cell: FormulaCell) {
    super("a cell is not computed yet");
  }
}

/** The cells of one sheet. */
class SheetCells {
  readonly constants = new Map<number, CellValue>();
  readonly formulas = new Map<number, FormulaCell>();
  /** Who fills a cell that has no formula of its own. */
  readonly spilled = new Map<number, FormulaCell>();
  readonly owners = new Set<FormulaCell>();
  readonly merges: readonly CellRange[];
  private columns: Map<number, FormulaCell[]> | undefined;

  constructor(sheet: SheetModel, index: number) {
    this.merges = sheet.merges;
    for (const { row, column, value, formula } of sheet.cells) {
      const key = keyOf(row, column);
      if (formula === undefined) {
        if (value !== null) this.constants.set(key, value);
        continue;
      }
      const cell = newCell({ sheet: index, row, column }, formula, value);
      this.formulas.set(key, cell);
      if (fills(formula)) this.takeStoredArea(cell, formula.range);
    }
    // What an array or spill wrote into cells around it is its result, not a constant in its way.
    for (const owner of this.owners) if (owner.area !== undefined) this.takeStoredTable(owner, owner.area);
  }

  private takeStoredArea(cell: FormulaCell, range: CellRange | undefined): void {
    if (range === undefined || cellCount(range) === 1 || cellCount(range) > MAX_CELLS_FILLED) return;
    cell.area = range;
    this.owners.add(cell);
  }

  private takeStoredTable(owner: FormulaCell, area: CellRange): void {
    owner.table = mapRange(area, (row, column) => {
      const key = keyOf(row, column);
      if (row === owner.row && column === owner.column) return owner.stored;
      const value = this.constants.get(key) ?? null;
      if (this.formulas.has(key)) return null;
      this.constants.delete(key);
      this.spilled.set(key, owner);
      return value;
    });
  }

  addFormula(cell: FormulaCell): void {
    this.formulas.set(keyOf(cell.row, cell.column), cell);
    this.columns = undefined;
  }

  removeFormula(cell: FormulaCell): void {
    this.setArea(cell, undefined);
    this.formulas.delete(keyOf(cell.row, cell.column));
    this.columns = undefined;
  }

  setArea(cell: FormulaCell, area: CellRange | undefined): void {
    if (cell.area !== undefined) {
      for (const key of keysOf(cell.area)) if (this.spilled.get(key) === cell) this.spilled.delete(key);
      this.owners.delete(cell);
    }
    if (area === undefined) {
      delete cell.area;
      return;
    }
    cell.area = area;
    this.owners.add(cell);
    const own = keyOf(cell.row, cell.column);
    for (const key of keysOf(area)) if (key !== own && !this.formulas.has(key)) this.spilled.set(key, cell);
  }

  /** Whether something stands where a formula would spill. */
  isBlocked(cell: FormulaCell, area: CellRange): boolean {
    const own = keyOf(cell.row, cell.column);
    for (const key of keysOf(area)) {
      if (key === own) continue;
      const owner = this.spilled.get(key);
      if (this.constants.has(key) || this.formulas.has(key)) return true;
      if (owner !== undefined && owner !== cell) return true;
    }
    return this.merges.some((merge) => intersects(merge, area));
  }

  /** Formulas without a result yet whose own or filled cells lie in a range. */
  *pendingIn(range: CellRange): Generator<FormulaCell> {
    this.columns ??= this.byColumn();
    const isOneColumn = range.firstColumn === range.lastColumn;
    const columns = isOneColumn
      ? [this.columns.get(range.firstColumn) ?? []]
      : [...this.columns]
          .filter(([c]) => c >= range.firstColumn && c <= range.lastColumn)
          .map(([, cells]) => cells);
    for (const cells of columns) {
      for (let at = firstAtOrAfter(cells, range.firstRow); at < cells.length; at++) {
        const cell = cells[at];
        if (cell === undefined || cell.row > range.lastRow) break;
        if (cell.state !== "done") yield cell;
      }
    }
    for (const owner of this.owners) {
      if (owner.state !== "done" && owner.area !== undefined && intersects(owner.area, range)) yield owner;
    }
  }

  private byColumn(): Map<number, FormulaCell[]> {
    const columns = new Map<number, FormulaCell[]>();
    for (const cell of this.formulas.values()) {
      const cells = columns.get(cell.column);
      if (cells === undefined) columns.set(cell.column, [cell]);
      else cells.push(cell);
    }
    for (const cells of columns.values()) cells.sort((a, b) => a.row - b.row);
    return columns;
  }
}

/** The spreadsheet engine on Univer's formula language, with a schedule of its own. */
export class UniverEngine implements SheetEngine {
  private sheets: readonly SheetCells[] = [];
  private workbook: WorkbookModel | undefined;
  private univer: UniverFormulas | undefined;
  private translator: FormulaTranslator | undefined;
  private context: FormulaContext | undefined;
  private dependents: Dependents<FormulaCell> | undefined;
  /** Cells done since a run last came to its end: a run that was stopped leaves its results to the next. */
  private finished = new Set<FormulaCell>();
  private keepsChanging = false;

  constructor(private readonly functions: readonly EngineFunction[]) {}

  load(workbook: WorkbookModel): Promise<void> {
    this.dispose();
    this.workbook = workbook;
    this.sheets = workbook.sheets.map((sheet, index) => new SheetCells(sheet, index));
    this.univer = new UniverFormulas(workbook, this.functions, (sheet, row, column) =>
      this.read(sheet, row, column),
    );
    this.prepareTranslation(workbook, this.univer);
    return Promise.resolve();
  }

  setCell(place: CellPlace, input: CellValue | { readonly formula: string }): Promise<void> {
    const { workbook, univer } = this.loaded();
    const sheet = this.sheetAt(place.sheet);
    const key = keyOf(place.row, place.column);
    const old = sheet.formulas.get(key);
    const changed: SheetRange[] = [cellRange(place)];
    if (old !== undefined) {
      if (old.area !== undefined) changed.push({ sheet: place.sheet, ...old.area });
      this.dependents?.remove(old, old.translation?.reads ?? []);
      sheet.removeFormula(old);
      this.finished.delete(old);
    }
    sheet.constants.delete(key);
    const owner = sheet.spilled.get(key);
    if (typeof input === "object" && input !== null && "formula" in input) {
      const text = input.formula.replace(/^=/, "");
      const cell = newCell(place, { text, kind: "dynamic" }, { error: "#NAME?" });
      sheet.addFormula(cell);
      this.dependents?.add(cell, this.translationOf(cell).reads);
    } else if (input !== null) sheet.constants.set(key, input);
    if (place.row > this.usedContext().lastRow || place.column > this.usedContext().lastColumn) {
      this.prepareTranslation(workbook, univer, place);
    }
    this.touch(changed);
    if (owner !== undefined) this.touchCell(owner);
    for (const cell of sheet.formulas.values()) {
      if (cell.blocked !== undefined && intersects(cell.blocked, cellRange(place))) this.touchCell(cell);
    }
    return Promise.resolve();
  }

  async recalculate(options: RecalculateOptions = {}): Promise<Recalculation> {
    const { univer } = this.loaded();
    const { onProgress, signal } = options;
    this.keepsChanging = options.volatile === "keep";
    univer.forgetValues();
    for (const cell of this.allCells()) {
      cell.runs = 0;
      if (cell.state === "done" && has(cell.translation, CHANGING)) this.touchCell(cell);
    }
    let pause = performance.now() + SLICE;
    let queue = this.dirtyCells();
    const total = queue.length + this.finished.size;
    try {
      while (queue.length > 0) {
        for (const cell of queue) {
          const stack = [cell];
          while (stack.length > 0) {
            const isAsync = this.advance(stack, univer);
            if (isAsync !== undefined) await isAsync;
            if (performance.now() < pause) continue;
            onProgress?.(Math.min(1, this.finished.size / total));
            await new Promise((resolve) => setTimeout(resolve));
            signal?.throwIfAborted();
            pause = performance.now() + SLICE;
          }
        }
        queue = this.dirtyCells();
      }
    } finally {
      for (const cell of this.allCells()) if (cell.state === "waiting") cell.state = "dirty";
    }
    onProgress?.(1);
    const { finished } = this;
    this.finished = new Set();
    return {
      computed: [...finished].filter((cell) => cell.why === undefined).map(computedOf),
      uncomputed: [...this.allCells()].flatMap(uncomputedOf),
    };
  }

  value({ sheet, row, column }: CellPlace): CellValue {
    const cells = this.sheetAt(sheet);
    const key = keyOf(row, column);
    const formula = cells.formulas.get(key);
    if (formula !== undefined) return formula.value;
    const owner = cells.spilled.get(key);
    return owner === undefined ? (cells.constants.get(key) ?? null) : spilledValue(owner, row, column);
  }

  dispose(): void {
    this.univer?.dispose();
    this.univer = undefined;
    this.sheets = [];
    this.dependents = undefined;
    this.finished = new Set();
  }

  private loaded(): { readonly workbook: WorkbookModel; readonly univer: UniverFormulas } {
    const { workbook, univer } = this;
    if (workbook === undefined || univer === undefined) throw new Error("no workbook is loaded");
    return { workbook, univer };
  }

  private usedContext(): FormulaContext {
    if (this.context === undefined) throw new Error("no workbook is loaded");
    return this.context;
  }

  private sheetAt(sheet: number): SheetCells {
    const cells = this.sheets[sheet];
    if (cells === undefined) throw new RangeError(`the workbook has no sheet ${String(sheet + 1)}`);
    return cells;
  }

  private *allCells(): Generator<FormulaCell> {
    for (const sheet of this.sheets) yield* sheet.formulas.values();
  }

  private dirtyCells(): FormulaCell[] {
    return [...this.allCells()].filter((cell) => cell.state !== "done");
  }

  /** Takes up the names, tables and extent of the workbook; `grown` lies outside the extent so far. */
  private prepareTranslation(workbook: WorkbookModel, univer: UniverFormulas, grown?: CellPlace): void {
    let lastRow = grown?.row ?? 0;
    let lastColumn = grown?.column ?? 0;
    for (const { constants, formulas, spilled } of this.sheets) {
      for (const keys of [constants.keys(), formulas.keys(), spilled.keys()]) {
        for (const key of keys) {
          lastRow = Math.max(lastRow, Math.floor(key / MAX_COLUMNS));
          lastColumn = Math.max(lastColumn, key % MAX_COLUMNS);
        }
      }
    }
    this.context = {
      sheetNames: workbook.sheets.map(({ name }) => name),
      names: workbook.names,
      tables: workbook.tables,
      // Room to grow, so that a new row does not change the meaning of every whole column.
      lastRow: Math.min(MAX_ROWS - 1, 2 ** Math.ceil(Math.log2(lastRow + 64)) - 1),
      lastColumn: Math.min(MAX_COLUMNS - 1, 2 ** Math.ceil(Math.log2(lastColumn + 16)) - 1),
      engineSheet: (sheet) => UniverFormulas.sheetName(sheet),
      knowsFunction: (name) => univer.knowsFunction(name),
    };
    this.translator = new FormulaTranslator(this.context);
    this.dependents = undefined;
    for (const cell of this.allCells()) {
      delete cell.translation;
      cell.state = "dirty";
    }
  }

  private translationOf(cell: FormulaCell): Translation {
    if (cell.translation !== undefined) return cell.translation;
    if (this.translator === undefined) throw new Error("no workbook is loaded");
    cell.translation = this.translator.translate(cell.formula.text, cell);
    return cell.translation;
  }

  private read(sheet: number, row: number, column: number): CellContent | undefined {
    const cells = this.sheetAt(sheet);
    const key = keyOf(row, column);
    const formula = cells.formulas.get(key);
    if (formula !== undefined) {
      if (formula.state !== "done") throw new NotReady(formula);
      return { value: formula.value, formula: formula.formula.text };
    }
    const owner = cells.spilled.get(key);
    if (owner !== undefined) {
      if (owner.state !== "done") throw new NotReady(owner);
      return { value: spilledValue(owner, row, column) };
    }
    const value = cells.constants.get(key);
    return value === undefined ? undefined : { value };
  }

  /** One step towards the result of the cell on top of the stack: what it reads first, then the cell itself. */
  private advance(stack: FormulaCell[], univer: UniverFormulas): Promise<void> | undefined {
    const cell = stack.at(-1);
    if (cell === undefined || cell.state === "done") {
      stack.pop();
      return undefined;
    }
    if (cell.state === "dirty") {
      cell.state = "waiting";
      if (this.pushPending(stack, this.pendingOf(cell))) return undefined;
    }
    const onThrow = (error: unknown): void => {
      if (error instanceof NotReady) this.pushPending(stack, [error.cell]);
      else {
        const why = error instanceof RefusedFormula ? error.message : NOT_FOLLOWED;
        this.finish(cell, { ...storedOutcome(cell), why });
      }
    };
    try {
      return this.evaluate(cell, univer)?.catch(onThrow);
    } catch (error) {
      onThrow(error);
      return undefined;
    }
  }

  private *pendingOf(cell: FormulaCell): Generator<FormulaCell> {
    for (const range of this.translationOf(cell).reads) yield* this.sheetAt(range.sheet).pendingIn(range);
  }

  /** Puts formulas that are needed first on the stack. A formula that waits for itself gets no result. */
  private pushPending(stack: FormulaCell[], pending: Iterable<FormulaCell>): boolean {
    let isWaiting = false;
    for (const cell of pending) {
      isWaiting = true;
      if (cell.state === "dirty") {
        stack.push(cell);
        continue;
      }
      const ring = stack.slice(stack.indexOf(cell)).filter(({ state }) => state === "waiting");
      for (const member of ring) {
        this.finish(member, {
          ...storedOutcome(member),
          why: "it refers to itself, directly or through others",
        });
      }
      return true;
    }
    return isWaiting;
  }

  private evaluate(cell: FormulaCell, univer: UniverFormulas): Promise<void> | undefined {
    const translation = this.translationOf(cell);
    const problem = this.problemOf(cell, translation);
    if (problem !== undefined) {
      this.finish(cell, { ...storedOutcome(cell), why: problem });
      return undefined;
    }
    if (this.keepsChanging && has(translation, CHANGING)) {
      this.finish(cell, storedOutcome(cell));
      return undefined;
    }
    const text = translation.parts
      .map((part) => (typeof part === "string" ? part : this.spillAddress(part, cell.sheet)))
      .join("");
    const evaluated = univer.evaluate(text, cell);
    const settle = (result: Evaluated): void => {
      this.finish(cell, this.outcomeOf(cell, translation, result, text));
    };
    if (evaluated instanceof Promise) return evaluated.then(settle);
    settle(evaluated);
    return undefined;
  }

  private problemOf({ formula }: FormulaCell, translation: Translation): string | undefined {
    if (formula.kind === "dataTable") return "it is a what-if table";
    if (formula.range !== undefined && cellCount(formula.range) > MAX_CELLS_FILLED)
      return "it fills too many cells";
    if (translation.problem !== undefined) return translation.problem;
    return this.workbook?.date1904 === true ? dateProblem(translation.calls) : undefined;
  }

  /** The rectangle that the formula in a cell fills at present, as text. */
  private spillAddress(anchor: SheetRange, sheet: number): string {
    const cell = this.sheetAt(anchor.sheet).formulas.get(keyOf(anchor.firstRow, anchor.firstColumn));
    if (cell?.state !== "done") {
      if (cell !== undefined) throw new NotReady(cell);
      return "#REF!";
    }
    return addressFor(this.usedContext(), sheet, { ...(cell.area ?? cellRange(cell)), sheet: anchor.sheet });
  }

  private outcomeOf(
    cell: FormulaCell,
    translation: Translation,
    evaluated: Evaluated,
    text: string,
  ): Outcome {
    const errors = new Set(evaluated.rows.flat().map(errorOf));
    const odd = NOT_UNDERSTOOD.find((code) => errors.has(code));
    if (odd !== undefined && errorOf(cell.stored) !== odd) {
      const isOurs = evaluated.failures.some(({ code }) => code === odd);
      if (!isOurs && !this.isRead(translation, odd)) {
        return { ...storedOutcome(cell), why: NOT_FOLLOWED };
      }
    }
    const outcome = this.placed(cell, translation, evaluated, text);
    const shown = new Set((outcome.table ?? [[outcome.value]]).flat().map(errorOf));
    const failure = evaluated.failures.find(({ code }) => shown.has(code));
    return failure === undefined ? outcome : { ...outcome, sentence: failure.sentence };
  }

  private isRead(translation: Translation, code: string): boolean {
    return translation.reads.some((range) =>
      mapRange(range, (row, column) => this.value({ sheet: range.sheet, row, column }))
        .flat()
        .some((value) => errorOf(value) === code),
    );
  }

  private placed(cell: FormulaCell, translation: Translation, evaluated: Evaluated, text: string): Outcome {
    const { rows } = evaluated;
    const { formula, row, column } = cell;
    const height = rows.length;
    const width = rows[0]?.length ?? 0;
    const [value] = rows[0] ?? [];
    if (formula.kind === "array" && formula.range !== undefined) {
      const table = mapRange(formula.range, (r, c) => filled(rows, r - row, c - column));
      return {
        value: table[0]?.[0] ?? 0,
        ...(table.flat().length > 1 ? { area: formula.range, table } : {}),
      };
    }
    if (height === 1 && width === 1) return { value: value ?? 0 };
    if (formula.kind === "normal") return { value: oneValue(cell, translation, evaluated, text) ?? 0 };
    if (height === 0 || width === 0) return { value: { error: "#CALC!" } };
    const area = {
      firstRow: row,
      firstColumn: column,
      lastRow: row + height - 1,
      lastColumn: column + width - 1,
    };
    const isOutside = area.lastRow >= MAX_ROWS || area.lastColumn >= MAX_COLUMNS;
    if (isOutside || this.sheetAt(cell.sheet).isBlocked(cell, area)) {
      return { value: { error: "#SPILL!" }, blocked: area };
    }
    return { value: value ?? 0, area, table: rows.map((line) => line.map((item) => item ?? 0)) };
  }

  private finish(cell: FormulaCell, outcome: Outcome): void {
    const before = cell.area;
    const sheet = this.sheetAt(cell.sheet);
    delete cell.table;
    delete cell.blocked;
    delete cell.sentence;
    delete cell.why;
    const { area, ...rest } = outcome;
    sheet.setArea(cell, area);
    Object.assign(cell, rest);
    cell.state = "done";
    cell.runs++;
    this.finished.add(cell);
    const hasGrown = area !== undefined && (before === undefined || !covers(before, area));
    if (!hasGrown) return;
    if (cell.runs > MAX_RUNS) cell.why = "it does not come to rest";
    else this.touch([{ sheet: cell.sheet, ...area }], cell);
  }

  private touchCell(cell: FormulaCell): void {
    if (cell.state === "done") cell.state = "dirty";
    this.touch([cellRange(cell), ...(cell.area === undefined ? [] : [{ sheet: cell.sheet, ...cell.area }])]);
  }

  /** Marks for another evaluation whatever reads the changed cells, and whatever reads that, and so on. */
  private touch(changed: readonly SheetRange[], except?: FormulaCell): void {
    this.univer?.forgetValues();
    const readersOf = (this.dependents ?? this.indexed()).walk();
    const queue = [...changed];
    const mark = (cell: FormulaCell): void => {
      if (cell.state !== "done" || cell === except) return;
      cell.state = "dirty";
      queue.push(cellRange(cell));
      if (cell.area !== undefined) queue.push({ sheet: cell.sheet, ...cell.area });
    };
    for (const cell of this.allCells()) if (has(cell.translation, WANDERING)) mark(cell);
    for (let range = queue.pop(); range !== undefined; range = queue.pop()) {
      for (const cell of readersOf(range)) mark(cell);
    }
  }

  private indexed(): Dependents<FormulaCell> {
    const dependents = new Dependents<FormulaCell>();
    for (const cell of this.allCells()) dependents.add(cell, this.translationOf(cell).reads);
    this.dependents = dependents;
    return dependents;
  }
}

function newCell(place: CellPlace, formula: CellFormula, stored: CellValue): FormulaCell {
  const { sheet, row, column } = place;
  return { sheet, row, column, formula, stored, state: "dirty", value: stored, runs: 0 };
}

function fills(formula: CellFormula): boolean {
  return formula.kind === "array" || formula.kind === "dynamic";
}

/** What stands in the file as the result: the value, and the cells around it that it wrote. */
function storedOutcome(cell: FormulaCell): Outcome {
  const { stored, area, table } = cell;
  if (area === undefined || table === undefined) return { value: stored };
  return { value: stored, area, table };
}

/** The single value of a formula that may not spill: what lies in the formula's row or column, else the first. */
function oneValue(
  cell: FormulaCell,
  translation: Translation,
  evaluated: Evaluated,
  text: string,
): CellValue {
  const { rows, reference, isSpread } = evaluated;
  const height = rows.length;
  const width = rows[0]?.length ?? 0;
  if (reference !== undefined) return intersected(rows, reference, cell);
  const maker = /^\+?([A-Z][A-Z0-9_.]*)\(/.exec(text)?.[1] ?? "";
  const isMade = ARRAY_MAKERS.has(maker) || (maker.startsWith("BLN_") && !isSpread);
  const source = translation.reads.find((range) => {
    const isColumn = width === 1 && range.firstColumn === range.lastColumn;
    const isRow = height === 1 && range.firstRow === range.lastRow;
    return (
      (isColumn && range.lastRow - range.firstRow + 1 === height) ||
      (isRow && range.lastColumn - range.firstColumn + 1 === width)
    );
  });
  return intersected(rows, isMade ? undefined : source, cell);
}

/** A cell of an array formula's range: single rows and columns repeat, what the result lacks is `#N/A`. */
function filled(rows: Rows, row: number, column: number): CellValue {
  const line = rows.length === 1 ? rows[0] : rows[row];
  const value = line?.length === 1 ? line[0] : line?.[column];
  return value === undefined ? { error: "#N/A" } : (value ?? 0);
}

function spilledValue(owner: FormulaCell, row: number, column: number): CellValue {
  const { area, table } = owner;
  return (area && table?.[row - area.firstRow]?.[column - area.firstColumn]) ?? null;
}

function computedOf(cell: FormulaCell): ComputedCell {
  const { sheet, row, column, value, area, table, sentence } = cell;
  return {
    sheet,
    row,
    column,
    value,
    ...(area !== undefined && table !== undefined ? { spill: area, spilled: table } : {}),
    ...(sentence === undefined ? {} : { sentence }),
  };
}

function uncomputedOf(cell: FormulaCell): UncomputedCell[] {
  const { sheet, row, column, formula, why } = cell;
  return why === undefined ? [] : [{ sheet, row, column, formula: formula.text, why }];
}

function has(translation: Translation | undefined, names: ReadonlySet<string>): boolean {
  if (translation === undefined) return false;
  for (const name of translation.calls) if (names.has(name)) return true;
  return false;
}

function errorOf(value: CellValue): string | undefined {
  return typeof value === "object" ? value?.error : undefined;
}

function cellRange({ sheet, row, column }: CellPlace): SheetRange {
  return { sheet, firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
}

function cellCount(range: CellRange): number {
  return (range.lastRow - range.firstRow + 1) * (range.lastColumn - range.firstColumn + 1);
}

function covers(outer: CellRange, inner: CellRange): boolean {
  return (
    inner.firstRow >= outer.firstRow &&
    inner.lastRow <= outer.lastRow &&
    inner.firstColumn >= outer.firstColumn &&
    inner.lastColumn <= outer.lastColumn
  );
}

function mapRange<Item>(range: CellRange, make: (row: number, column: number) => Item): Item[][] {
  return Array.from({ length: range.lastRow - range.firstRow + 1 }, (_, row) =>
    Array.from({ length: range.lastColumn - range.firstColumn + 1 }, (_, column) =>
      make(range.firstRow + row, range.firstColumn + column),
    ),
  );
}

function keyOf(row: number, column: number): number {
  return row * MAX_COLUMNS + column;
}

function* keysOf(range: CellRange): Generator<number> {
  for (let row = range.firstRow; row <= range.lastRow; row++) {
    for (let column = range.firstColumn; column <= range.lastColumn; column++) yield keyOf(row, column);
  }
}

/** Position of the first formula of a column in or below a row. */
function firstAtOrAfter(cells: readonly FormulaCell[], row: number): number {
  let low = 0;
  let high = cells.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((cells[middle]?.row ?? 0) < row) low = middle + 1;
    else high = middle;
  }
  return low;
}
