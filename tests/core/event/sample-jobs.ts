import { outlineCount } from "../../../src/core/geometry/outline";
import { wallCount } from "../../../src/core/geometry/flat";
import type { GoodsCells, PieceCells, PriceCells } from "../../../src/core/event/cells";
import { feet, inches, minutes, type Row, type Tables } from "./job-builder";

/** Jobs of section 7 of the design of the event level, typed as its tables say. */

const price = (
  printed: number,
  colour: string,
  bag: number,
  amount: number,
  more: Row<PriceCells> = {},
): Row<PriceCells> => ({ supplier: "Town", printed: inches(printed), colour, bag, price: amount, ...more });

const stand = "Stand bouquet";

/** 7.1: a free-form bouquet on a sleeved stand. */
export const STAND_BOUQUET: Tables = {
  pieces: [
    { name: stand, kind: "sleeve", printed: inches(60), colour: "White", height: feet(6) },
    {
      name: stand,
      kind: "tied ball",
      printed: inches(12),
      inflated: inches(10),
      colour: "Burgundy",
      balloons: 12,
    },
    { name: stand, kind: "cover", printed: inches(12), inflated: inches(11), palette: "Outer", ribbon: 0.65 },
    { name: stand, kind: "collar", printed: inches(5), inflated: inches(4), palette: "Cloud", balloons: 18 },
  ],
  palettes: [
    { palette: "Outer", colour: "Blush", share: 30 },
    { palette: "Outer", colour: "Rose", share: 30 },
    { palette: "Outer", colour: "Peach", share: 25 },
    { palette: "Outer", colour: "Coral", share: 15 },
    { palette: "Cloud", colour: "Blush", share: 2 },
    { palette: "Cloud", colour: "Peach", share: 1 },
  ],
  price_list: [
    price(12, "Burgundy", 50, 12.5),
    price(12, "Blush", 50, 11.5),
    price(12, "Rose", 50, 11.5),
    price(12, "Peach", 50, 11.5),
    price(12, "Coral", 50, 12),
    price(5, "Blush", 100, 7.5),
    price(5, "Peach", 100, 7.5),
    price(60, "White", 10, 6, { type: "long" }),
  ],
  goods: [
    { item: "pole", per: "piece", price: 3, returns: true },
    { item: "base", per: "piece", price: 2, returns: true },
    { item: "dots", per: "balloon", for: "cover", pack: 100, price: 3.5 },
    { item: "ribbon", per: "ribbon metre", unit: "m", pack: 100, price: 4 },
  ],
  terms: {
    pay: 20,
    crew: 1,
    margin: 0.4,
    tax: 0.2,
    deposit: 0.5,
    travel: minutes(30),
    distance: 15_000,
    "per km": 0.45,
  },
};

const LOGO = [
  [0, 0],
  [1.6, 0],
  [1.6, 0.8],
  [0, 0.8],
].map(([x = 0, y = 0], index) => ({ row: index + 1, x, y }));
const logoBalloons = outlineCount(LOGO, inches(9), 0.8);
const wallBalloons = wallCount(4, 2.4, inches(9)) - logoBalloons;

const rail = (printed: number, share: number, more: Row<PieceCells> = {}): Row<PieceCells> => ({
  name: "Railing garland",
  kind: "mix",
  printed: inches(printed),
  palette: "Rail",
  share,
  where: "outdoors",
  built: "shop",
  ...more,
});

export const EVENING_GOODS: readonly Row<GoodsCells>[] = [
  { item: "strip", per: "metre", for: "mix", unit: "m", pack: 25, price: 6 },
  { item: "ties", per: "metre", for: "mix", amount: 3, pack: 100, price: 2.5 },
  { item: "pole", per: "piece", for: "Door columns", price: 1.5, returns: true },
  { item: "base", per: "piece", for: "Door columns", price: 2.5, returns: true },
  { item: "panel", per: "m2", for: "wall", price: 1.2, returns: true },
  { item: "weight", per: "piece", for: "Table bouquets", pack: 10, price: 8 },
  { item: "ribbon", per: "ribbon metre", unit: "m", pack: 100, price: 4 },
  { item: "cylinder", per: "helium litre", unit: "L", pack: 3498.77, price: 95, returns: true },
];

/** 7.2: a corporate evening; its logo takes its places out of the wall by two counting functions. */
export const EVENING: Tables = {
  pieces: [
    rail(5, 5, { quantity: 1, width: 0.4, length: 30 }),
    rail(11, 4),
    rail(16, 1),
    {
      name: "Door columns",
      kind: "column",
      quantity: 2,
      height: 3,
      printed: inches(11),
      palette: "Door",
      built: "shop",
    },
    {
      name: "Logo wall",
      kind: "wall",
      quantity: 1,
      width: 4,
      height: 2.4,
      printed: inches(11),
      inflated: inches(9),
      colour: "White",
      balloons: wallBalloons,
    },
    {
      name: "Logo wall",
      kind: "count",
      printed: inches(11),
      inflated: inches(9),
      colour: "Navy",
      balloons: logoBalloons,
      style: "wall",
    },
    {
      name: "Table bouquets",
      kind: "bouquet",
      quantity: 40,
      printed: inches(11),
      palette: "Table",
      balloons: 5,
      ribbon: 1.2,
    },
    { name: "Table bouquets", kind: "foil", printed: inches(18), colour: "Gold", balloons: 1, ribbon: 1.2 },
  ],
  palettes: [
    { palette: "Rail", colour: "White", share: 4 },
    { palette: "Rail", colour: "Sky", share: 3 },
    { palette: "Rail", colour: "Navy", share: 3 },
    { palette: "Door", colour: "Navy", pattern: 2 },
    { palette: "Door", colour: "White", pattern: 2 },
    { palette: "Table", colour: "Navy", share: 3 },
    { palette: "Table", colour: "White", share: 2 },
  ],
  price_list: [
    ...["White", "Sky", "Navy"].flatMap((colour) => [
      price(5, colour, 100, 7.5),
      price(11, colour, 50, 10),
      price(16, colour, 25, 13.5),
      price(11, colour, 100, 17, { supplier: "Depot" }),
    ]),
    price(18, "Gold", 1, 1.6, { type: "foil" }),
    price(18, "Gold", 10, 12, { type: "foil" }),
  ],
  delivery: [
    { supplier: "Depot", charge: 7.9 },
    { supplier: "Town", charge: 0 },
  ],
  goods: EVENING_GOODS,
  terms: {
    pay: 19,
    crew: 3,
    margin: 0.45,
    tax: 0.2,
    deposit: 0.5,
    travel: minutes(30),
    distance: 20_000,
    "per km": 0.45,
    access: 10 / 24,
    ready: 14.5 / 24,
    budget: 2500,
  },
  vehicles: [{ vehicle: "van", m3: 11 }],
};
