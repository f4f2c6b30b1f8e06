import { chooseSuppliers } from "../buying/choose-suppliers";
import type { Wanted } from "../buying/purchase";
import { type ThresholdReason, thresholdReasons } from "../buying/threshold-reasons";
import { roundedAmount, roundedLines } from "../numeric/cents";
import { entryAt, present } from "../numeric/entry-at";
import { remembered } from "../numeric/remembered";
import { sum } from "../numeric/sums";
import { lookAlikesAmong } from "../palette/names";
import { type DeliveryRow, deliveryTerms } from "./delivery-terms";
import { grouped } from "./grouped";
import { type Item, typedSizeKey } from "./item";
import type { NeedRow, StockRow } from "./item-rows";
import { lowPrices, priceRemarks, readPriceList, type PriceRow } from "./price-list";
import { availability, plainItem, type Shortage, shortageOf, type Wish, wishesOf } from "./wishes";

/** A line of the shopping list. An item with several lines carries `needed`, `fromStock` and `leftOver` on its first. */
export interface BuyLine extends Item {
  readonly needed: number;
  readonly fromStock: number;
  /** Empty where nothing is bought. */
  readonly supplier: string;
  /** Pieces in a bag, 0 where nothing is bought. */
  readonly bag: number;
  /** Price of a bag, sheet's currency, 0 where nothing is bought; unknown where `short` is above 0. */
  readonly price: number;
  readonly bags: number;
  /** Sheet's currency, 0 where nothing is bought; unknown where `short` is above 0. */
  readonly cost: number;
  /** Usable pieces left after the event, stock included. */
  readonly leftOver: number;
  /** Pieces that can be had nowhere. */
  readonly short: number;
  /** `ok`, or what to look at. */
  readonly status: string;
}

/** What one order comes to. */
export interface OrderLine {
  readonly supplier: string;
  /** Goods, sheet's currency. */
  readonly goods: number;
  /** Delivery, sheet's currency. */
  readonly delivery: number;
}

/** A shopping list for the event. */
export interface BuyPlan {
  readonly lines: readonly BuyLine[];
  /** Suppliers bought from. */
  readonly orders: readonly OrderLine[];
  /** Costs of all lines and deliveries; they add up to it to the cent. Shortages are not in it: no price is known for them. */
  readonly total: number;
  /** What the total does not hold, in the order of needs; empty where everything can be had. */
  readonly shortages: readonly Shortage[];
  /** How much cheaper a plan could be at most: 0 where this one is proved to be the cheapest. */
  readonly gap: number;
}

/**
 * Purchases that are remembered, a whole number: a sheet asks for the list and for its cost with the same tables, and a search
 * may take seconds.
 * Source: ours, enough for a sheet that weighs a few events.
 */
export const MOST_KEPT = 8;
/** Steps that the search for the cheapest purchase takes at most: two to three seconds. Source: ours, what a sheet can wait. */
export const PURCHASE_STEPS = 4e8;

const suppliersChosen = remembered(chooseSuppliers, MOST_KEPT);

/**
 * BUY_PLAN, BUY_COST: the cheapest way to have every item, stock first: bags of any size from any supplier, delivery
 * charges, minimum orders and free delivery included. More than needed is bought where that reaches a minimum order or
 * free delivery for less money; only items that must be bought anyway are used for it. Exact for up to 12 suppliers with
 * delivery terms, within the work that `chooseSuppliers` allows; `gap` says so.
 *
 * @param needs balloons needed, rows of one item are added up
 * @param priceList offers, see `readPriceList`
 * @param stock balloons at hand, rows of one item are added up
 * @param delivery terms of suppliers; a supplier without a row delivers free of charge
 * @param mostSteps steps of the search, see `chooseSuppliers`; what they do not prove is stated as the gap
 * @returns lines in the order of needs, none lost
 * @throws `#VALUE!` naming the row, see `readPriceList`; for a second delivery row of a supplier, or one whose supplier
 * looks like another on the price list
 */
export function buyPlan(
  needs: readonly NeedRow[],
  priceList: readonly PriceRow[],
  stock: readonly StockRow[] = [],
  delivery: readonly DeliveryRow[] = [],
  mostSteps = PURCHASE_STEPS,
): BuyPlan {
  const listings = readPriceList(priceList);
  const suppliers = [...grouped(listings, (listing) => listing.supplierKey)].map(([key, [first]]) => ({
    key,
    name: first.supplier,
  }));
  const wishes = wishesOf(needs, listings, stock);
  const wanted = wishes.filter(({ offered }) => offered.length > 0);
  const places = new Map(suppliers.map(({ key }, place) => [key, place]));
  const items = wanted.map(({ needed, fromStock, offered }): Wanted => ({
    need: needed - fromStock,
    offers: offered.map(({ supplierKey, usable, price }) => ({
      supplier: present(places.get(supplierKey)),
      pieces: usable,
      price,
    })),
  }));
  const terms = deliveryTerms(delivery, suppliers);
  const choice = suppliersChosen(items, terms, mostSteps);
  const reasons = grouped(thresholdReasons(items, terms, choice), ({ item }) => entryAt(wanted, item).key);
  const bags = new Map(wanted.map(({ key }, place) => [key, entryAt(choice.bags, place)]));
  const remarks = priceRemarks(listings);
  const low = lowPrices(listings);
  const alikeOnList = alikeItems(listings);
  const alikeInStock = alikeItems(stock);
  const drafts = wishes.flatMap((wish) => {
    const alike = [
      ...(wish.listed.length === 0 ? alikeOnList(wish.item) : []),
      ...(wish.held === 0 ? alikeInStock(wish.item) : []),
    ];
    const status = [
      availability(wish),
      ...(reasons.get(wish.key) ?? []).map((reason) => reasonText(reason, suppliers[reason.supplier]?.name)),
      ...wish.listed.map(({ row }) => remarks.get(row) ?? low.get(row) ?? ""),
      ...new Set(alike.map((name) => `looks like "${name.trim()}"`)),
    ];
    return draftLines(wish, bags.get(wish.key) ?? [], status);
  });
  const orders = suppliers.flatMap(({ name }, place) => {
    const goods = entryAt(choice.goods, place);
    return goods > 0 ? [{ supplier: name, goods, charge: entryAt(choice.charges, place) }] : [];
  });
  const costs = roundedLines([...drafts.map(({ paid }) => paid), ...orders.map(({ charge }) => charge)]);
  return {
    lines: drafts.map(({ line }, place) => ({ ...line, cost: entryAt(costs, place) })),
    orders: orders.map(({ supplier, goods }, place) => ({
      supplier,
      goods: roundedAmount(goods),
      delivery: entryAt(costs, drafts.length + place),
    })),
    total: roundedAmount(choice.price),
    shortages: wishes.flatMap(shortageOf),
    gap: roundedAmount(choice.price - choice.bound),
  };
}

function draftLines(
  { item, needed, held, fromStock, offered }: Wish,
  bags: readonly number[],
  status: readonly string[],
): readonly { readonly line: Omit<BuyLine, "cost">; readonly paid: number }[] {
  const taken = offered.flatMap((listing, place) => {
    const count = entryAt(bags, place);
    return count > 0 ? [{ listing, count }] : [];
  });
  const left = held + sum(taken.map(({ listing, count }) => listing.usable * count)) - needed;
  const line = {
    ...plainItem(item),
    needed,
    fromStock,
    supplier: "",
    bag: 0,
    price: 0,
    bags: 0,
    leftOver: Math.max(0, left),
    short: Math.max(0, -left),
    status: [...new Set(status.filter((remark) => remark !== ""))].join("; ") || "ok",
  };
  if (taken.length === 0) return [{ line, paid: 0 }];
  return taken.map(({ listing, count }, place) => ({
    line: {
      ...line,
      ...(place > 0 && { needed: 0, fromStock: 0, leftOver: 0 }),
      supplier: listing.supplier,
      bag: listing.bag,
      price: roundedAmount(listing.price),
      bags: count,
    },
    paid: listing.price * count,
  }));
}

function reasonText({ kind, threshold, isMoreThanNeeded }: ThresholdReason, supplier = ""): string {
  const what = isMoreThanNeeded ? "more than needed" : "not the cheapest bags";
  const amount = roundedAmount(threshold).toFixed(2);
  return kind === "minimum order"
    ? `${what}, for the minimum order of ${amount} at ${supplier}`
    : `${what}, for free delivery from ${amount} at ${supplier}`;
}

/** Finds colours of the same size that look like a slip of an item's, named but never taken for it. */
function alikeItems(items: readonly Item[]): (item: Item) => readonly string[] {
  const bySize = new Map(
    [...grouped<Item, string>(items, typedSizeKey)].map(([size, group]) => [
      size,
      lookAlikesAmong(group.map(({ colour }) => colour)),
    ]),
  );
  return (item) => bySize.get(typedSizeKey(item))?.(item.colour) ?? [];
}
