import { cellAddress, contains } from "../formula/address";
import type { CellPlace } from "../sheet/engine";
import { type ColumnFilter, listAround } from "../workbook/filter-rows";
import type { ListFilter } from "../workbook/row-filters";
import { askForFilter } from "./filter-dialog";
import type { Grid } from "./grid";
import type { OpenBook } from "./open-book";
import { rowFilter, shownValues, withColumn } from "./row-filter";
import type { StatusLine } from "./status";

/** What filters do on the page. */
export interface FilterActions {
  /** Asks which entries of the selected cell's column stay in sight. */
  choose(): Promise<void>;
  /** Shows the rows that show the same as the selected cell in its column, or all rows of its list. */
  filter(isSet: boolean): void;
  /** Whether a cell is a heading of a list with a filter. */
  isHeading(place: CellPlace): boolean;
}

export function makeFilterActions(open: OpenBook, grid: Grid, status: StatusLine): FilterActions {
  const filtersAt = (place: CellPlace): readonly ListFilter[] =>
    open.book?.model.features?.[place.sheet]?.filters ?? [];

  /** The list around the selected cell; undefined, with a sentence, where it cannot be filtered. */
  function list(): ListFilter | undefined {
    const { book } = open;
    if (!book) return undefined;
    const { place } = grid;
    const { filter, isProtected = false } = book.model.sheets[place.sheet] ?? {};
    if (isProtected) {
      status.say("this sheet is protected: its rows stay as they are", "error");
      return undefined;
    }
    const known = filtersAt(place).find(({ range }) => contains(range, place.row, place.column));
    const found = known ?? {
      range: listAround(book.model.tables, filter, place, grid.selection.range),
      columns: [],
      hasOthers: false,
    };
    if (found.range.lastRow > found.range.firstRow) return found;
    status.say("select a list with its headings first", "error");
    return undefined;
  }

  function apply({ range, hasOthers }: ListFilter, columns: readonly ColumnFilter[]): void {
    if (hasOthers && columns.length > 0) {
      const why = "this list is filtered by a comparison, rank, date or colour: show all its rows first";
      status.say(why, "error");
      return;
    }
    void open.restructure({ kind: "filter", ...rowFilter(grid, grid.place.sheet, range, columns) });
  }

  return {
    async choose() {
      const found = list();
      if (!found) return;
      const { sheet, column } = grid.place;
      const { range, columns } = found;
      const heading = grid.text({ sheet, row: range.firstRow, column });
      const choice = await askForFilter(
        `Filter by ${heading === "" ? cellAddress(range.firstRow, column) : heading}`,
        shownValues(grid, sheet, range, column),
        columns.find((filter) => filter.column === column)?.shown,
      );
      grid.focus();
      if (choice) apply(found, withColumn(columns, column, choice.kind === "all" ? undefined : choice.shown));
    },
    filter(isSet) {
      const found = list();
      if (!found) return;
      const { place } = grid;
      apply(found, isSet ? withColumn(found.columns, place.column, [grid.text(place)]) : []);
    },
    isHeading(place) {
      return filtersAt(place).some(
        ({ range }) => place.row === range.firstRow && contains(range, place.row, place.column),
      );
    },
  };
}
