import { cellAddress } from "../formula/address";
import { listAround } from "../workbook/filter-rows";
import { ask } from "./ask";
import { readClipboard } from "./clipboard-reading";
import { openFindDialog } from "./find-dialog";
import type { Grid } from "./grid";
import type { WrittenCell } from "./grid-cells";
import type { OpenBook } from "./open-book";
import { rowFilter } from "./row-filter";
import { sortedOrder } from "./sorting";
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
  filter(isSet: boolean): void;
  find(): void;
}

export function makeSheetActions(
  open: OpenBook,
  grid: Grid,
  status: StatusLine,
  locale: () => ReaderLocale,
): SheetActions {
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
      const { sheet, range } = grid.selection;
      const column = grid.place.column - range.firstColumn;
      if (range.firstRow === range.lastRow) {
        status.say("select the rows to sort, headings left out", "error");
        return;
      }
      const values = grid.values(sheet, range);
      const inputs = grid.inputs(sheet, range);
      const hasFormula = inputs.some((cells) =>
        cells.some(({ content }) => typeof content === "string" && content.startsWith("=")),
      );
      if (hasFormula) {
        status.say("rows with formulas are not sorted here: their references would point elsewhere", "error");
        return;
      }
      const order = sortedOrder(
        values.map((cells) => cells[column] ?? null),
        isAscending,
      );
      const rows = order.map((at) => inputs[at] ?? []);
      const place = { sheet, row: range.firstRow, column: range.firstColumn };
      if (grid.write(place, rows)) status.say(`${String(rows.length)} rows were sorted`);
    },
    filter(isSet) {
      const { book } = open;
      if (!book) return;
      const { place } = grid;
      const { sheet } = place;
      const { filter, isProtected = false } = book.model.sheets[sheet] ?? {};
      if (isProtected) {
        status.say("this sheet is protected: its rows stay as they are", "error");
        return;
      }
      const range = listAround(book.model.tables, filter, place, grid.selection.range);
      void open.restructure({ kind: "filter", ...rowFilter(grid, place, range, isSet) });
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
