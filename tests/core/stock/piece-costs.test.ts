import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  pieceDemands,
  pooledNeeds,
  type PaletteRow,
  type NeededPiece,
} from "../../../src/core/palette/needs";
import { buyPlan } from "../../../src/core/stock/buy-plan";
import { pieceCosts } from "../../../src/core/stock/piece-costs";
import type { PriceRow } from "../../../src/core/stock/price-list";
import { toSi } from "../../../src/core/units";

const printed = toSi(11, "in");
const piece = (row: number, balloons: number, palette = "Both"): NeededPiece => ({
  row,
  name: `piece ${row}`,
  kind: "column",
  quantity: 1,
  printed,
  inflated: toSi(9, "in"),
  balloons,
  palette,
});
const palettes: readonly PaletteRow[] = [
  { row: 2, palette: "Both", colour: "Navy", share: 0.5 },
  { row: 3, palette: "Both", colour: "White", share: 0.5 },
  { row: 4, palette: "Plain", colour: "White", share: 1 },
];
const offer = (row: number, colour: string, price: number): PriceRow => ({
  row,
  supplier: "North",
  printed,
  colour,
  bag: 100,
  price,
});

describe("pieceCosts", () => {
  it("shares every item by what the pieces take of it and delivery by goods", () => {
    const demands = pieceDemands([piece(2, 100), piece(3, 50, "Plain")], palettes);
    const needs = pooledNeeds(demands).map((need, i) => ({ ...need, row: i + 2 }));
    // Navy 50 at 10.00 and White 100 at 8.00, delivery 3.60: piece 2 has 10 + 4 of 18, piece 3 has 4 of 18.
    const plan = buyPlan(
      needs,
      [offer(2, "Navy", 10), offer(3, "White", 8)],
      [],
      [{ row: 2, supplier: "North", charge: 3.6 }],
    );
    expect(plan.total).toBe(21.6);
    expect(pieceCosts(demands, plan)).toEqual([
      { row: 2, cost: 16.8 },
      { row: 3, cost: 4.8 },
    ]);
  });

  it("adds up to the plan, whatever the prices", () => {
    const sizes = fc.array(fc.integer({ min: 0, max: 300 }), { minLength: 1, maxLength: 9 });
    fc.assert(
      fc.property(
        sizes,
        fc.integer({ min: 1, max: 3000 }),
        fc.integer({ min: 1, max: 3000 }),
        (balloons, navy, white) => {
          const pieces = balloons.map((count, i) => piece(i + 2, count, i % 2 === 0 ? "Both" : "Plain"));
          const demands = pieceDemands(pieces, palettes);
          const needs = pooledNeeds(demands).map((need, i) => ({ ...need, row: i + 2 }));
          const plan = buyPlan(needs, [offer(2, "Navy", navy / 100), offer(3, "White", white / 100)]);
          const sum = pieceCosts(demands, plan).reduce(
            (total, { cost }) => total + Math.round(cost * 100),
            0,
          );
          expect(sum).toBe(Math.round(plan.total * 100));
        },
      ),
    );
  });

  it("costs nothing where stock covers all", () => {
    const demands = pieceDemands([piece(2, 10)], palettes);
    expect(pieceCosts(demands, buyPlan([], [offer(2, "Navy", 1)]))).toEqual([{ row: 2, cost: 0 }]);
  });
});
