import type { CellRange } from "../formula/address";
import type { CellPlace } from "../sheet/engine";
import type { RowFilter } from "../workbook/filter-rows";

/** What the filter reads from the sheet. */
export interface ShownCells {
  text(place: CellPlace): string;
}

/** The rows of a list that show the same as the row of a cell in the cell's column; or all of them. */
export function rowFilter(cells: ShownCells, place: CellPlace, range: CellRange, isSet: boolean): RowFilter {
  const { sheet, column } = place;
  if (!isSet) return { sheet, range, hidden: [] };
  const shown = cells.text(place);
  const hidden: number[] = [];
  for (let row = range.firstRow + 1; row <= range.lastRow; row++) {
    if (cells.text({ sheet, row, column }) !== shown) hidden.push(row);
  }
  return { sheet, range, only: { column, shown }, hidden };
}
