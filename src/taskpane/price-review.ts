import { functionNamed } from "../functions/catalogue";
import type { CatalogueFunction, Cell, Outcome } from "../functions/definition";
import { cellText } from "../ui/format";
import { dataPart, partData } from "../workbook/data-part";
import type { CellRows, SheetHost } from "./sheet-host";

// Snapshots live in the workbook, so that a partner who gets the file sees what the prices were.
const NAMESPACE = "urn:balloon-decor-functions:price-snapshots";
const MOST_SNAPSHOTS = 24;
export const MOST_SNAPSHOT_CELLS = 20_000;

/** What prices and quotes were at a time; rows include the titles. */
export interface PriceSnapshot {
  /** ISO 8601. */
  readonly taken: string;
  readonly prices: CellRows;
  readonly quotes: CellRows;
}

/** Where prices and quotes stand, with the snapshots taken so far, the latest last. */
export interface PriceBook {
  readonly prices: string;
  readonly quotes: string;
  readonly snapshots: readonly PriceSnapshot[];
}

const EMPTY: PriceBook = { prices: "", quotes: "", snapshots: [] };

function isRows(data: unknown): data is CellRows {
  return (
    Array.isArray(data) &&
    data.every(
      (row) =>
        Array.isArray(row) && row.every((cell) => ["string", "number", "boolean"].includes(typeof cell)),
    )
  );
}

function isSnapshot(data: unknown): data is PriceSnapshot {
  if (typeof data !== "object" || data === null) return false;
  const { taken, prices, quotes } = data as Readonly<Record<string, unknown>>;
  return typeof taken === "string" && isRows(prices) && isRows(quotes);
}

/** The price book of a workbook; an empty one where it has none or the part is damaged. */
export async function readPriceBook(host: SheetHost): Promise<PriceBook> {
  const xml = await host.readPart(NAMESPACE);
  const data = xml === undefined ? undefined : partData(NAMESPACE, xml);
  if (typeof data !== "object" || data === null) return EMPTY;
  const { prices, quotes, snapshots } = data as Readonly<Record<string, unknown>>;
  return {
    prices: typeof prices === "string" ? prices : "",
    quotes: typeof quotes === "string" ? quotes : "",
    snapshots: Array.isArray(snapshots) ? snapshots.filter(isSnapshot) : [],
  };
}

export async function writePriceBook(host: SheetHost, book: PriceBook): Promise<void> {
  await host.writePart(NAMESPACE, dataPart(NAMESPACE, book));
}

/** The book with one snapshot more; the oldest goes where there are too many. */
export function withSnapshot(book: PriceBook, snapshot: PriceSnapshot): PriceBook {
  return { ...book, snapshots: [...book.snapshots, snapshot].slice(-MOST_SNAPSHOTS) };
}

/** A comparison: the function that made it and what it gave. */
export interface MadeComparison {
  readonly fn: CatalogueFunction;
  readonly outcome: Outcome;
}

function compare(name: string, args: readonly unknown[]): MadeComparison | undefined {
  const fn = functionNamed(name);
  return fn && { fn, outcome: fn.call(args) };
}

/** What is dearer, cheaper, new or gone since a snapshot; undefined where the catalogue has no such function. */
export function comparedPrices(before: CellRows, now: CellRows): MadeComparison | undefined {
  return compare("PRICE_CHANGES", [before, now]);
}

/** Quotes under a margin with the price that restores it. */
export function quotesUnder(quotes: CellRows, floor: string, of: string): MadeComparison | undefined {
  return compare("REPRICE_PLAN", [quotes, floor, of]);
}

/** The rows of a comparison as values by column name; empty where it failed. */
function namedRows({ fn, outcome }: MadeComparison): readonly ReadonlyMap<string, Cell>[] {
  const { result } = fn;
  if (outcome.kind !== "table" || result.kind !== "table") return [];
  return outcome.rows
    .slice(1)
    .map((row) => new Map(result.columns.map(({ name }, index) => [name, row[index] ?? ""])));
}

/** How many rows are dearer, cheaper, new and gone: `2 dearer, 1 gone`. */
export function changesSummary(changes: MadeComparison): string {
  const counts = new Map<string, number>();
  for (const row of namedRows(changes)) {
    const status = String(row.get("status"));
    if (row.get("supplier") !== "") counts.set(status, (counts.get(status) ?? 0) + 1);
  }
  return [...counts].map(([status, count]) => `${count} ${status}`).join(", ");
}

/** One sentence for each quote under its margin: what restores it. */
export function raises(quotes: MadeComparison): readonly string[] {
  return namedRows(quotes)
    .filter((row) => Number(row.get("rise")) > 0)
    .map((row) => {
      const [before, after] = ["price", "restored"].map((name) => cellText("money", row.get(name) ?? 0));
      return `${String(row.get("name"))}: raise it from ${before} to ${after}`;
    });
}
