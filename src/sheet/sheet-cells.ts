import { type CellRange, MAX_COLUMNS } from "../formula/address";
import type { CellFormula, CellValue, SheetModel } from "../workbook/model";
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
    runs: 0,
  };
}

/** Gives a cell its result. */
export function takeOutcome(cell: FormulaCell, outcome: CellOutcome): void {
  delete cell.table;
  delete cell.blocked;
  delete cell.sentences;
  delete cell.why;
  delete cell.differs;
  // Its area is the sheet's to change: SheetCells.setArea.
  Object.assign(cell, { ...outcome, area: cell.area });
  if (cell.area === undefined) delete cell.area;
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
    const table = mapRange(area, (row, column) => {
      const key = keyOf(row, column);
      if (row === owner.row && column === owner.column) return owner.stored.value;
      const value = this.constants.get(key) ?? null;
      if (this.formulas.has(key)) return null;
      this.constants.delete(key);
      this.spilled.set(key, owner);
      return value;
    });
    owner.table = table;
    owner.stored = { value: owner.stored.value, area, table };
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

  /** The last row and column in use. */
  extent(): { readonly lastRow: number; readonly lastColumn: number } {
    let lastRow = 0;
    let lastColumn = 0;
    for (const keys of [this.constants.keys(), this.formulas.keys(), this.spilled.keys()]) {
      for (const key of keys) {
        lastRow = Math.max(lastRow, Math.floor(key / MAX_COLUMNS));
        lastColumn = Math.max(lastColumn, key % MAX_COLUMNS);
      }
    }
    return { lastRow, lastColumn };
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

function fills(formula: CellFormula): boolean {
  return formula.kind === "array" || formula.kind === "dynamic";
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
