import { jobTables } from "../formula/job-tables";
import type { FoundTable } from "../functions/event/find-tables";
import { scopeOf } from "../workbook/scope";
import type { Book } from "./book";
import type { Grid } from "./grid";

/** What is looked through for the tables of a job; the grid cuts it to what it has. */
const WHOLE_SHEET = { firstRow: 0, firstColumn: 0, lastRow: 20_019, lastColumn: 255 };

/** The tables of a job in the open workbook, those on the sheet of the chosen cell first. */
export function foundTables(book: Book, grid: Grid): readonly FoundTable[] {
  const names = book.sheetNames;
  const sheets = names.map((sheet, index) => ({
    sheet,
    range: WHOLE_SHEET,
    rows: grid.values(index, WHOLE_SHEET),
  }));
  const at = { ...grid.place, sheet: names[grid.place.sheet] ?? "" };
  return jobTables(scopeOf(book.model), sheets, at);
}
