import { type CellRange, contains } from "../formula/address";
import type { CellFinder } from "../workbook/cell-finder";
import { isSameValue } from "../workbook/cell-values";
import type { CellChange, CellValue } from "../workbook/model";
import type { CellPlace, ComputedCell } from "./engine";
import { placeNumber } from "./place-number";

/** A cell whose value became another one. */
export interface ChangedCell extends CellChange {
  readonly before: CellValue;
  readonly value: CellValue;
}

/** A range that a formula filled which no longer stands. */
export interface LeftRange extends CellPlace {
  readonly range: CellRange;
}

/**
 * What computed cells change in a file: values that differ from the stored ones as far as a file can tell, extents of spills
 * that grew or shrank, and the cells that a spill leaves.
 *
 * @param cellAt the cells as they stand in the file, or will stand before these changes
 */
export function changesOf(
  cellAt: CellFinder,
  computed: readonly ComputedCell[],
  left: readonly LeftRange[] = [],
): readonly ChangedCell[] {
  const changes = new Changes(cellAt);
  const filling = new Map<ComputedCell, Filling>();
  for (const cell of computed) {
    const formula = cellAt(cell.sheet, cell.row, cell.column)?.formula;
    const isFilling = formula?.kind === "dynamic" || formula?.kind === "array";
    if (!isFilling && cell.spill === undefined) continue;
    const old = isFilling ? (formula.range ?? single(cell)) : single(cell);
    const fresh = cell.spill ?? single(cell);
    filling.set(cell, { old, fresh, range: isFilling && !isSameRange(old, fresh) ? fresh : undefined });
  }
  // What a spill leaves is cleared first, so that another spill may take the place.
  for (const range of left) changes.clear(range, range.range);
  for (const [cell, { old, fresh }] of filling) changes.clear(cell, old, fresh);
  for (const cell of computed) {
    const filled = filling.get(cell);
    changes.note(cell.sheet, cell.row, cell.column, cell.value, filled?.range);
    if (filled !== undefined) changes.fill(cell, filled.fresh);
  }
  return changes.all();
}

/** What a formula filled before and fills now, and what the file is to be told of that. */
interface Filling {
  readonly old: CellRange;
  readonly fresh: CellRange;
  readonly range: CellRange | undefined;
}

/** Changes by sheet and cell; what is noted later takes the place of what was noted before. */
class Changes {
  private readonly changes = new Map<number, ChangedCell>();

  constructor(private readonly cellAt: CellFinder) {}

  note(sheet: number, row: number, column: number, value: CellValue, range?: CellRange): void {
    const before = this.cellAt(sheet, row, column)?.value ?? null;
    if (range === undefined && isSameValue(before, value)) return;
    const change = { sheet, row, column, value, before };
    this.changes.set(
      placeNumber({ sheet, row, column }),
      range === undefined ? change : { ...change, range },
    );
  }

  /** Notes what a formula writes into the cells around it. */
  fill({ sheet, row: ownRow, column: ownColumn, spilled }: ComputedCell, fresh: CellRange): void {
    forEachCell(fresh, (row, column) => {
      if (row === ownRow && column === ownColumn) return;
      this.changes.delete(placeNumber({ sheet, row, column }));
      this.note(sheet, row, column, spilled?.[row - fresh.firstRow]?.[column - fresh.firstColumn] ?? null);
    });
  }

  /** Blanks what a formula filled and does not fill any more. */
  clear(owner: CellPlace, old: CellRange, fresh?: CellRange): void {
    forEachCell(old, (row, column) => {
      const isOwn = row === owner.row && column === owner.column;
      const hasFormula = this.cellAt(owner.sheet, row, column)?.formula !== undefined;
      const isFilled = fresh !== undefined && contains(fresh, row, column);
      if (!isOwn && !hasFormula && !isFilled) this.note(owner.sheet, row, column, null);
    });
  }

  all(): readonly ChangedCell[] {
    return [...this.changes.values()];
  }
}

function single({ row, column }: { readonly row: number; readonly column: number }): CellRange {
  return { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
}

function isSameRange(a: CellRange, b: CellRange): boolean {
  return a.lastRow === b.lastRow && a.lastColumn === b.lastColumn;
}

function forEachCell(range: CellRange, visit: (row: number, column: number) => void): void {
  for (let row = range.firstRow; row <= range.lastRow; row++) {
    for (let column = range.firstColumn; column <= range.lastColumn; column++) visit(row, column);
  }
}
