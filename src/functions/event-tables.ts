import { ARCH_CURVES } from "../core/geometry/arch";
import { WALL_LATTICES } from "../core/geometry/flat";
import { PIECE_KINDS } from "../core/event/cells";
import { GASES, type PieceRow } from "../core/palette/piece-count";
import { nameKey } from "../core/palette/names";
import { BREAKAGE_INDOORS, SPARES_CONFIDENCE } from "../core/practice";
import { BUILD_STYLES } from "../core/work/build";
import type { Doubtful } from "../core/stock/doubtful";
import type { RowOf, ScalarParam, TableParam } from "./param";
import { refusedZero } from "./read-scalar";

/** The tables of an event that many functions take, each said once. */

export const pieces = {
  name: "pieces",
  kind: "table",
  doubtful: true,
  text: "The pieces of the event, with a header row. Rows of one name are one piece; a mix is one row for each size, its width is its thickness.",
  columns: [
    { name: "name", kind: "text", aliases: ["piece"], text: "What you call it." },
    {
      name: "kind",
      kind: "choice",
      options: PIECE_KINDS,
      text: "Kind of piece; count takes your own number.",
    },
    {
      name: "quantity",
      kind: "count",
      max: 10000,
      optional: true,
      zero: "refused",
      aliases: ["qty", "how many", "pcs"],
      text: "How many of it: 1 where no row of the piece says so; none parks the row.",
    },
    {
      name: "width",
      kind: "length",
      optional: true,
      aliases: ["thickness", "across"],
      text: "Width, diameter or thickness.",
    },
    { name: "height", kind: "length", optional: true, text: "Height." },
    { name: "length", kind: "length", optional: true, text: "Length." },
    { name: "printed", kind: "balloon", aliases: ["size", "printed size"], text: "Size printed on the bag." },
    {
      name: "inflated",
      kind: "balloon",
      optional: true,
      aliases: ["inflated size"],
      text: "Inflated size; left out, SIZED_INCHES.",
    },
    { name: "palette", kind: "text", text: "Palette, as in the palettes." },
    {
      name: "balloons",
      kind: "count",
      max: 1e6,
      optional: true,
      text: "Balloons in one, where you know the number.",
    },
    { name: "share", kind: "weight", optional: true, text: "Share of this size in a mix." },
    { name: "per cluster", kind: "count", min: 2, max: 12, optional: true, text: "Balloons in one cluster." },
    {
      name: "spacing",
      kind: "ratio",
      min: 0.6,
      max: 1.2,
      optional: true,
      text: "Spacing as a ratio to the size.",
    },
    {
      name: "covered",
      kind: "share",
      above: 0,
      optional: true,
      text: "Share that is dressed, or the look of a ceiling.",
    },
    { name: "curve", kind: "choice", options: ARCH_CURVES, optional: true, text: "Shape of an arch." },
    { name: "lattice", kind: "choice", options: WALL_LATTICES, optional: true, text: "Rows of a wall." },
    {
      name: "style",
      kind: "choice",
      options: BUILD_STYLES,
      optional: true,
      text: "Kind of work, where it differs.",
    },
    { name: "gas", kind: "choice", options: GASES, optional: true, text: "Air or helium, where it differs." },
  ],
} as const satisfies TableParam;

export const palettes = {
  name: "palettes",
  kind: "table",
  doubtful: true,
  text: "The palettes: one row for each colour of each palette.",
  columns: [
    { name: "palette", kind: "text", text: "Name of the palette." },
    { name: "colour", kind: "text", aliases: ["color"], text: "Colour, as in the price list." },
    { name: "share", kind: "weight", optional: true, text: "Share of this colour." },
    { name: "pattern", kind: "count", max: 1000, optional: true, text: "Balloons of it in one cluster." },
    {
      name: "inside",
      kind: "text",
      optional: true,
      text: "Colour of a second balloon inside, for layered ones.",
    },
  ],
} as const satisfies TableParam;

export const breakage = {
  name: "breakage",
  kind: "share",
  max: 0.9,
  default: BREAKAGE_INDOORS.value,
  text: "Share that pops or is faulty.",
} as const satisfies ScalarParam;

export const confidence = {
  name: "confidence",
  kind: "share",
  min: 0.5,
  max: 0.9999,
  default: SPARES_CONFIDENCE.value,
  text: "How sure you want to be of enough good ones.",
} as const satisfies ScalarParam;

type PieceCells = RowOf<(typeof pieces)["columns"]>;

const QUANTITY = pieces.columns.find(({ name }) => name === "quantity") ?? pieces.columns[0];

/** Rows of pieces as core takes them: a row without a quantity has that of the other rows of its piece, or 1. */
export function pieceRows(rows: readonly Doubtful<PieceCells>[]): readonly Doubtful<PieceRow>[] {
  const typed = new Map<string, Set<number>>();
  for (const { cells } of rows) {
    if (cells.quantity === undefined || cells.name === undefined) continue;
    const key = nameKey(cells.name);
    typed.set(key, (typed.get(key) ?? new Set()).add(cells.quantity));
  }
  return rows.map(({ cells, doubts, ...line }): Doubtful<PieceRow> => {
    const { quantity, "per cluster": perCluster, ...rest } = cells;
    const known = { ...rest, ...(perCluster !== undefined && { perCluster }) };
    const [one, other] = typed.get(nameKey(cells.name ?? "")) ?? [];
    const refused = refusedZero(`${line.place}: quantity`, QUANTITY, "type the number").message;
    const isSettled = quantity === undefined && one !== undefined && other === undefined;
    const left = doubts.filter((doubt) => !(isSettled && doubt === refused));
    if (quantity === undefined && other !== undefined && !left.includes(refused))
      left.push(`${line.place}: quantity must be given, rows of this piece say ${one} and ${other}`);
    const settled = { ...known, quantity: quantity ?? one ?? 1 };
    return {
      ...line,
      cells: settled,
      doubts: left,
      value: left.length === 0 ? (settled as PieceRow) : undefined,
    };
  });
}
