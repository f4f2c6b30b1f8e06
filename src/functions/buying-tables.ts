import { BALLOON_TYPES } from "../core/event/cells";
import type { NeedRow, StockRow } from "../core/stock/item-rows";
import type { DeliveryRow } from "../core/stock/delivery-terms";
import { changedRows, type Doubtful } from "../core/stock/doubtful";
import type { PriceRow } from "../core/stock/price-list";
import type { ColumnSpec, RowOf, TableParam } from "./param";

/** The tables of buying that many functions take, each said once. */

const typeColumn = {
  name: "type",
  kind: "choice",
  options: BALLOON_TYPES,
  optional: true,
  text: "Latex, foil or long; latex where it is not said.",
} as const satisfies ColumnSpec;

const priceColumns = [
  { name: "supplier", kind: "text", aliases: ["vendor", "shop", "seller"], text: "Who sells it." },
  { name: "printed", kind: "balloon", aliases: ["size", "printed size"], text: "Size printed on the bag." },
  { name: "colour", kind: "text", aliases: ["color"], text: "Colour." },
  {
    name: "bag",
    kind: "count",
    min: 1,
    max: 10000,
    aliases: ["bag of", "in bag", "pack", "size of bag", "bag size", "pieces", "per bag"],
    text: "Balloons in the bag.",
  },
  {
    name: "price",
    kind: "money",
    zero: "refused",
    blank: "refused",
    aliases: ["price each bag", "bag price", "$ per bag", "cost"],
    text: "Price of the bag, or of a piece where per says so; none where it costs nothing.",
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
    zero: "refused",
    aliases: ["in stock"],
    text: "FALSE or no where it is sold out.",
  },
  typeColumn,
] as const;

const table = <const Name extends string>(name: Name, text: string) =>
  ({
    name,
    kind: "table",
    doubtful: true,
    hasTitles: true,
    text,
    columns: priceColumns,
  }) as const satisfies TableParam;

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
    typeColumn,
  ],
} as const satisfies TableParam;

/** A table whose rows core takes with their doubts. */
const doubtful = <const Table extends TableParam>(table: Table) => ({ ...table, doubtful: true }) as const;

export const doubtfulNeeds = doubtful(needs);

export const stock = {
  name: "stock",
  kind: "table",
  hasTitles: true,
  text: "Balloons on the shelf, which go first.",
  columns: [
    { name: "printed", kind: "balloon", aliases: ["size", "printed size"], text: "Size printed on the bag." },
    { name: "colour", kind: "text", aliases: ["color"], text: "Colour." },
    {
      name: "count",
      kind: "count",
      aliases: ["on shelf", "in stock", "balloons", "pieces", "left"],
      text: "Balloons of it.",
    },
    typeColumn,
  ],
} as const satisfies TableParam;

export const shelf = { ...doubtful(stock), optional: true } as const;

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
  doubtful: true,
  optional: true,
  text: "What suppliers ask for delivery.",
  columns: [
    { name: "supplier", kind: "text", aliases: ["shop", "seller"], text: "As in the price list." },
    {
      name: "charge",
      kind: "money",
      zero: "refused",
      blank: "refused",
      text: "Delivery charge of an order; none where it is free.",
    },
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
export function priceRows(
  rows: readonly Doubtful<RowOf<typeof priceColumns>>[],
): readonly Doubtful<PriceRow>[] {
  return changedRows(rows, ({ "good each": good, ...row }) => ({ ...row, good }));
}

type NeedCells = RowOf<(typeof needs)["columns"]>;
type StockCells = RowOf<(typeof stock)["columns"]>;

const needRow = ({ "with spares": count, ...row }: Partial<NeedCells>): Partial<NeedRow> => ({
  ...row,
  ...(count !== undefined && { count }),
});
const stockRow = ({ count: pieces, ...row }: Partial<StockCells>): Partial<StockRow> => ({
  ...row,
  ...(pieces !== undefined && { pieces }),
});

/** Rows of needs as core takes them. */
export function needRows(rows: readonly NeedCells[]): readonly NeedRow[] {
  return rows.map(({ "with spares": count, ...row }) => ({ ...row, count }));
}

/** Rows of needs with their doubts. */
export function doubtfulNeedRows(rows: readonly Doubtful<NeedCells>[]): readonly Doubtful<NeedRow>[] {
  return changedRows(rows, needRow);
}

/** Rows of stock as core takes them. */
export function stockRows(rows: readonly StockCells[]): readonly StockRow[] {
  return rows.map(({ count: pieces, ...row }) => ({ ...row, pieces }));
}

/** Rows of the shelf with their doubts; none where the argument is left out. */
export function shelfRows(rows: readonly Doubtful<StockCells>[] = []): readonly Doubtful<StockRow>[] {
  return changedRows(rows, stockRow);
}

/** Rows of delivery terms as core takes them; none where the argument is left out. */
export function deliveryRows(
  rows: readonly Doubtful<RowOf<(typeof delivery)["columns"]>>[] = [],
): readonly Doubtful<DeliveryRow>[] {
  return changedRows(rows, ({ "free from": freeFrom, ...row }) => ({ ...row, freeFrom }));
}

/** Rows of what was bought as core takes them: rows without an item, such as delivery charges, are no balloons. */
export function boughtRows(rows: readonly RowOf<(typeof bought)["columns"]>[] = []): readonly StockRow[] {
  return rows.flatMap(({ row, printed, colour, count, bag, bags }) => {
    const pieces = count ?? (bag ?? 0) * (bags ?? 0);
    return printed === undefined || colour === undefined ? [] : [{ row, printed, colour, pieces }];
  });
}
