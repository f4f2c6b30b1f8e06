import type { Problem } from "../problem";
import { lookAlikes, nameKey } from "../palette/names";
import type { DeliveryRow } from "./delivery-terms";
import type { Doubtful } from "./doubtful";
import { mayBe, type Item } from "./item";
import { priceConflicts, priceRemarks, type Listing } from "./price-list";

/** Sort of table of a row, out of its place: `price_list row 7` is of `price_list`. */
function tableOf(place: string): string {
  return place.replace(/ row \d+$/, "");
}

/**
 * A problem of one row that was read.
 *
 * @param row the row
 * @param weight how bad it is
 * @param what sentence with its place
 * @param todo what to do
 * @param reach which numbers it takes away
 * @returns the problem
 */
export function rowProblem(
  { place, row }: Pick<Doubtful<unknown>, "place" | "row">,
  weight: Problem["weight"],
  what: string,
  todo: string,
  reach: Problem["reach"],
): Problem {
  return { weight, table: tableOf(place), row, what, todo, reach };
}

/**
 * Doubtful rows stop the items that they may be; rows that may be none of them are notes.
 *
 * @param rows as they were read
 * @param items that are to be bought, by key
 * @param isIdle whether a row concerns no purchase, whatever it is
 * @returns a stop for each item that a doubtful row may be, or a note
 */
export function rowStops<Row extends Item>(
  rows: readonly Doubtful<Row>[],
  items: ReadonlyMap<string, Item>,
  isIdle: (cells: Partial<Row>) => boolean,
): readonly Problem[] {
  return rows
    .filter(({ doubts }) => doubts.length > 0)
    .flatMap((line) => {
      const { cells, doubts } = line;
      const what = doubts.join("; ");
      const met = isIdle(cells) ? [] : [...items].filter(([, item]) => mayBe(cells, item));
      if (met.length === 0)
        return [rowProblem(line, "note", `no need is of this row: ${what}`, "mend the row", { of: "none" })];
      const todo = "mend the row or take it out";
      return met.map(([key]) => rowProblem(line, "stop", what, todo, { of: "item", key }));
    });
}

/**
 * Offers nobody can rely on: two prices for one bag, and prices ten times off that do not say what they are for.
 *
 * @param listings rows of the price list that could be read
 * @param items that are to be bought, by key
 * @returns a stop for each such offer of one of the items
 */
export function listingStops(
  listings: readonly Listing[],
  items: ReadonlyMap<string, Item>,
): readonly Problem[] {
  const remarks = priceRemarks(listings);
  const odd = listings.flatMap((listing) => {
    const sentence = remarks.get(listing.row);
    const isOdd = sentence !== undefined && !listing.isPriceOfSaid && listing.isAvailable;
    return isOdd ? [{ listing, sentence }] : [];
  });
  return [...priceConflicts(listings), ...odd]
    .filter(({ listing }) => items.has(listing.key))
    .map(({ listing: { row, key }, sentence }) => ({
      weight: "stop",
      table: "price_list",
      row,
      what: sentence,
      todo: "correct the price, or say in the column per what it is for",
      reach: { of: "item", key },
    }));
}

/** Delivery terms that can be relied on, and what is wrong with the others. */
export interface CheckedTerms {
  readonly rows: readonly DeliveryRow[];
  /** Problems by the key of the supplier whose terms are not known; an empty key concerns every supplier. */
  readonly stops: ReadonlyMap<string, Problem>;
}

/**
 * Sorts out delivery terms: those of a second row, of a row that cannot be read, or of a name that looks like a supplier's stop
 * the cost where that supplier is used.
 *
 * @param delivery rows as they were read
 * @param suppliers names on the price list
 * @returns the terms
 */
export function checkedTerms(
  delivery: readonly Doubtful<DeliveryRow>[],
  suppliers: readonly string[],
): CheckedTerms {
  const stops = new Map<string, Problem>();
  const known = new Set(suppliers.map(nameKey));
  const seen = new Map<string, number>();
  const rows: DeliveryRow[] = [];
  for (const line of delivery) {
    const { row, place, cells, doubts, value } = line;
    const name = cells.supplier ?? "";
    const key = nameKey(name);
    const stop = (at: string, what: string): void => {
      stops.set(at, rowProblem(line, "stop", what, "mend the row", { of: "job" }));
    };
    const [like] = known.has(key) ? [] : lookAlikes(name, suppliers);
    const first = seen.get(key);
    if (value === undefined) stop(key, doubts.join("; "));
    else if (like !== undefined)
      stop(
        nameKey(like),
        `${place}: supplier must be on the price list, found "${name}"; did you mean "${like}"`,
      );
    else if (first !== undefined)
      stop(key, `${place}: supplier must stand once, as in row ${first}, found "${name}"`);
    else rows.push(value);
    seen.set(key, first ?? row);
  }
  return { rows: rows.filter(({ supplier }) => !stops.has(nameKey(supplier))), stops };
}
