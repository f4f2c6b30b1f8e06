import { button, element, freshId } from "../ui/element";
import { resultView } from "../ui/result-view";
import { selectedCell } from "./find-view";
import { counted, type PaneView } from "./pane-view";
import { readReferences } from "./piece-pictures";
import {
  MOST_SNAPSHOT_CELLS,
  changesSummary,
  comparedPrices,
  quotesUnder,
  raises,
  readPriceBook,
  withSnapshot,
  writePriceBook,
  type MadeComparison,
  type PriceBook,
} from "./price-review";
import { labelled, referenceField } from "./reference-field";
import { HostError, type CellRows, type SheetHost } from "./sheet-host";
import { makeWorkLine } from "./work-line";

function dateText(taken: string): string {
  return taken.slice(0, 16).replace("T", " ");
}

/** The values behind a reference that a person typed; none where it is empty. */
async function rowsBehind(host: SheetHost, reference: string, what: string): Promise<CellRows> {
  const text = reference.trim().replace(/^=/, "");
  if (text === "") return [];
  const [outline, at] = await Promise.all([host.outline(), selectedCell(host)]);
  const rows = (await readReferences(host, outline, [text], at))(text);
  if (rows === undefined) throw new HostError(`${what} must be cells, a table or a name, found "${text}"`);
  if (rows.length * (rows[0]?.length ?? 0) > MOST_SNAPSHOT_CELLS) {
    throw new HostError(`${what} must have at most ${MOST_SNAPSHOT_CELLS} cells`);
  }
  return rows;
}

/** A comparison under its title, what it comes to first. */
function comparisonView(
  title: string,
  comparison: MadeComparison | undefined,
  summary: (made: MadeComparison) => readonly string[],
): readonly HTMLElement[] {
  const heading = element("h2", { class: "bln-title" }, title);
  if (comparison === undefined)
    return [heading, element("p", { class: "bln-quiet" }, "This version has no function for it.")];
  return [
    heading,
    ...summary(comparison).map((sentence) => element("p", {}, element("strong", {}, sentence))),
    ...resultView(comparison.fn.name, comparison.fn.result, comparison.outcome),
  ];
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

  const prices = referenceField(
    "Price list",
    "With its titles: supplier, printed, colour, bag, price.",
    host,
    work,
  );
  const quotes = referenceField(
    "Quotes",
    "With the titles name, price and cost. May stay empty.",
    host,
    work,
  );

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

  const readBoth = async (): Promise<{ readonly prices: CellRows; readonly quotes: CellRows }> => {
    const both = {
      prices: await rowsBehind(host, prices.input.value, "the price list"),
      quotes: await rowsBehind(host, quotes.input.value, "the quotes"),
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

  const compare = (): Promise<unknown> =>
    work.run("Comparing", async () => {
      const snapshot = book.snapshots[Number(snapshots.value)];
      if (snapshot === undefined) throw new HostError("take a snapshot first");
      const current = await readBoth();
      const changes = comparisonView(
        `Prices since ${dateText(snapshot.taken)}`,
        comparedPrices(snapshot.prices, current.prices),
        (made) => [changesSummary(made)].filter((sentence) => sentence !== ""),
      );
      const under =
        current.quotes.length === 0
          ? []
          : comparisonView(
              "Quotes against the margin",
              quotesUnder(current.quotes, floor.value, basis.value),
              raises,
            );
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
