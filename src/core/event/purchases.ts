import { CalcError } from "../calc-error";
import { sum } from "../numeric/sums";
import { orNone } from "../numeric/tally";
import { nameKey } from "../palette/names";
import { buyPlan, type BuyLine, type OrderLine } from "../stock/buy-plan";
import { undelivered, type DeliveryRow } from "../stock/delivery-terms";
import { grouped } from "../stock/grouped";
import { itemKey, itemWords } from "../stock/item";
import { bagPrice, usablePieces, type PriceRow } from "../stock/price-list";
import type { ItemNeed } from "./item-needs";
import type { DeliveryCells } from "./cells";
import type { Job, Line } from "./job";
import { check, type Problem } from "../problem";
import { alikeColours, priceLines } from "./price-lines";
import { shelfOf, type Worth } from "./shelf";

/** How the job comes by one item. Money in the sheet's currency. */
export interface ItemPurchase {
  readonly need: ItemNeed;
  /** Balloons taken from the shelf, whole. */
  readonly fromStock: number;
  /** Worth of those; undefined where they have no value and nobody sells the item. */
  readonly stockValue: number | undefined;
  /** Usable balloons bought, whole, stand-ins included. */
  readonly bought: number;
  /** Cash for bags and stand-ins. */
  readonly paid: number;
  /** Balloons that cannot be had and have no stand-in price, whole. */
  readonly short: number;
  /** Cheapest price of one usable balloon today; undefined where nobody sells the item. */
  readonly todayEach: number | undefined;
  /** Bags to buy. */
  readonly lines: readonly BuyLine[];
  /** Why it cannot be had, or what to look at. */
  readonly problems: readonly Problem[];
}

/** All purchases of balloons for one scenario. */
export interface Purchases {
  readonly items: readonly ItemPurchase[];
  /** Orders with their delivery. */
  readonly orders: readonly OrderLine[];
  /** Delivery charges of all orders. */
  readonly delivery: number;
  readonly problems: readonly Problem[];
}

/**
 * Buys what the job needs, stock first, the cheapest way that all suppliers together allow.
 * Source: `buyPlan`.
 *
 * @param job the tables
 * @param needs what the job needs, with spares
 * @param missingEach price of a stand-in for a balloon that nobody sells, as typed in terms
 * @returns every item, also what nobody sells
 */
export function purchasesOf(job: Job, needs: readonly ItemNeed[], missingEach?: number): Purchases {
  const prices = priceLines(job, needs);
  const shelf = shelfOf(job, needs);
  const delivery = job.delivery.flatMap(readDelivery);
  const problems: Problem[] = [...prices.problems, ...shelf.problems];
  const gifts = new Map(
    prices.free.filter(({ available }) => available !== false).map((row) => [itemKey(row), row]),
  );
  const wanted = needs
    .filter(({ key }) => !gifts.has(key))
    .map(({ item, take }, index) => ({ ...item, row: index + 1, count: take }));
  let lines: readonly BuyLine[] = [];
  let orders: readonly OrderLine[] = [];
  let isPlanned = true;
  try {
    const plan = buyPlan(wanted, prices.rows, shelf.rows, delivery, job.mostSteps);
    ({ lines, orders } = plan);
    if (plan.gap > 0) {
      const what = `bags cost at most ${plan.gap.toFixed(2)} more than the cheapest way`;
      problems.push(check("price_list", what, "nothing, or buy from fewer suppliers"));
    }
  } catch (error) {
    if (!(error instanceof CalcError)) throw error;
    isPlanned = false;
    problems.push({
      weight: "stop",
      table: "delivery",
      what: error.message,
      todo: "mend the row",
      reach: { of: "job" },
    });
  }
  problems.push(...deliveryProblems(job, orders));
  const ofItem = grouped(lines, itemKey);
  const listed = grouped(prices.rows, itemKey);
  const items = needs.map((need): ItemPurchase => {
    const lined = ofItem.get(need.key) ?? [];
    const sold = listed.get(need.key) ?? [];
    const held = shelf.held.get(need.key);
    const gift = gifts.get(need.key);
    const bought =
      gift === undefined ? purchaseOf(need, lined, sold, held, missingEach) : giftOf(need, gift, held);
    // An offer that cannot be read may sell it: then nobody says that nobody does.
    const unread = prices.problems.filter(
      ({ weight, reach }) => weight === "stop" && reach.of === "item" && reach.key === need.key,
    );
    const found =
      isPlanned && unread.length === 0 ? itemProblemsOf(bought, sold, prices.rows, missingEach) : [];
    problems.push(...found);
    return { ...bought, problems: [...unread, ...found] };
  });
  return { items, orders, delivery: sum(orders.map((order) => order.delivery)), problems };
}

function purchaseOf(
  need: ItemNeed,
  lines: readonly BuyLine[],
  sold: readonly PriceRow[],
  held: { readonly count: number; readonly worth: Worth } | undefined,
  missingEach: number | undefined,
): Omit<ItemPurchase, "problems"> {
  const [first] = lines;
  const fromStock = first?.fromStock ?? Math.min(need.take, orNone(held?.count));
  const missing = first?.short ?? need.take - fromStock;
  const inBags = first === undefined ? 0 : first.leftOver - first.short + first.needed - orNone(held?.count);
  const standIns = missingEach === undefined ? 0 : missing;
  const todayEach = cheapestEach(sold) ?? missingEach;
  return {
    need,
    fromStock,
    stockValue: valueOf(fromStock, held, todayEach),
    bought: Math.max(0, inBags) + standIns,
    paid: sum(lines.map(({ cost }) => cost)) + standIns * orNone(missingEach),
    short: missing - standIns,
    todayEach,
    lines: lines.filter(({ bags }) => bags > 0),
  };
}

/** An item that somebody gives away: bags enough for what the shelf does not hold. */
function giftOf(
  need: ItemNeed,
  gift: PriceRow,
  held: { readonly count: number; readonly worth: Worth } | undefined,
): Omit<ItemPurchase, "problems"> {
  const fromStock = Math.min(need.take, orNone(held?.count));
  const usable = usablePieces(gift);
  const bags = Math.ceil((need.take - fromStock) / usable);
  const line: BuyLine = {
    ...need.item,
    needed: need.take,
    fromStock,
    supplier: gift.supplier.trim(),
    bag: gift.bag,
    price: 0,
    bags,
    cost: 0,
    leftOver: orNone(held?.count) + bags * usable - need.take,
    short: 0,
    status: "free",
  };
  const lines = bags > 0 ? [line] : [];
  const stockValue = valueOf(fromStock, held, 0);
  return { need, fromStock, stockValue, bought: bags * usable, paid: 0, short: 0, todayEach: 0, lines };
}

/** Cheapest price of one usable balloon, sheet's currency. */
function cheapestEach(sold: readonly PriceRow[]): number | undefined {
  const each = sold
    .filter(({ available }) => available !== false)
    .map((row) => bagPrice(row) / usablePieces(row));
  return each.length === 0 ? undefined : Math.min(...each);
}

/** Weighted average worth of what is taken from the shelf. */
function valueOf(
  taken: number,
  held: { readonly count: number; readonly worth: Worth } | undefined,
  todayEach: number | undefined,
): number | undefined {
  if (taken === 0 || held === undefined || held.count === 0) return 0;
  const { typed, unpriced } = held.worth;
  if (unpriced > 0 && todayEach === undefined) return undefined;
  return (taken * (typed + unpriced * orNone(todayEach))) / held.count;
}

function itemProblemsOf(
  { need, short, bought, stockValue }: Omit<ItemPurchase, "problems">,
  sold: readonly PriceRow[],
  all: readonly PriceRow[],
  missingEach: number | undefined,
): readonly Problem[] {
  const words = itemWords(need.item);
  const stop = (what: string, todo: string): Problem => ({
    weight: "stop",
    table: "price_list",
    what,
    todo,
    reach: { of: "item", key: need.key },
  });
  if (stockValue === undefined)
    return [stop(`${words} on the shelf has no value and nobody sells it`, "type its value each, or none")];
  if (missingEach !== undefined && bought > 0 && sold.length === 0)
    return [
      check("terms", `nobody sells ${words}, counted at ${missingEach.toFixed(2)} each`, "find a supplier"),
    ];
  if (short === 0) return [];
  if (sold.length > 0) {
    const sellers = [...new Set(sold.map(({ supplier }) => supplier.trim()))].join(", ");
    return [
      stop(`${words} is sold out at ${sellers}, ${short} short`, "find a supplier or change the colour"),
    ];
  }
  const [like] = alikeColours(need.item, all);
  const hint = like === undefined ? "" : `; looks like "${like.trim()}"`;
  return [stop(`nobody sells ${words}, ${short} short${hint}`, "add its price or change the colour")];
}

function readDelivery({ cells, doubts, row }: Line<DeliveryCells>): readonly DeliveryRow[] {
  const { supplier, charge, minimum } = cells;
  if (doubts.length > 0 || supplier === undefined || charge === undefined) return [];
  return [{ row, supplier, charge, minimum, freeFrom: cells["free from"] }];
}

function deliveryProblems(job: Job, orders: readonly OrderLine[]): readonly Problem[] {
  const bought = new Set(orders.map(({ supplier }) => nameKey(supplier)));
  const doubtful = job.delivery.flatMap(({ cells, doubts, place, row }): readonly Problem[] => {
    const isRead = cells.supplier !== undefined && cells.charge !== undefined;
    const sentences =
      doubts.length > 0
        ? doubts
        : isRead
          ? []
          : [`${place}: supplier and charge must be given, found nothing`];
    const isUsed = cells.supplier === undefined || bought.has(nameKey(cells.supplier));
    return sentences.map((what) => ({
      weight: isUsed ? "stop" : "note",
      table: "delivery",
      row,
      what,
      todo: "mend the row",
      reach: { of: isUsed ? "job" : "none" },
    }));
  });
  const listed = job.delivery.flatMap(({ cells }) => cells.supplier ?? []);
  const without = undelivered(
    orders.map(({ supplier }) => supplier),
    listed,
  );
  return [...doubtful, ...without];
}
