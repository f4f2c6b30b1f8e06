import type { NeedRow, StockRow } from "../core/stock/buy-plan";
import type { DeliveryRow } from "../core/stock/delivery-terms";
import type { PriceRow } from "../core/stock/price-list";
import type { RowOf, TableParam } from "./param";

/** The tables of buying that many functions take, each said once. */

const priceColumns = [
  { name: "supplier", kind: "text", aliases: ["shop", "seller"], text: "Who sells it." },
  { name: "printed", kind: "balloon", aliases: ["size", "printed size"], text: "Size printed on the bag." },
  { name: "colour", kind: "text", aliases: ["color"], text: "Colour." },
  {
    name: "bag",
    kind: "count",
    min: 1,
    max: 10000,
    aliases: ["bag size", "pieces", "per bag"],
    text: "Balloons in the bag.",
  },
  {
    name: "price",
    kind: "money",
    above: 0,
    aliases: ["bag price", "cost"],
    text: "Price of the bag, or of a piece where per says so.",
  },
  {
    name: "per",
    kind: "choice",
    options: ["bag", "piece"],
    optional: true,
    text: "What the price is for; a bag where it is not said.",
  },
  {
    name: "good each",
    kind: "share",
    above: 0,
    optional: true,
    aliases: ["good"],
    text: "Share of a bag that is usable.",
  },
  {
    name: "available",
    kind: "flag",
    optional: true,
    aliases: ["in stock"],
    text: "FALSE or no where it is sold out.",
  },
] as const;

const table = <const Name extends string>(name: Name, text: string) =>
  ({ name, kind: "table", text, columns: priceColumns }) as const satisfies TableParam;

export const priceList = table(
  "price_list",
  "The price list: one row for each bag on sale. Other columns are ignored.",
);
export const oldList = table("old_list", "The price list before.");
export const newList = table("new_list", "The price list now.");

export const needs = {
  name: "needs",
  kind: "table",
  text: "What is needed, as NEEDS_PLAN spills it: its column with spares is bought.",
  columns: [
    { name: "printed", kind: "balloon", aliases: ["size", "printed size"], text: "Size printed on the bag." },
    { name: "colour", kind: "text", aliases: ["color"], text: "Colour." },
    { name: "with spares", kind: "count", aliases: ["needed", "take"], text: "Balloons to take." },
  ],
} as const satisfies TableParam;

export const stock = {
  name: "stock",
  kind: "table",
  text: "Balloons on the shelf, which go first.",
  columns: [
    { name: "printed", kind: "balloon", aliases: ["size", "printed size"], text: "Size printed on the bag." },
    { name: "colour", kind: "text", aliases: ["color"], text: "Colour." },
    { name: "count", kind: "count", aliases: ["balloons", "pieces", "left"], text: "Balloons of it." },
  ],
} as const satisfies TableParam;

export const bought = {
  name: "bought",
  kind: "table",
  text: "Balloons bought, as BUY_PLAN spills them: bags times balloons in the bag, or a column count.",
  columns: [
    {
      name: "printed",
      kind: "balloon",
      optional: true,
      aliases: ["size", "printed size"],
      text: "Size printed on the bag.",
    },
    { name: "colour", kind: "text", optional: true, aliases: ["color"], text: "Colour." },
    { name: "count", kind: "count", optional: true, aliases: ["balloons"], text: "Balloons of it." },
    { name: "bag", kind: "count", optional: true, text: "Balloons in the bag." },
    { name: "bags", kind: "count", optional: true, text: "Bags." },
  ],
} as const satisfies TableParam;

export const delivery = {
  name: "delivery",
  kind: "table",
  text: "What suppliers ask for delivery.",
  columns: [
    { name: "supplier", kind: "text", aliases: ["shop", "seller"], text: "As in the price list." },
    { name: "charge", kind: "money", text: "Delivery charge of an order." },
    {
      name: "minimum",
      kind: "money",
      default: 0,
      aliases: ["minimum order", "least"],
      text: "Least value of an order.",
    },
    {
      name: "free from",
      kind: "money",
      optional: true,
      text: "Value of goods from which delivery is free; blank where it never is.",
    },
  ],
} as const satisfies TableParam;

/** Rows of a price list as core takes them. */
export function priceRows(rows: readonly RowOf<typeof priceColumns>[]): readonly PriceRow[] {
  return rows.map(({ "good each": good, ...row }) => ({ ...row, good }));
}

/** Rows of needs as core takes them. */
export function needRows(rows: readonly RowOf<(typeof needs)["columns"]>[]): readonly NeedRow[] {
  return rows.map(({ "with spares": count, ...row }) => ({ ...row, count }));
}

/** Rows of stock as core takes them; no stock where the argument is left out. */
export function stockRows(rows: readonly RowOf<(typeof stock)["columns"]>[] = []): readonly StockRow[] {
  return rows.map(({ count: pieces, ...row }) => ({ ...row, pieces }));
}

/** Rows of delivery terms as core takes them; none where the argument is left out. */
export function deliveryRows(
  rows: readonly RowOf<(typeof delivery)["columns"]>[] = [],
): readonly DeliveryRow[] {
  return rows.map(({ "free from": freeFrom, ...row }) => ({ ...row, freeFrom }));
}

/** Rows of what was bought as core takes them: rows without an item, such as delivery charges, are no balloons. */
export function boughtRows(rows: readonly RowOf<(typeof bought)["columns"]>[] = []): readonly StockRow[] {
  return rows.flatMap(({ row, printed, colour, count, bag, bags }) => {
    const pieces = count ?? (bag ?? 0) * (bags ?? 0);
    return printed === undefined || colour === undefined ? [] : [{ row, printed, colour, pieces }];
  });
}
