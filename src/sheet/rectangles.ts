import type { CellRange } from "../formula/address";
import type { CellPlace } from "./engine";

/** A rectangle on a sheet. */
export interface SheetRange extends CellRange {
  readonly sheet: number;
}

/** The rectangle of one cell. */
export function cellRange({ sheet, row, column }: CellPlace): SheetRange {
  return { sheet, firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
}

/** Names a rectangle on a sheet. */
export function rangeKey({ sheet, firstRow, firstColumn, lastRow, lastColumn }: SheetRange): string {
  return [sheet, firstRow, firstColumn, lastRow, lastColumn].join();
}

/** How many cells a rectangle has. */
export function cellCount(range: CellRange): number {
  return (range.lastRow - range.firstRow + 1) * (range.lastColumn - range.firstColumn + 1);
}

/** Whether one rectangle lies in another. */
export function covers(outer: CellRange, inner: CellRange): boolean {
  return (
    inner.firstRow >= outer.firstRow &&
    inner.lastRow <= outer.lastRow &&
    inner.firstColumn >= outer.firstColumn &&
    inner.lastColumn <= outer.lastColumn
  );
}

/** Whether two rectangles of one sheet share a cell. */
export function intersects(a: CellRange, b: CellRange): boolean {
  return (
    a.firstRow <= b.lastRow &&
    b.firstRow <= a.lastRow &&
    a.firstColumn <= b.lastColumn &&
    b.firstColumn <= a.lastColumn
  );
}

/** One item for each cell of a rectangle, row by row. */
export function mapRange<Item>(range: CellRange, make: (row: number, column: number) => Item): Item[][] {
  return Array.from({ length: range.lastRow - range.firstRow + 1 }, (_, row) =>
    Array.from({ length: range.lastColumn - range.firstColumn + 1 }, (_, column) =>
      make(range.firstRow + row, range.firstColumn + column),
    ),
  );
}
