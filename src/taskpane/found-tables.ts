import { jobTables, type TableCells } from "../formula/job-tables";
import type { SheetCell } from "../formula/scope";
import type { FoundTable } from "../functions/event/find-tables";
import { blocksOf } from "./contents";
import type { CellRows, Outline, SheetHost } from "./sheet-host";
import { withNulls } from "./workbook-check";

/** Rows of a sheet that are looked through for tables: as many as one table may have. */
const MOST_ROWS_READ = 20_000;

/** The tables of a job in the workbook, those on the selected sheet first. */
export async function findTables(
  host: SheetHost,
  outline: Outline,
  at: SheetCell,
): Promise<readonly FoundTable[]> {
  const sheets: TableCells[] = [];
  for (const { name, used } of outline.sheets) {
    if (used === undefined) continue;
    const range = {
      ...used,
      lastRow: Math.min(used.lastRow, used.firstRow + MOST_ROWS_READ - 1),
      lastColumn: Math.min(used.lastColumn, used.firstColumn + 255),
    };
    const rows: CellRows[number][] = [];
    // Block by block: one answer for a whole sheet is more than Excel gives.
    for (const block of blocksOf(range)) {
      const [answer] = await host.read([{ sheet: name, range: block }]);
      rows.push(...(answer?.values ?? []));
    }
    sheets.push({ sheet: name, range, rows: withNulls(rows) });
  }
  return jobTables(outline, sheets, at);
}
