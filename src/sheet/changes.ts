import { type CellRange, contains } from "../formula/address";
import type { CellFinder } from "../workbook/cell-finder";
import { isSameValue } from "../workbook/cell-values";
import type { CellChange, CellValue } from "../workbook/model";
import type { CellPlace, ComputedCell } from "./engine";

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
  const changes = new Map<string, ChangedCell>();
  const note = (sheet: number, row: number, column: number, value: CellValue, range?: CellRange): void => {
    const before = cellAt(sheet, row, column)?.value ?? null;
    if (range === undefined && isSameValue(before, value)) return;
    const change = { sheet, row, column, value, before };
    changes.set(
      `${String(sheet)}!${placeKey(row, column)}`,
      range === undefined ? change : { ...change, range },
    );
  };
  const spills = computed.map((cell) => {
    const formula = cellAt(cell.sheet, cell.row, cell.column)?.formula;
    const isFilling = formula?.kind === "dynamic" || formula?.kind === "array";
    const old = isFilling ? (formula.range ?? single(cell)) : single(cell);
    const fresh = cell.spill ?? single(cell);
    return { cell, old, fresh, range: isFilling && !isSameRange(old, fresh) ? fresh : undefined };
  });
  const clear = (
    { sheet, row: ownRow, column: ownColumn }: CellPlace,
    old: CellRange,
    fresh?: CellRange,
  ): void => {
    forEachCell(old, (row, column) => {
      const isOwn = row === ownRow && column === ownColumn;
      const hasFormula = cellAt(sheet, row, column)?.formula !== undefined;
      const isFilled = fresh !== undefined && contains(fresh, row, column);
      if (!isOwn && !hasFormula && !isFilled) note(sheet, row, column, null);
    });
  };
  // What a spill leaves is cleared first, so that another spill may take the place.
  for (const range of left) clear(range, range.range);
  for (const { cell, old, fresh } of spills) clear(cell, old, fresh);
  for (const { cell, fresh, range } of spills) {
    note(cell.sheet, cell.row, cell.column, cell.value, range);
    forEachCell(fresh, (row, column) => {
      if (row === cell.row && column === cell.column) return;
      const key = `${String(cell.sheet)}!${placeKey(row, column)}`;
      changes.delete(key);
      note(
        cell.sheet,
        row,
        column,
        cell.spilled?.[row - fresh.firstRow]?.[column - fresh.firstColumn] ?? null,
      );
    });
  }
  return [...changes.values()];
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

function placeKey(row: number, column: number): string {
  return `${String(row)},${String(column)}`;
}
