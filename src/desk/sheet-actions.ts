import { cellAddress, type CellRange, contains } from "../formula/address";
import { intersects } from "../sheet/rectangles";
import { ask } from "./ask";
import { readClipboard } from "./clipboard-reading";
import { openFindDialog } from "./find-dialog";
import type { Grid } from "./grid";
import type { WrittenCell } from "./grid-cells";
import type { OpenBook } from "./open-book";
import { reordered, sortedOrder, sortFault } from "./sorting";
import type { StatusLine } from "./status";
import type { ReaderLocale } from "./typed-value";

/** Most cells that one pasted cell fills. */
const MOST_REPEATED = 100_000;

/** What a person does to the cells of the sheet beyond typing. */
export interface SheetActions {
  /** Puts a formula into the selected cell; gives a sentence about it. */
  insert(formula: string): Promise<string>;
  paste(html: string, text: string): void;
  sort(isAscending: boolean): void;
  find(): void;
}

export function makeSheetActions(
  open: OpenBook,
  grid: Grid,
  status: StatusLine,
  locale: () => ReaderLocale,
): SheetActions {
  /** The selected rows; with one cell selected, all rows of the list around it, without headings and totals. */
  function sortedRange(): CellRange | undefined {
    const { sheet, range } = grid.selection;
    if (range.firstRow < range.lastRow) return range;
    const { row, column } = grid.place;
    const { tables = [], features } = open.book?.model ?? {};
    const table = tables.find((one) => one.sheet === sheet && contains(one.range, row, column));
    const filter = features?.[sheet]?.filters.find((one) => contains(one.range, row, column));
    const list = table
      ? {
          ...table.range,
          firstRow: table.range.firstRow + table.headerRows,
          lastRow: table.range.lastRow - table.totalsRows,
        }
      : filter && { ...filter.range, firstRow: filter.range.firstRow + 1 };
    return list && list.firstRow < list.lastRow ? list : undefined;
  }

  function faultOf(range: CellRange): string | undefined {
    const { sheet } = grid.place;
    const { merges = [], hiddenRows = new Set<number>() } = open.book?.model.sheets[sheet] ?? {};
    if (merges.some((merge) => intersects(merge, range)))
      return "merged cells are not sorted: split them first";
    if ([...hiddenRows].some((row) => row >= range.firstRow && row <= range.lastRow))
      return "some of these rows are hidden: show all rows first";
    return sortFault(grid.inputs(sheet, range), grid.values(sheet, range), range);
  }

  return {
    async insert(formula) {
      const { place } = grid;
      const address = cellAddress(place.row, place.column);
      const held = grid.text(place);
      if (held !== "" && !(await ask(`${address} holds ${held}.`, "Replace it")))
        return `${address} stays as it is`;
      if (!grid.write(place, [[{ content: formula }]])) return "it was not put into the sheet";
      return `put into ${address}`;
    },
    paste(html, text) {
      const cells = readClipboard(html, text, locale());
      if (!cells) {
        status.say("nothing was pasted: the clipboard holds no text and no cells", "error");
        return;
      }
      const { sheet, range } = grid.selection;
      const place = { sheet, row: range.firstRow, column: range.firstColumn };
      const rows = repeated(
        cells.rows,
        range.lastRow - range.firstRow + 1,
        range.lastColumn - range.firstColumn + 1,
      );
      if (grid.write(place, rows)) status.say(`${String(rows.length)} rows were pasted`);
    },
    sort(isAscending) {
      const range = sortedRange();
      const fault = range === undefined ? "select the rows to sort, headings left out" : faultOf(range);
      if (range === undefined || fault !== undefined) {
        status.say(fault ?? "", "error");
        return;
      }
      const { sheet, column } = grid.place;
      const values = grid.values(sheet, range);
      const order = sortedOrder(
        values.map((cells) => cells[column - range.firstColumn] ?? null),
        isAscending,
      );
      const rows = reordered(grid.inputs(sheet, range), order);
      const place = { sheet, row: range.firstRow, column: range.firstColumn };
      if (grid.write(place, rows)) status.say(`${String(rows.length)} rows were sorted`);
    },
    find() {
      const { sheet } = grid.place;
      openFindDialog(grid, (row, column) => grid.formula({ sheet, row, column }) !== undefined);
    },
  };
}

/** One cell fills the whole selection, as in Excel. */
function repeated(
  rows: readonly (readonly WrittenCell[])[],
  height: number,
  width: number,
): readonly (readonly WrittenCell[])[] {
  const [only, ...more] = rows.flat();
  if (!only || more.length > 0 || height * width > MOST_REPEATED) return rows;
  return Array.from({ length: height }, () => Array<WrittenCell>(width).fill(only));
}
