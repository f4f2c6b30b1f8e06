import type { TableModel } from "./model";

/** What headings of tables are drawn on, where the file leaves that to the table's style. */
export const HEADING_FILL = "#dfe7f0";
export const HEADING_INK = "#1d2733";

/** Heading cells of tables as `row,column`: Excel draws them from the table's style and not from the cell's. */
export function headingCells(tables: readonly TableModel[]): ReadonlySet<string> {
  const headings = new Set<string>();
  for (const { range, headerRows } of tables) {
    for (let row = range.firstRow; row < range.firstRow + headerRows; row++) {
      for (let column = range.firstColumn; column <= range.lastColumn; column++)
        headings.add(`${row},${column}`);
    }
  }
  return headings;
}
