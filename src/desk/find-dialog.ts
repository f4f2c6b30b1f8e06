import { cellAddress } from "../formula/address";
import { button, element } from "../ui/element";
import type { Grid } from "./grid";

/** Rows and columns that are searched; beyond them no sheet of the page goes. */
const EVERYTHING = { firstRow: 0, firstColumn: 0, lastRow: 1_048_575, lastColumn: 16_383 };

/** Finds a text in what the sheet shows and replaces it in what was typed; formulas stay as they are. */
export function openFindDialog(grid: Grid, hasFormula: (row: number, column: number) => boolean): void {
  const wanted = element("input", { class: "bln-input", "aria-label": "Find" });
  const other = element("input", { class: "bln-input", "aria-label": "Replace with" });
  const said = element("p", { role: "status", "aria-live": "polite" });
  const { sheet } = grid.place;

  /** Cells in reading order that show the text, whatever its case. */
  function found(): readonly { readonly row: number; readonly column: number; readonly text: string }[] {
    const text = wanted.value.toLowerCase();
    if (text === "") return [];
    return grid.values(sheet, EVERYTHING).flatMap((cells, row) =>
      cells.flatMap((value, column) => {
        if (value === null || !grid.text({ sheet, row, column }).toLowerCase().includes(text)) return [];
        return [{ row, column, text: String(value) }];
      }),
    );
  }

  function next(): void {
    const places = found();
    const { row, column } = grid.place;
    const after = places.find((place) => place.row > row || (place.row === row && place.column > column));
    const place = after ?? places[0];
    if (!place) {
      said.textContent = `${wanted.value} is not on this sheet`;
      return;
    }
    grid.goTo({ sheet, ...place });
    said.textContent = `${cellAddress(place.row, place.column)}, one of ${String(places.length)}`;
  }

  function replaceAll(): void {
    const pattern = new RegExp(wanted.value.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"), "gi");
    let count = 0;
    for (const { row, column, text } of found()) {
      if (hasFormula(row, column)) continue;
      const replaced = text.replace(pattern, () => other.value);
      if (replaced === text) continue;
      const number = replaced.trim() === "" ? NaN : Number(replaced);
      if (!grid.write({ sheet, row, column }, [[{ content: Number.isFinite(number) ? number : replaced }]]))
        return;
      count++;
    }
    said.textContent = `${String(count)} cells were changed; formulas stay as they are`;
  }

  const dialog = element(
    "dialog",
    { class: "desk-dialog desk-find", "aria-label": "Find and replace" },
    element("label", {}, "Find ", wanted),
    element("label", {}, "Replace with ", other),
    element(
      "div",
      { class: "bln-row" },
      button("Next", "primary", next),
      button("Replace all", "plain", replaceAll),
      button("Close", "plain", () => {
        dialog.close();
      }),
    ),
    said,
  );
  dialog.addEventListener("close", () => {
    dialog.remove();
    grid.focus();
  });
  wanted.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    next();
  });
  document.body.append(dialog);
  dialog.show();
  wanted.focus();
}
