import { button, element, freshId } from "../ui/element";
import { resultView } from "../ui/result-view";
import { selectedCell, selectedReference } from "./find-view";
import { counted, type PaneView } from "./pane-view";
import { readReferences } from "./piece-pictures";
import {
  MOST_SNAPSHOT_CELLS,
  changesSummary,
  priceChanges,
  quotesUnder,
  raises,
  readPriceBook,
  withSnapshot,
  writePriceBook,
  type Comparison,
  type PriceBook,
} from "./price-review";
import { HostError, type CellRows, type SheetHost } from "./sheet-host";
import { makeWorkLine } from "./work-line";

interface ReferenceField {
  readonly input: HTMLInputElement;
  readonly field: HTMLElement;
}

function dateText(taken: string): string {
  return taken.slice(0, 16).replace("T", " ");
}

/** Takes snapshots of prices and quotes; later shows what changed and which quotes earn too little. */
export function pricesView(host: SheetHost, now: () => string): PaneView {
  const work = makeWorkLine();
  const results = element("div", { class: "pane-results" });
  const snapshots = element("select", { id: freshId(), class: "bln-input" });
  const floor = element("input", { id: freshId(), class: "bln-input", value: "40%", autocomplete: "off" });
  const basis = element(
    "select",
    { id: freshId(), class: "bln-input" },
    element("option", { value: "price" }, "the price (margin)"),
    element("option", { value: "cost" }, "the cost (markup)"),
  );
  let book: PriceBook = { prices: "", quotes: "", snapshots: [] };

  const labelled = (label: string, control: HTMLElement, help?: string): HTMLElement =>
    element(
      "div",
      { class: "bln-field" },
      element("label", { class: "bln-label", for: control.id }, label),
      control,
      ...(help === undefined ? [] : [element("p", { class: "bln-help" }, help)]),
    );
  const referenceField = (label: string, help: string): ReferenceField => {
    const input = element("input", {
      id: freshId(),
      class: "bln-input",
      autocomplete: "off",
      spellcheck: "false",
    });
    const pick = button("Use selection", "plain", () => {
      void work.run("Reading", async () => {
        input.value = await selectedReference(host);
      });
    });
    pick.setAttribute("aria-label", `Use selection for ${label.toLowerCase()}`);
    const field = element(
      "div",
      { class: "bln-field" },
      element("label", { class: "bln-label", for: input.id }, label),
      element("div", { class: "bln-control" }, input, pick),
      element("p", { class: "bln-help" }, help),
    );
    return { input, field };
  };
  const prices = referenceField("Price list", "With its titles: supplier, printed, colour, bag, price.");
  const quotes = referenceField("Quotes", "With the titles name, price and cost. May stay empty.");

  const show = (): void => {
    prices.input.value ||= book.prices;
    quotes.input.value ||= book.quotes;
    const newestFirst = [...book.snapshots.entries()].reverse();
    snapshots.replaceChildren(
      ...newestFirst.map(([index, { taken }]) => element("option", { value: index }, dateText(taken))),
    );
    compareButton.disabled = book.snapshots.length === 0;
  };
  const load = (): void => {
    void work.run("Reading", async () => {
      book = await readPriceBook(host);
      show();
    });
  };

  const rowsOf = async (reference: string, what: string): Promise<CellRows> => {
    const text = reference.trim().replace(/^=/, "");
    if (text === "") return [];
    const [outline, at] = await Promise.all([host.outline(), selectedCell(host)]);
    const rows = (await readReferences(host, outline, [text], at))(text);
    if (rows === undefined) throw new HostError(`${what} must be cells, a table or a name, found "${text}"`);
    if (rows.length * (rows[0]?.length ?? 0) > MOST_SNAPSHOT_CELLS) {
      throw new HostError(`${what} must have at most ${MOST_SNAPSHOT_CELLS} cells`);
    }
    return rows;
  };
  const readBoth = async (): Promise<{ readonly prices: CellRows; readonly quotes: CellRows }> => {
    const both = {
      prices: await rowsOf(prices.input.value, "the price list"),
      quotes: await rowsOf(quotes.input.value, "the quotes"),
    };
    if (both.prices.length === 0) throw new HostError("choose the price list first");
    return both;
  };

  const take = (): Promise<unknown> =>
    work.run("Taking a snapshot", async () => {
      const snapshot = { taken: now(), ...(await readBoth()) };
      const latest = await readPriceBook(host);
      book = withSnapshot({ ...latest, prices: prices.input.value, quotes: quotes.input.value }, snapshot);
      await writePriceBook(host, book);
      show();
      work.say(
        `Kept ${counted(snapshot.prices.length, "row")} of prices in this workbook. Save it to keep them.`,
      );
    });

  const shown = (
    title: string,
    comparison: Comparison | undefined,
    summary: (made: Comparison) => readonly string[],
  ): readonly HTMLElement[] => [
    element("h2", { class: "bln-title" }, title),
    ...(comparison === undefined
      ? [element("p", { class: "bln-quiet" }, "This version has no function for it.")]
      : [
          ...summary(comparison).map((sentence) => element("p", {}, element("strong", {}, sentence))),
          ...resultView(comparison.fn.name, comparison.fn.result, comparison.outcome),
        ]),
  ];
  const compare = (): Promise<unknown> =>
    work.run("Comparing", async () => {
      const snapshot = book.snapshots[Number(snapshots.value)];
      if (snapshot === undefined) throw new HostError("take a snapshot first");
      const current = await readBoth();
      const changes = shown(
        `Prices since ${dateText(snapshot.taken)}`,
        priceChanges(snapshot.prices, current.prices),
        (made) => [changesSummary(made)].filter((sentence) => sentence !== ""),
      );
      const under =
        current.quotes.length === 0
          ? []
          : shown("Quotes against the margin", quotesUnder(current.quotes, floor.value, basis.value), raises);
      results.replaceChildren(
        element("section", { class: "bln-view" }, ...changes),
        ...(under.length === 0 ? [] : [element("section", { class: "bln-view" }, ...under)]),
      );
    });
  const compareButton = button("Compare with today", "primary", () => void compare());

  return {
    label: "Prices",
    needs: "1.9",
    element: element(
      "div",
      { class: "pane-view" },
      element(
        "section",
        { class: "bln-view" },
        element("h2", { class: "bln-title" }, "Price review"),
        prices.field,
        quotes.field,
        button("Take a snapshot", "plain", () => void take()),
        labelled("Compare with the snapshot of", snapshots),
        labelled("Least a quote must earn", floor, "A share such as 40% or 0.4."),
        labelled("As a share of", basis),
        compareButton,
        work.element,
      ),
      results,
    ),
    shown: load,
  };
}
