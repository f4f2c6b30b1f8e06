import { statusOf } from "../event/status";
import type { Problem } from "../problem";
import { countOf, tally } from "../numeric/tally";
import { isRespelled, nameKey } from "../palette/names";
import { withheld, type Known } from "../withheld";
import { buyPlan, type BuyLine, type OrderLine } from "./buy-plan";
import { type DeliveryRow, undelivered } from "./delivery-terms";
import { type NeedRow, piecesByItem, type StockRow } from "./item-rows";
import { wholeRows, type Doubtful } from "./doubtful";
import { grouped } from "./grouped";
import { itemKey, itemWords, type Item } from "./item";
import { listingKey, listingOf, type Listing, type PriceRow } from "./price-list";
import { checkedTerms, listingStops, rowProblem, rowStops, type CheckedTerms } from "./purchase-stops";

/** The tables of a purchase, doubtful rows included. */
export interface PurchaseTables {
  readonly needs: readonly Doubtful<NeedRow>[];
  readonly prices: readonly Doubtful<PriceRow>[];
  readonly stock: readonly Doubtful<StockRow>[];
  readonly delivery: readonly Doubtful<DeliveryRow>[];
  /** Steps of the search, see `buyPlan`. */
  readonly mostSteps?: number;
}

/** A line of the shopping list whose numbers may be withheld. */
export interface PurchaseLine extends Item {
  readonly needed: number;
  readonly fromStock: Known;
  readonly supplier: string;
  readonly bag: Known;
  readonly price: Known;
  readonly bags: Known;
  readonly cost: Known;
  readonly leftOver: Known;
  readonly short: number;
  readonly status: string;
}

/** A shopping list that says what it does not know. */
export interface CheckedPurchase {
  readonly lines: readonly PurchaseLine[];
  readonly orders: readonly (Omit<OrderLine, "delivery"> & { readonly delivery: Known })[];
  /** Withheld while any problem stops it. */
  readonly total: Known;
  readonly gap: number;
  /** What stops the cost, what to look at, and rows that concern no need. */
  readonly problems: readonly Problem[];
}

/**
 * BUY_PLAN, BUY_COST: the cheapest purchase as `buyPlan` finds it, with every doubt of every row. An item that cannot be bought,
 * or whose offers or stock cannot be read, keeps its row without numbers; nothing of it is taken for free.
 *
 * @param tables rows as they were read
 * @returns one line for each item and bag in the order of needs, and all problems
 * @throws `#NUM!` for amounts beyond whole cents
 */
export function checkedPurchase({
  needs,
  prices,
  stock,
  delivery,
  mostSteps,
}: PurchaseTables): CheckedPurchase {
  const wanted = wholeRows(needs);
  const wantedByItem = grouped(wanted, itemKey);
  const items = new Map<string, Item>([...wantedByItem].map(([key, [first]]) => [key, first]));
  const needed = tally(wanted.map((need) => [itemKey(need), need.count]));
  const problems: Problem[] = needs
    .filter(({ doubts }) => doubts.length > 0)
    .map((line) => rowProblem(line, "stop", line.doubts.join("; "), "mend the row", { of: "job" }));
  const { listings, offers, faulty } = readOffers(prices);
  const held = piecesByItem(wholeRows(stock));
  // What the shelf covers needs no offer, and no more on the shelf.
  const open = new Map([...items].filter(([key]) => countOf(needed, key) > countOf(held, key)));
  const ofRows = [
    ...rowStops(faulty, open, ({ available }) => available === false),
    ...rowStops(stock, open, () => false),
    ...listingStops(listings, open),
  ];
  problems.push(...ofRows);
  const stops = stopsByItem(ofRows);
  const terms = checkedTerms(
    delivery,
    listings.map(({ supplier }) => supplier),
  );
  const free = wanted.filter((need) => !stops.has(itemKey(need)));
  const plan = buyPlan(free, offers, wholeRows(stock), terms.rows, mostSteps);
  const used = new Set(plan.orders.map(({ supplier }) => nameKey(supplier)));
  for (const [supplier, stop] of terms.stops) {
    const isUsed = used.has(supplier) || (supplier === "" && used.size > 0);
    problems.push(isUsed ? stop : { ...stop, weight: "note", reach: { of: "none" } });
  }
  if (delivery.length > 0)
    problems.push(
      ...undelivered(
        plan.orders.map(({ supplier }) => supplier),
        delivery.flatMap(({ cells }) => cells.supplier ?? []),
      ),
    );
  const byItem = grouped(plan.lines, itemKey);
  const offered = grouped(listings, (listing) => listing.key);
  const shortages = new Map(plan.shortages.map((short) => [itemKey(short), short.sentence]));
  const lines = [...items].flatMap(([key, item]) => {
    const blocked = stops.get(key);
    const ofItem = byItem.get(key) ?? [];
    if (blocked === undefined) {
      const short = shortages.get(key);
      const found = ofItem.map((line) => lineProblems(line, key, short, offered.get(key) ?? []));
      problems.push(...(found[0] ?? []));
      return ofItem.map((line, index) => openLine(line, short, found[index] ?? []));
    }
    return [blockedLine(item, countOf(needed, key), blocked)];
  });
  const stopped = distinct(problems.filter(({ weight }) => weight === "stop"));
  const [first] = stopped;
  return {
    lines,
    orders: plan.orders.map((order) => ({ ...order, delivery: chargeOf(order, terms) })),
    total: first === undefined ? plan.total : withheld(stopSentence(stopped, "cost")),
    gap: plan.gap,
    problems: distinct(problems),
  };
}

/**
 * Why a number that needs everything is withheld.
 *
 * @param stopped problems that stop it, at least one
 * @param what the number
 * @returns `3 problems stop the cost, the first: nobody sells 11 in Gold, 20 short`
 */
export function stopSentence(stopped: readonly Problem[], what: string): string {
  const count = stopped.length === 1 ? "1 problem stops" : `${stopped.length} problems stop`;
  return `${count} the ${what}, the first: ${stopped[0]?.what ?? ""}`;
}

/** Why items cannot be bought yet, by item key. */
function stopsByItem(problems: readonly Problem[]): ReadonlyMap<string, readonly Problem[]> {
  const stops = problems.flatMap((problem) =>
    problem.reach.of === "item" ? [{ problem, key: problem.reach.key }] : [],
  );
  return new Map(
    [...grouped(stops, ({ key }) => key)].map(([key, ofItem]) => [key, ofItem.map(({ problem }) => problem)]),
  );
}

/** A row that may be several items is one problem all the same. */
function distinct(problems: readonly Problem[]): readonly Problem[] {
  const seen = new Set<string>();
  return problems.filter(({ what, weight }) => {
    const key = `${weight} ${what}`;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

interface Offers {
  /** All readable rows, also those of a conflict. */
  readonly listings: readonly Listing[];
  /** Rows to buy from: each bag at one price. */
  readonly offers: readonly PriceRow[];
  /** Rows that cannot be read, those out of range included. */
  readonly faulty: readonly Doubtful<PriceRow>[];
}

function readOffers(prices: readonly Doubtful<PriceRow>[]): Offers {
  const listings: Listing[] = [];
  const offers: PriceRow[] = [];
  const faulty: Doubtful<PriceRow>[] = [];
  const seen = new Set<string>();
  for (const line of prices) {
    if (line.value === undefined) {
      faulty.push(line);
      continue;
    }
    const listing = listingOf(line.value, line.place);
    if (typeof listing === "string") {
      faulty.push({ ...line, doubts: [listing], value: undefined });
      continue;
    }
    listings.push(listing);
    const key = listingKey(listing);
    if (!seen.has(key)) offers.push(line.value);
    seen.add(key);
  }
  return { listings, offers, faulty };
}

function chargeOf({ supplier, delivery }: OrderLine, { stops }: CheckedTerms): Known {
  const stop = stops.get(nameKey(supplier)) ?? stops.get("");
  return stop === undefined ? delivery : withheld(stop.what);
}

function openLine(line: BuyLine, short: string | undefined, problems: readonly Problem[]): PurchaseLine {
  const status =
    problems.length > 0 ? statusOf(problems) : line.status === "ok" ? "ok" : `ok: ${line.status}`;
  if (short === undefined) return { ...line, status };
  const missing = withheld(short);
  return { ...line, price: missing, cost: missing, status };
}

/** What a line says: a shortage stops the item, everything else is to be looked at once. */
function lineProblems(
  line: BuyLine,
  key: string,
  short: string | undefined,
  offered: readonly Listing[],
): readonly Problem[] {
  const reach = { of: "item", key } as const;
  const remarks = line.status
    .split("; ")
    .filter((remark) => !/^(?:ok|from stock|nothing needed)$/.test(remark));
  const problem = (weight: "stop" | "check", what: string, row?: number): Problem => {
    const todo = weight === "stop" ? "add who sells it, or change the colour" : "look at it once";
    return { weight, table: "price_list", row, what, todo, reach };
  };
  const problems: Problem[] =
    short === undefined
      ? remarks.map((what) => problem("check", what))
      : // The line says in its own words first what is short.
        [problem("stop", [short, ...remarks.slice(1)].join("; "))];
  const respelled = offered.find((listing) => isRespelled(listing.colour, line.colour));
  if (respelled !== undefined) {
    const what = `"${respelled.colour}" in price_list row ${respelled.row} is taken for ${itemWords(line)}`;
    problems.push(problem("check", what, respelled.row));
  }
  const free = offered.find(({ isFree, supplier }) => isFree && supplier === line.supplier);
  if (free !== undefined)
    problems.push(problem("check", `price_list row ${free.row} costs nothing`, free.row));
  return problems;
}

function blockedLine(item: Item, needed: number, stops: readonly Problem[]): PurchaseLine {
  const missing = withheld(stops.map(({ what }) => what).join("; "));
  return {
    printed: item.printed,
    colour: item.colour.trim(),
    type: item.type,
    code: item.code,
    needed,
    fromStock: missing,
    supplier: "",
    bag: missing,
    price: missing,
    bags: missing,
    cost: missing,
    leftOver: missing,
    short: 0,
    status: statusOf(stops),
  };
}
