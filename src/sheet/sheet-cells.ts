import { type CellRange, MAX_COLUMNS } from "../formula/address";
import type { CellFormula, CellValue, SheetModel } from "../workbook/model";
import { PENDING, SheetValues, type StoredValue } from "./column-values";
import type { FormulaPattern } from "./compiled/patterns";
import type { CellPlace, CellSentence, DifferingCell } from "./engine";
import type { Translation } from "./translation";
import { cellCount, intersects, mapRange } from "./rectangles";

/** Cells that one formula may fill: far more than a sheet of ours needs, far less than hangs. */
export const MAX_CELLS_FILLED = 2 ** 20;

/** Rows of cells. */
export type Rows = readonly (readonly CellValue[])[];

/** What a formula gives its own cell and, where it fills more, the cells around it. */
export interface CellOutcome {
  readonly value: CellValue;
  /** What it fills, and with what, where that is more than its own cell. */
  readonly area?: CellRange;
  readonly table?: Rows;
  /** What it would fill if nothing stood in the way. */
  readonly blocked?: CellRange;
  /** Why functions of ours failed, by the cell that shows the error. */
  readonly sentences?: readonly CellSentence[];
  /** Why it has no result of ours. */
  readonly why?: string;
  /** What it would be if the stored value did not stand. */
  readonly differs?: Pick<DifferingCell, "ours" | "why">;
}

/** A formula cell and where its calculation stands. */
export interface FormulaCell extends CellPlace {
  readonly formula: CellFormula;
  /** What stands in the file, as long as nothing that was typed since reaches the cell. */
  stored: CellOutcome;
  /** Whether something typed since the file was read reaches the cell, so that what is stored says nothing about it. */
  isReached: boolean;
  /** Why it is not to be computed, where somebody said so. */
  held?: string;
  state: "dirty" | "waiting" | "done";
  value: CellValue;
  area?: CellRange;
  table?: Rows;
  blocked?: CellRange;
  sentences?: readonly CellSentence[];
  why?: string;
  differs?: Pick<DifferingCell, "ours" | "why">;
  /** The formula as all cells have it that it was filled into, where it means the same in all. */
  pattern: FormulaPattern | undefined;
  /** The formula of a cell without a pattern. */
  translation?: Translation;
  runs: number;
}

/** A formula cell that was not computed yet. */
export function newCell(place: CellPlace, formula: CellFormula, stored: CellValue): FormulaCell {
  const { sheet, row, column } = place;
  return {
    sheet,
    row,
    column,
    formula,
    stored: { value: stored },
    isReached: false,
    state: "dirty",
    value: stored,
    pattern: undefined,
    runs: 0,
  };
}

/** Gives a cell its result. */
export function takeOutcome(cell: FormulaCell, outcome: CellOutcome): void {
  const { value, table, blocked, sentences, why, differs } = outcome;
  cell.value = value;
  // Its area is the sheet's to change: SheetCells.setArea. A deletion makes an object slow to use, and most cells have
  // nothing to delete.
  if (table !== undefined) cell.table = table;
  else if (cell.table !== undefined) delete cell.table;
  if (blocked !== undefined) cell.blocked = blocked;
  else if (cell.blocked !== undefined) delete cell.blocked;
  if (sentences !== undefined) cell.sentences = sentences;
  else if (cell.sentences !== undefined) delete cell.sentences;
  if (why !== undefined) cell.why = why;
  else if (cell.why !== undefined) delete cell.why;
  if (differs !== undefined) cell.differs = differs;
  else if (cell.differs !== undefined) delete cell.differs;
}

/** What a formula wrote into a cell around it. */
export function spilledValue(owner: FormulaCell, row: number, column: number): CellValue {
  const { area, table } = owner;
  return (area && table?.[row - area.firstRow]?.[column - area.firstColumn]) ?? null;
}

/** The number of a cell within its sheet. */
export function keyOf(row: number, column: number): number {
  return row * MAX_COLUMNS + column;
}

/** The cells of one sheet: constants, formulas, and what formulas fill around them. */
export class SheetCells {
  /** What stands in the cells, whatever it comes from. */
  readonly values: SheetValues;
  readonly formulas = new Map<number, FormulaCell>();
  /** Who fills a cell that has no formula of its own. */
  readonly spilled = new Map<number, FormulaCell>();
  readonly owners = new Set<FormulaCell>();
  readonly merges: readonly CellRange[];

  constructor(sheet: SheetModel, index: number) {
    this.merges = sheet.merges;
    this.values = new SheetValues(index);
    for (const { row, column, value, formula } of sheet.cells) {
      if (formula === undefined) {
        this.values.set(row, column, value ?? undefined);
        continue;
      }
      const cell = newCell({ sheet: index, row, column }, formula, value);
      this.formulas.set(keyOf(row, column), cell);
      this.values.set(row, column, PENDING);
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
    const table = mapRange(area, (row, column) => {
      const key = keyOf(row, column);
      if (row === owner.row && column === owner.column) return owner.stored.value;
      if (this.formulas.has(key)) return null;
      const value = this.spilled.has(key) ? null : this.constant(row, column);
      this.spilled.set(key, owner);
      this.values.set(row, column, PENDING);
      return value;
    });
    owner.table = table;
    owner.stored = { value: owner.stored.value, area, table };
  }

  /** What stands in a cell that no formula fills. */
  constant(row: number, column: number): CellValue {
    const value = this.values.get(row, column);
    return value === undefined || value === PENDING ? null : value;
  }

  /** Writes a constant into a cell without a formula; null leaves it blank. */
  setConstant(row: number, column: number, value: CellValue): void {
    this.values.set(row, column, value ?? undefined);
  }

  addFormula(cell: FormulaCell): void {
    this.formulas.set(keyOf(cell.row, cell.column), cell);
    this.values.set(cell.row, cell.column, PENDING);
  }

  removeFormula(cell: FormulaCell): void {
    this.setArea(cell, undefined);
    this.formulas.delete(keyOf(cell.row, cell.column));
    this.values.set(cell.row, cell.column, undefined);
  }

  setArea(cell: FormulaCell, area: CellRange | undefined): void {
    if (cell.area !== undefined) {
      this.fill(cell, cell.area, () => undefined);
      for (const key of keysOf(cell.area)) if (this.spilled.get(key) === cell) this.spilled.delete(key);
      this.owners.delete(cell);
    }
    if (area === undefined) {
      if (cell.area !== undefined) delete cell.area;
      return;
    }
    cell.area = area;
    this.owners.add(cell);
    const own = keyOf(cell.row, cell.column);
    for (const key of keysOf(area)) if (key !== own && !this.formulas.has(key)) this.spilled.set(key, cell);
  }

  /** Takes a formula's result away, until it has another. */
  setPending(cell: FormulaCell): void {
    cell.state = "dirty";
    this.values.set(cell.row, cell.column, PENDING);
    if (cell.area !== undefined) this.fill(cell, cell.area, () => PENDING);
  }

  /** Shows a formula's result, in its own cell and those that it fills. */
  setDone(cell: FormulaCell): void {
    cell.state = "done";
    this.values.set(cell.row, cell.column, cell.value ?? undefined);
    if (cell.area !== undefined)
      this.fill(cell, cell.area, (row, column) => spilledValue(cell, row, column) ?? undefined);
  }

  /** Writes into the cells around a formula that are its to fill. */
  private fill(
    cell: FormulaCell,
    { firstRow, firstColumn, lastRow, lastColumn }: CellRange,
    valueAt: (row: number, column: number) => StoredValue,
  ): void {
    for (let row = firstRow; row <= lastRow; row++) {
      for (let column = firstColumn; column <= lastColumn; column++) {
        if (this.spilled.get(keyOf(row, column)) === cell) this.values.set(row, column, valueAt(row, column));
      }
    }
  }

  /** Whether something stands where a formula would spill. */
  isBlocked(cell: FormulaCell, area: CellRange): boolean {
    const own = keyOf(cell.row, cell.column);
    for (const key of keysOf(area)) {
      if (key === own) continue;
      const owner = this.spilled.get(key);
      if (owner === cell) continue;
      if (owner !== undefined || this.formulas.has(key)) return true;
      if (this.values.get(Math.floor(key / MAX_COLUMNS), key % MAX_COLUMNS) !== undefined) return true;
    }
    return this.merges.some((merge) => intersects(merge, area));
  }

  /** Formulas without a result yet whose own or filled cells lie in a range; one that fills several may come again. */
  *pendingIn({ firstRow, firstColumn, lastRow, lastColumn }: CellRange): Generator<FormulaCell> {
    const { columns } = this.values;
    let latest: FormulaCell | undefined;
    for (let column = firstColumn; column <= Math.min(lastColumn, columns.length - 1); column++) {
      const values = columns[column]?.values ?? [];
      for (let row = firstRow; row <= Math.min(lastRow, values.length - 1); row++) {
        if (values[row] !== PENDING) continue;
        const key = keyOf(row, column);
        const cell = this.formulas.get(key) ?? this.spilled.get(key);
        if (cell !== undefined && cell !== latest) yield cell;
        latest = cell;
      }
    }
  }

  /** The last row and column in use. */
  extent(): { readonly lastRow: number; readonly lastColumn: number } {
    const rows = this.values.columns.map((column) => column?.values.length ?? 0);
    return {
      lastRow: Math.max(0, rows.reduce((last, count) => Math.max(last, count), 0) - 1),
      lastColumn: Math.max(0, rows.length - 1),
    };
  }
}

function fills(formula: CellFormula): boolean {
  return formula.kind === "array" || formula.kind === "dynamic";
}

function* keysOf(range: CellRange): Generator<number> {
  for (let row = range.firstRow; row <= range.lastRow; row++) {
    for (let column = range.firstColumn; column <= range.lastColumn; column++) yield keyOf(row, column);
  }
}
