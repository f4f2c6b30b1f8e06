import { ARCH_CURVES, ARCH_MEASURES } from "../../core/geometry/arch";
import { WALL_LATTICES } from "../../core/geometry/flat";
import {
  BALLOON_TYPES,
  GOODS_DRIVERS,
  PART_KINDS,
  WORK_STYLES,
  type DeliveryCells,
  type GoodsCells,
  type NameCells,
  type PaletteCells,
  type PastJobCells,
  type PieceCells,
  type PriceCells,
  type StockCells,
  type VehicleCells,
  type WorkCells,
} from "../../core/event/cells";
import type { Sort } from "../../core/event/job";
import type { ScalarSpec, TableColumn, Zero } from "../param";

/** How the cells of a column are read; its name is its key. */
type Body = ScalarSpec & {
  readonly aliases?: readonly string[];
  /** A row without it is doubtful, and a range without the column cannot be read. */
  readonly required?: true;
  readonly zero?: Zero;
  readonly blank?: "refused";
};

/** The columns of a table: one for each of its cells; a size code is read with its printed size. */
type Bodies<Cells> = Readonly<Record<Exclude<keyof Cells, "code">, Body>>;

const text: Body = { kind: "text" };
const required = { required: true } as const;
const refused = { zero: "refused" } as const;
const notGiven = { zero: "default" } as const;
const length = { kind: "length", ...notGiven } as const;
const money = { kind: "money", ...notGiven } as const;
const count = { kind: "count", ...notGiven } as const;
const number = { kind: "number", min: 0, max: 1e6, ...notGiven } as const;
const colour: Body = { kind: "text", aliases: ["color"] };
const printed: Body = { kind: "balloon", aliases: ["size", "printed size"], ...notGiven };
const supplier: Body = { kind: "text", aliases: ["vendor", "shop", "seller"] };
const type: Body = { kind: "choice", options: BALLOON_TYPES };
const where: Body = { kind: "choice", options: ["indoors", "outdoors"] };
const built: Body = { kind: "choice", options: ["shop", "site"] };
const minutes = { kind: "duration", unit: "min", max: 1440, ...notGiven } as const;
const hours = { kind: "duration", max: 100000, ...notGiven } as const;

const pieces: Bodies<PieceCells> = {
  name: { kind: "text", aliases: ["piece"], ...required },
  kind: { kind: "choice", options: PART_KINDS, ...required },
  printed,
  palette: text,
  colour,
  quantity: { kind: "count", max: 10000, aliases: ["qty", "how many", "pcs"], ...refused },
  event: text,
  option: text,
  width: { ...length, aliases: ["thickness", "across"] },
  height: length,
  length,
  inflated: { kind: "balloon", aliases: ["inflated size"], ...notGiven },
  type,
  balloons: { ...count, max: 1e6 },
  share: { kind: "weight", ...notGiven },
  "per cluster": { ...count, min: 2, max: 12 },
  spacing: { kind: "ratio", min: 0.6, max: 1.2, ...notGiven },
  covered: { kind: "share", above: 0, ...notGiven },
  packing: { kind: "share", min: 0.2, max: 0.95, ...notGiven },
  curve: { kind: "choice", options: ARCH_CURVES },
  measured: { kind: "choice", options: ARCH_MEASURES },
  lattice: { kind: "choice", options: WALL_LATTICES },
  faces: { ...count, min: 1, max: 2 },
  gas: { kind: "choice", options: ["air", "helium"] },
  where,
  built,
  carried: { kind: "choice", options: ["built", "bagged", "empty"] },
  style: { kind: "choice", options: WORK_STYLES },
  rigging: minutes,
  breakage: { kind: "share", max: 0.9, ...notGiven },
  ribbon: { ...length, max: 50 },
  "litres each": { kind: "volume", ...notGiven },
  "grams each": { kind: "mass", ...notGiven },
  base: length,
  "price each": money,
};

const palettes: Bodies<PaletteCells> = {
  palette: { kind: "text", ...required },
  colour: { ...colour, ...required },
  share: { kind: "weight", ...notGiven },
  pattern: { ...count, max: 1000 },
  inside: text,
  keep: { kind: "share", ...refused },
};

const price_list: Bodies<PriceCells> = {
  supplier: { ...supplier, ...required },
  printed: { ...printed, ...required },
  colour: { ...colour, ...required },
  type,
  bag: {
    kind: "count",
    min: 1,
    max: 10000,
    aliases: ["bag of", "in bag", "pack", "size of bag", "bag size", "per bag"],
    ...required,
  },
  price: {
    kind: "money",
    aliases: ["price each bag", "bag price", "$ per bag"],
    blank: "refused",
    ...required,
    ...refused,
  },
  per: { kind: "choice", options: ["bag", "piece"] },
  "good each": { kind: "share", above: 0, aliases: ["good"], ...notGiven },
  available: { kind: "flag", aliases: ["in stock"], ...refused },
};

const delivery: Bodies<DeliveryCells> = {
  supplier: { ...supplier, ...required },
  charge: { kind: "money", blank: "refused", ...required, ...refused },
  minimum: { ...money, aliases: ["minimum order", "least"] },
  "free from": money,
};

const stock: Bodies<StockCells> = {
  printed: { ...printed, ...required },
  colour: { ...colour, ...required },
  type,
  count: { kind: "count", aliases: ["on shelf", "in stock", "balloons", "pieces", "left"], ...required },
  "value each": money,
};

const goods: Bodies<GoodsCells> = {
  item: { kind: "text", ...required },
  per: { kind: "choice", options: GOODS_DRIVERS, ...required },
  for: text,
  amount: number,
  unit: text,
  pack: { ...number, max: 1e9, above: 0 },
  price: { kind: "money", blank: "refused", ...refused },
  returns: { kind: "flag", ...notGiven },
  owned: number,
  supplier,
  "m3 each": number,
};

const work: Bodies<WorkCells> = {
  task: { kind: "text", ...required },
  "minutes per balloon": minutes,
  "minutes per piece": minutes,
  where: built,
};

const vehicles: Bodies<VehicleCells> = {
  vehicle: { kind: "text", ...required },
  m3: { kind: "volume", unit: "m3", above: 0, max: 1000, aliases: ["load m3"], ...required },
  length,
  width: length,
  height: length,
  "door width": length,
  "door height": length,
};

const names: Bodies<NameCells> = {
  written: { kind: "text", ...required },
  means: { kind: "text", ...required },
};

const past_jobs: Bodies<PastJobCells> = {
  job: { kind: "text", ...required },
  date: { kind: "datetime", ...notGiven },
  event: text,
  style: { kind: "choice", options: WORK_STYLES },
  kind: { kind: "choice", options: PART_KINDS },
  where,
  type,
  balloons: count,
  hours,
  pieces: count,
  "rigging hours": hours,
  "planned balloons": count,
  taken: count,
  popped: count,
  left: count,
  printed,
  colour,
};

function columnsOf(bodies: Readonly<Record<string, Body>>): readonly TableColumn[] {
  return Object.entries(bodies).map(([name, { required: isRequired, ...body }]) => ({
    ...body,
    name,
    ...(isRequired !== true && { optional: true as const }),
  }));
}

/** The columns of every sort but terms and events, whose columns are the terms. */
export const COLUMNS: Readonly<Record<Exclude<Sort, "terms" | "events">, readonly TableColumn[]>> = {
  pieces: columnsOf(pieces),
  palettes: columnsOf(palettes),
  price_list: columnsOf(price_list),
  delivery: columnsOf(delivery),
  stock: columnsOf(stock),
  goods: columnsOf(goods),
  work: columnsOf(work),
  vehicles: columnsOf(vehicles),
  names: columnsOf(names),
  past_jobs: columnsOf(past_jobs),
};
