import { MAX_COLUMNS, MAX_ROWS } from "../formula/address";
import type { CellPlace } from "./engine";

/** The number of a cell within its workbook; cells in order, row by row and sheet by sheet, have rising numbers. */
export function placeNumber({ sheet, row, column }: CellPlace): number {
  return (sheet * MAX_ROWS + row) * MAX_COLUMNS + column;
}
