import { columnLetters } from "../formula/address";
import type { CellPlace } from "../sheet/engine";
import { element, type View } from "../ui/element";

/** Most rows and columns that are written out; a longer sheet is read in the grid. */
const MOST_ROWS = 300;
const MOST_COLUMNS = 40;

/** What the table reads from the sheet beside it. */
export interface TableSource {
  readonly name: string;
  readonly sheet: number;
  /** Rows and columns up to the last cell that shows something. */
  readonly rows: number;
  readonly columns: number;
  text(place: CellPlace): string;
}

/** The sheet as a table of a page, for those who do not see the canvas. */
export interface TableView extends View {
  /** Writes the table anew, where it is in sight. */
  show(source: () => TableSource | undefined): void;
}

export function makeTableView(): TableView {
  const root = element("div", {
    class: "desk-table",
    tabindex: 0,
    role: "region",
    "aria-label": "Sheet as a table",
  });
  let source: (() => TableSource | undefined) | undefined;

  function write(): void {
    const table = source?.();
    if (!table || root.offsetParent === null) return;
    const rows = Math.min(table.rows, MOST_ROWS);
    const columns = Math.min(table.columns, MOST_COLUMNS);
    const letters = Array.from({ length: columns }, (_, column) =>
      element("th", { scope: "col" }, columnLetters(column)),
    );
    const lines = Array.from({ length: rows }, (_, row) => {
      const cells = Array.from({ length: columns }, (_, column) =>
        element("td", {}, table.text({ sheet: table.sheet, row, column })),
      );
      return element("tr", {}, element("th", { scope: "row" }, String(row + 1)), ...cells);
    });
    const isCut = rows < table.rows || columns < table.columns;
    const caption = `${table.name}${isCut ? `, its first ${String(rows)} rows and ${String(columns)} columns` : ""}`;
    root.replaceChildren(
      element(
        "table",
        {},
        element("caption", {}, caption),
        element("thead", {}, element("tr", {}, element("td", {}), ...letters)),
        element("tbody", {}, ...lines),
      ),
    );
  }

  new ResizeObserver(write).observe(root);
  return {
    element: root,
    show(next) {
      source = next;
      write();
    },
  };
}
