import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { repricePlan } from "../../../src/core/price/reprice";
import { sellPrice } from "../../../src/core/price/sell";
import { lowestCents } from "./exact-cents";

describe("repricePlan", () => {
  it("restores the floor, rounded up to the cent", () => {
    // By hand: 65/0.6 is 108.33 and a third, 120 at a cost of 130 loses money and needs 216.67.
    const quotes = [
      { row: 2, name: "arch", price: 100, cost: 60 },
      { row: 3, name: "columns", price: 100, cost: 65 },
      { row: 4, name: "ceiling", price: 120, cost: 130 },
      { row: 5, name: "not priced", price: 0, cost: 60 },
    ];
    expect(repricePlan(quotes, 0.4)).toEqual([
      {
        name: "arch",
        price: 100,
        cost: 60,
        margin: 0.4,
        restored: 100,
        rise: 0,
        status: "ok: keep, margin 40.00 % of price, markup 66.67 % on cost",
      },
      {
        name: "columns",
        price: 100,
        cost: 65,
        margin: 0.35,
        restored: 108.34,
        rise: 8.34,
        status: "check: under the floor, raise by 8.34, margin 35.00 % of price, markup 53.85 % on cost",
      },
      {
        name: "ceiling",
        price: 120,
        cost: 130,
        margin: -10 / 120,
        restored: 216.67,
        rise: 96.67,
        status: "check: below cost, raise by 96.67, margin -8.33 % of price, markup -7.69 % on cost",
      },
      {
        name: "not priced",
        price: 0,
        cost: 60,
        margin: "none",
        restored: 100,
        rise: 100,
        status: "check: below cost, raise by 100.00, no margin, the price is 0",
      },
    ]);
  });

  it("reads the floor as a markup where the basis is the cost", () => {
    // By hand: 65 with 60 % on it is 104.
    expect(repricePlan([{ row: 1, name: "", price: 100, cost: 65 }], 0.6, "cost")).toMatchObject([
      { margin: 35 / 65, restored: 104, rise: 4 },
    ]);
    expect(repricePlan([{ row: 1, name: "", price: 100, cost: 0 }], 0.6, "cost")).toMatchObject([
      { margin: "none", restored: 100, rise: 0 },
    ]);
  });

  it("keeps a price that misses the floor by its rounding to the cent", () => {
    // 5/0.7 is 7.142857: quoted at 7.14.
    expect(repricePlan([{ row: 1, name: "", price: 7.14, cost: 5 }], 0.3)).toMatchObject([
      { restored: 7.14, rise: 0 },
    ]);
    expect(repricePlan([{ row: 1, name: "", price: 7.13, cost: 5 }], 0.3)).toMatchObject([
      { restored: 7.15, rise: 0.02 },
    ]);
  });

  it("keeps every price made at the floor, and its restored prices stay", () => {
    const cents = fc.integer({ min: 0, max: 1e7 });
    fc.assert(
      fc.property(cents, cents, fc.integer({ min: 0, max: 95 }), (price, cost, percent) => {
        const made = sellPrice(cost / 100, percent / 100);
        expect(
          repricePlan([{ row: 1, name: "", price: made, cost: cost / 100 }], percent / 100),
        ).toMatchObject([{ rise: 0 }]);
        const [first] = repricePlan(
          [{ row: 1, name: "", price: price / 100, cost: cost / 100 }],
          percent / 100,
        );
        const restored = first?.restored ?? -1;
        if (first && first.rise > 0) expect(restored).toBe(lowestCents(cost, 100, 100 - percent) / 100);
        expect(
          repricePlan([{ row: 1, name: "", price: restored, cost: cost / 100 }], percent / 100),
        ).toMatchObject([{ restored, rise: 0 }]);
      }),
    );
  });

  it.each([
    [{ row: 7, name: "", price: -1, cost: 1 }, 0.4, "quotes row 7: price must be 0 or more, found -1"],
    [{ row: 7, name: "", price: 1, cost: -1 }, 0.4, "quotes row 7: cost must be 0 or more, found -1"],
    [{ row: 7, name: "", price: 1, cost: 1 }, 1, "floor must be below 1 as a share of the price, found 1"],
  ])("refuses %j at a floor of %d", (quote, floor, sentence) => {
    expect(() => repricePlan([quote], floor)).toThrow(sentence);
  });
});
