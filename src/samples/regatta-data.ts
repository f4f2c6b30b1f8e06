/**
 * The demo event, invented: a rowing club's summer regatta evening. Two columns at the door, a half-ellipse arch over the
 * stage, a free-form garland on the bar, ball trees on stands, a scattered helium ceiling and outdoor markers.
 */

/** Price list: supplier, printed inches, colour, bag, price of the bag, share of good ones, price date. */
export const PRICES: readonly (readonly [string, number, string, number, number, number, string])[] = [
  ["Town shop", 5, "Navy", 100, 7.5, 0.99, "2026-10-05"],
  ["Town shop", 5, "White", 100, 7.2, 0.99, "2026-10-05"],
  ["Town shop", 5, "Coral", 100, 7.5, 0.99, "2026-10-05"],
  ["Town shop", 11, "Navy", 50, 9.9, 0.98, "2026-10-05"],
  ["Town shop", 11, "White", 50, 8.9, 0.98, "2026-10-05"],
  ["Town shop", 11, "Coral", 50, 9.9, 0.98, "2026-10-05"],
  ["Town shop", 11, "Sky", 50, 9.9, 0.98, "2026-10-05"],
  ["Town shop", 11, "Sand", 50, 10.4, 0.98, "2026-10-05"],
  ["Town shop", 16, "Navy", 25, 13.5, 0.98, "2026-10-05"],
  ["Town shop", 16, "White", 25, 12.9, 0.98, "2026-10-05"],
  ["Town shop", 16, "Coral", 25, 13.5, 0.98, "2026-10-05"],
  ["Online store", 5, "White", 100, 6.4, 0.98, "2026-10-12"],
  ["Online store", 5, "Coral", 100, 6.6, 0.98, "2026-10-12"],
  ["Online store", 11, "Navy", 100, 17.2, 0.97, "2026-10-12"],
  ["Online store", 11, "White", 100, 15.9, 0.97, "2026-10-12"],
  ["Online store", 11, "Coral", 100, 17.2, 0.97, "2026-10-12"],
  ["Online store", 11, "Sky", 100, 17.2, 0.97, "2026-10-12"],
  ["Online store", 11, "Sand", 100, 18.6, 0.97, "2026-10-12"],
  ["Online store", 16, "White", 50, 22.5, 0.97, "2026-10-12"],
  ["Online store", 16, "Sky", 50, 24.9, 0.97, "2026-10-12"],
  ["Online store", 16, "Sand", 50, 24.9, 0.97, "2026-10-12"],
  ["Online store", 16, "Coral", 50, 24.9, 0.97, "2026-10-12"],
  ["Online store", 16, "Navy", 50, 24.9, 0.97, "2026-10-12"],
];

/** Delivery: supplier, charge, least order, free from. */
export const DELIVERY: readonly (readonly [string, number, number, number])[] = [
  ["Town shop", 0, 0, 0],
  ["Online store", 6.9, 20, 75],
];

/** Stock on the shelf: printed inches, colour, count. */
export const STOCK: readonly (readonly [number, string, number])[] = [
  [11, "White", 30],
  [5, "Coral", 40],
];

/** Palettes: palette, colour, share, pattern in one cluster. */
export const PALETTES: readonly (readonly [string, string, number | null, number | null])[] = [
  ["Door", "Navy", null, 2],
  ["Door", "White", null, 2],
  ["Stage", "Navy", null, 2],
  ["Stage", "White", null, 1],
  ["Stage", "Coral", null, 1],
  ["Regatta", "Navy", 0.4, null],
  ["Regatta", "White", 0.35, null],
  ["Regatta", "Coral", 0.25, null],
  ["Sail", "White", 0.5, null],
  ["Sail", "Sky", 0.3, null],
  ["Sail", "Sand", 0.2, null],
];

/** Heads of the pieces, as the functions read them. */
export const PIECE_HEADS = [
  "name",
  "kind",
  "quantity",
  "width m",
  "height m",
  "length m",
  "printed in",
  "inflated in",
  "palette",
  "balloons",
  "share",
  "covered",
  "gas",
] as const;

type Optional = number | null;

/** Pieces in the order of their heads. */
export const PIECES: readonly (readonly [
  string,
  string,
  number,
  Optional,
  Optional,
  Optional,
  number,
  Optional,
  string,
  Optional,
  Optional,
  Optional,
  string | null,
])[] = [
  ["Door columns", "column", 2, null, 2.1, null, 11, 9, "Door", null, null, null, null],
  ["Stage arch", "arch", 1, 5, 2.8, null, 11, 9, "Stage", null, null, null, null],
  ["Bar garland", "mix", 1, 0.5, null, 3.5, 5, 4.5, "Regatta", null, 5, null, null],
  ["Bar garland", "mix", 1, null, null, null, 11, 9, "Regatta", null, 4, null, null],
  ["Bar garland", "mix", 1, null, null, null, 16, 13, "Regatta", null, 1, null, null],
  ["Ball trees", "count", 2, null, null, null, 11, 10, "Regatta", 12, null, null, null],
  ["Ball trees", "count", 2, null, null, null, 11, 10, "Regatta", 40, null, null, null],
  ["Helium ceiling", "ceiling", 1, 5, null, 8, 11, 11, "Sail", null, null, 0.4, "helium"],
  ["Outdoor markers", "count", 6, null, null, null, 16, 13, "Sail", 4, null, null, null],
];

/** Hardware recipes: item, kind of piece, unit, fixed, per metre, per cluster, pack. */
export const RECIPES: readonly (readonly [string, string, string, number, number, number, number])[] = [
  ["base plate with pole", "column", "piece", 1, 0, 0, 1],
  ["line", "column", "m", 0.5, 1, 0, 50],
  ["arch pole section", "arch", "piece", 0, 0.7, 0, 1],
  ["base plate with pole", "arch", "piece", 2, 0, 0, 1],
  ["fishing line", "mix", "m", 2, 1.2, 0, 100],
  ["glue dots", "mix", "piece", 0, 20, 0, 100],
  ["stand with cup", "count", "piece", 1, 0, 0, 1],
  ["ribbon", "ceiling", "m", 0, 0, 0, 250],
];

/** Hardware prices: item, price of one pack. */
export const HARDWARE_PRICES: readonly (readonly [string, number])[] = [
  ["base plate with pole", 6.5],
  ["line", 3.2],
  ["arch pole section", 2.4],
  ["fishing line", 2.9],
  ["glue dots", 4.5],
  ["stand with cup", 4.2],
  ["ribbon", 3.6],
];

/** The evening. */
export const EVENT = {
  name: "Summer regatta evening",
  access: "2027-06-19 09:00",
  start: "2027-06-19 18:00",
  end: "2027-06-19 23:30",
} as const;
