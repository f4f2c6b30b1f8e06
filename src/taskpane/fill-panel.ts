import { commaForm } from "../formula/comma-form";
import type { CatalogueFunction } from "../functions/definition";
import { button, disclosure, element, freshId, type View } from "../ui/element";
import { blocksOf } from "./contents";
import {
  columnFor,
  columnFormulas,
  fillFault,
  listAtSelection,
  missingSources,
  targetRange,
  type ArgumentSource,
  type TitledList,
} from "./fill-column";
import { ourCalls } from "./formula-calls";
import { counted } from "./pane-view";
import { HostError, type SheetHost } from "./sheet-host";
import { makeWorkLine } from "./work-line";

const FROM_FORM = "form";

/** The texts of a formula's arguments, in order. */
function argumentTexts(formula: string): readonly string[] {
  const [call] = ourCalls(formula);
  return (call?.args ?? []).map((tokens) =>
    tokens
      .map(({ text }) => text)
      .join("")
      .trim(),
  );
}

function columnTitle(list: TitledList, position: number): string {
  return list.titles[position] ?? "a new column";
}

/**
 * Fills a column of a list with one formula for each row: arguments come from the columns whose titles name them, the
 * others from the form.
 *
 * @param formula the formula as the form has it
 * @param decimal the decimal mark with which formulas are typed here
 */
export function fillPanel(
  host: SheetHost,
  fn: CatalogueFunction,
  formula: () => string,
  decimal: () => string,
): View {
  const work = makeWorkLine();
  const place = element("div", { class: "pane-fill" });

  const show = (list: TitledList, filledCells: number): void => {
    const texts = argumentTexts(formula());
    const selects = fn.params.map((param) => {
      const id = freshId();
      const chosen = columnFor(param, list.titles, list.target);
      const select = element(
        "select",
        { id, class: "bln-input" },
        element("option", { value: FROM_FORM }, "as in the form"),
        ...list.titles.map((title, index) =>
          index === list.target || title === "" ? "" : element("option", { value: index }, `column ${title}`),
        ),
      );
      if (chosen !== undefined) select.value = String(chosen);
      const label = element("label", { class: "bln-label", for: id }, param.name.replaceAll("_", " "));
      return { select, field: element("div", { class: "bln-field" }, label, select) };
    });
    const sources = (): readonly ArgumentSource[] =>
      selects.map(({ select }, index) =>
        select.value === FROM_FORM ? { text: texts[index] ?? "" } : { column: Number(select.value) },
      );
    const rows = list.lastRow - list.firstRow + 1;
    const preview = element("code", { class: "bln-formula" });
    const missing = element("p", { class: "bln-fault" });
    const update = (): void => {
      const none = missingSources(fn, sources());
      missing.textContent = none.length === 0 ? "" : `Choose a column for ${none.join(" and ")}.`;
      const kept = String(columnFormulas(fn, sources(), list)[0]?.[0] ?? "");
      preview.textContent =
        decimal() === "," ? kept.replace(/^=(.*)$/s, (_, text: string) => `=${commaForm(text)}`) : kept;
    };
    for (const { select } of selects) select.addEventListener("change", update);
    update();
    const fill = async (): Promise<void> => {
      if (missingSources(fn, sources()).length > 0) return;
      const isDone = await work.run("Filling", async (onProgress) => {
        const { sheet, range } = targetRange(list);
        const obstacles = await host.obstacles({ sheet, range });
        if (obstacles.length > 0) throw new HostError(`nothing was filled: ${obstacles.join("; ")}`);
        const contents = columnFormulas(fn, sources(), list);
        const blocks = blocksOf(range);
        for (const [done, block] of blocks.entries()) {
          const from = block.firstRow - range.firstRow;
          const part = contents.slice(from, from + block.lastRow - block.firstRow + 1);
          await host.write([{ sheet, range: block, contents: part }]);
          onProgress((done + 1) / blocks.length);
        }
        return true;
      });
      if (isDone !== true) return;
      place.replaceChildren();
      work.say(`Filled ${counted(rows, "row")} of ${columnTitle(list, list.target)}.`);
    };
    const replaced = filledCells === 0 ? "" : ` and replace ${counted(filledCells, "filled cell")}`;
    place.replaceChildren(
      element(
        "p",
        {},
        `${list.table === undefined ? `The list on ${list.sheet}` : `The table ${list.table}`}: `,
        element("strong", {}, columnTitle(list, list.target)),
        `, ${counted(rows, "row")}.`,
      ),
      ...selects.map(({ field }) => field),
      missing,
      preview,
      button(`Fill ${counted(rows, "row")}${replaced}`, "primary", () => void fill()),
    );
  };

  const look = (): Promise<unknown> =>
    work.run("Reading", async () => {
      const fault = fillFault(fn);
      if (fault !== undefined) throw new HostError(fault);
      place.replaceChildren();
      const list = await listAtSelection(host, await host.outline());
      if (list === undefined || list.lastRow < list.firstRow) {
        throw new HostError(
          "select a cell in a list with titles in its first row, or in the free column right of it",
        );
      }
      const [block] = await host.read([targetRange(list)]);
      const filledCells = (block?.formulas ?? []).flat().filter((content) => content !== "").length;
      show(list, filledCells);
    });

  return {
    element: element(
      "section",
      { class: "bln-view" },
      disclosure(
        "Fill a column of a list",
        element(
          "p",
          { class: "bln-help" },
          "Select a cell in the column to fill, or in the free column right of a list.",
        ),
        button("Look at the selected column", "plain", () => void look()),
        place,
        work.element,
      ),
    ),
  };
}
