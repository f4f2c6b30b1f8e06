import type { CellRange } from "../formula/address";
import type { CellPlace } from "../sheet/engine";
import type { ColumnFilter, RowFilter } from "../workbook/filter-rows";

/** What the filter reads from the sheet. */
export interface ShownCells {
  text(place: CellPlace): string;
}

/** A text that a column of a list shows, and in how many rows. */
export interface ShownValue {
  readonly text: string;
  readonly count: number;
}

function* rowsOf({ firstRow, lastRow }: CellRange): Generator<number> {
  for (let row = firstRow + 1; row <= lastRow; row++) yield row;
}

/** The rows of a list that stay and go where its columns show only some texts, whatever their case. */
export function rowFilter(
  cells: ShownCells,
  sheet: number,
  range: CellRange,
  columns: readonly ColumnFilter[],
): RowFilter {
  const wanted = columns.map(({ column, shown }) => ({
    column,
    texts: new Set(shown.map((text) => text.toLowerCase())),
  }));
  const hidden = [...rowsOf(range)].filter((row) =>
    wanted.some(({ column, texts }) => !texts.has(cells.text({ sheet, row, column }).toLowerCase())),
  );
  return { sheet, range, columns, hidden };
}

/** The filters of a list with those of one column replaced; `shown` undefined takes that column's away. */
export function withColumn(
  columns: readonly ColumnFilter[],
  column: number,
  shown: readonly string[] | undefined,
): readonly ColumnFilter[] {
  const others = columns.filter((filter) => filter.column !== column);
  return shown === undefined ? others : [...others, { column, shown }].sort((a, b) => a.column - b.column);
}

/** What a column of a list shows, in the order of its rows; blank cells last. */
export function shownValues(
  cells: ShownCells,
  sheet: number,
  range: CellRange,
  column: number,
): readonly ShownValue[] {
  const found = new Map<string, { text: string; count: number }>();
  for (const row of rowsOf(range)) {
    const text = cells.text({ sheet, row, column });
    const known = found.get(text.toLowerCase());
    if (known) known.count++;
    else found.set(text.toLowerCase(), { text, count: 1 });
  }
  return [...found.values()].sort((a, b) => Number(a.text === "") - Number(b.text === ""));
}
