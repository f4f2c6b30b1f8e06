import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { TermCells } from "../../../src/core/event/term-cells";
import { materialsOf, type Materials } from "../../../src/core/event/materials";
import { inches, jobOf, type Tables } from "./job-builder";
import { costsOf } from "./planned";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const materials = (tables: Tables, costing: TermCells["costing"] = "used share", worth = 1): Materials => {
  const { pieces, purchases } = costsOf(tables);
  return materialsOf(jobOf(tables), pieces, purchases, { costing, "leftover worth": worth });
};
const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

describe("materialsOf", () => {
  it("C2: charges the stand bouquet 15.83 (by hand: (12 x 0.25 + 38 x 0.23 + 7 x 0.24 + 18 x 0.075) / 0.97 + 0.60)", () => {
    const { pieces, unpaid } = materials(STAND_BOUQUET);
    expect(pieces[0]?.pays).toBeCloseTo(15.8268, 4);
    expect(pieces[0]?.bought).toBeCloseTo(80, 9);
    // 7.1: 64.17 of the 80.00 stay on the shelf.
    expect(unpaid).toBeCloseTo(64.1732, 4);
  });

  it("C3: charges whole bags where the terms say so, and where left-overs are worth nothing", () => {
    expect(materials(STAND_BOUQUET, "whole bags")).toMatchObject({ unpaid: 0 });
    expect(materials(STAND_BOUQUET, "whole bags").pieces[0]?.pays).toBeCloseTo(80, 9);
    expect(materials(STAND_BOUQUET, "used share", 0).pieces[0]?.pays).toBeCloseTo(80, 9);
  });

  it("C13: charges the evening's pieces 104.0799, 27.9987, 52.4981, 88.4853, delivery included", () => {
    const pays = materials(EVENING).pieces.map((piece) => piece.pays);
    [104.0799, 27.9987, 52.4981, 88.4853].forEach((expected, place) => {
      expect(pays[place]).toBeCloseTo(expected, 3);
    });
  });

  it("shares a delivery by use where the balloons themselves cost nothing (by hand: 7.90 x 30 / 40)", () => {
    const tables: Tables = {
      pieces: [
        { name: "Arch", kind: "count", printed: inches(11), colour: "Gold", balloons: 30, breakage: 0 },
        { name: "Sign", kind: "count", printed: inches(11), colour: "Gold", balloons: 10, breakage: 0 },
      ],
      price_list: [{ supplier: "Town", printed: inches(11), colour: "Gold", bag: 10, price: 0 }],
    };
    const { pieces, purchases } = costsOf(tables);
    const found = materialsOf(
      jobOf(tables),
      pieces,
      { ...purchases, delivery: 7.9 },
      {
        costing: "used share",
        "leftover worth": 1,
      },
    );
    expect(found.pieces.map(({ pays }) => pays)).toEqual([5.925, 1.975]);
  });

  it("names why a piece is not known, and leaves the others alone", () => {
    const price_list = (EVENING.price_list ?? []).filter(({ colour }) => colour !== "Gold");
    expect(materials({ ...EVENING, price_list }).pieces.map(({ why }) => why)).toEqual([
      undefined,
      undefined,
      undefined,
      "nobody sells 18 in Gold foil, 43 short",
    ]);
  });

  it("charges and leaves on the shelf, taken together, what is taken and bought", () => {
    const count = fc.integer({ min: 1, max: 200 });
    const costing = fc.constantFrom("used share" as const, "whole bags" as const);
    const cents = fc.integer({ min: 0, max: 60 }).map((each) => each / 100);
    const worth = fc.constantFrom(0, 0.4, 1);
    fc.assert(
      fc.property(
        count,
        count,
        fc.nat(150),
        cents,
        costing,
        worth,
        (one, other, shelf, value, method, keep) => {
          const tables: Tables = {
            pieces: [
              { name: "Arch", kind: "count", printed: inches(11), colour: "Gold", balloons: one },
              { name: "Sign", kind: "count", printed: inches(11), colour: "Gold", balloons: other },
            ],
            price_list: [{ supplier: "Town", printed: inches(11), colour: "Gold", bag: 50, price: 11 }],
            stock: [{ printed: inches(11), colour: "Gold", count: shelf, "value each": value }],
            delivery: [{ supplier: "Town", charge: 5 }],
          };
          const { pieces, unpaid } = materials(tables, method, keep);
          const { purchases } = costsOf(tables);
          const taken = sum(purchases.items.map(({ stockValue = 0, paid }) => stockValue + paid));
          expect(sum(pieces.map(({ pays }) => pays)) + unpaid).toBeCloseTo(taken + purchases.delivery, 6);
          const paid = sum(purchases.items.map((item) => item.paid));
          expect(sum(pieces.map(({ bought }) => bought))).toBeCloseTo(paid + purchases.delivery, 6);
        },
      ),
      { numRuns: 40 },
    );
  });

  it("never charges less where left-overs are worth less", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 99 }), (percent) => {
        const pays = (worth: number): number =>
          materials(STAND_BOUQUET, "used share", worth).pieces[0]?.pays ?? 0;
        expect(pays(percent / 100)).toBeGreaterThanOrEqual(pays((percent + 1) / 100));
      }),
      { numRuns: 10 },
    );
  });
});
