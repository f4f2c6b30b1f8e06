import type { CellRange } from "../formula/address";
import type { CellValue } from "../workbook/model";

/** Rows of cells, and where they are if they are cells of a sheet. */
export interface ValueCells {
  readonly rows: readonly (readonly CellValue[])[];
  readonly reference?: CellRange;
}

/** Whether a cell holds an error. */
export function isErrorCell(value: CellValue): value is { readonly error: string } {
  return typeof value === "object" && value !== null;
}

/** Whether rows hold more than one cell. */
export function isRectangle(rows: readonly (readonly CellValue[])[]): boolean {
  return rows.length > 1 || (rows[0]?.length ?? 0) > 1;
}

/** The first cell of rows. */
export function singleCell(rows: readonly (readonly CellValue[])[]): CellValue {
  return rows[0]?.[0] ?? null;
}

/** The cell of a rectangle that belongs to one call, where a single row or column serves all of them. */
export function cellAt(rows: readonly (readonly CellValue[])[], row: number, column: number): CellValue {
  const line = rows.length === 1 ? rows[0] : rows[row];
  const cell = line?.length === 1 ? line[0] : line?.[column];
  return cell === undefined ? { error: "#N/A" } : cell;
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
  return cell === undefined ? { error: "#VALUE!" } : cell;
}
