import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { piecePrice } from "../../../src/core/event/pricing";
import { isWithheld, withheld } from "../../../src/core/withheld";
import { known } from "./job-builder";
import { termsOf } from "./planned";

describe("piecePrice", () => {
  it("P1, P2: sells two columns of 78.51 at a margin of 45 % for 2 x 71.37 (by hand: 39.255 / 0.55)", () => {
    expect(piecePrice(78.51, 2, undefined, termsOf({ margin: 0.45 }))).toMatchObject({
      each: 71.37,
      price: 142.74,
    });
  });

  it("P3: sells 40 bouquets of 442.76 for 40 x 20.13", () => {
    expect(piecePrice(442.76, 40, undefined, termsOf({ margin: 0.45 }))).toMatchObject({
      each: 20.13,
      price: 805.2,
    });
  });

  it("P9: sells the stand bouquet and its travel for 95.23 and 156.12", () => {
    const terms = termsOf({ margin: 0.4 });
    expect(piecePrice(57.14, 1, undefined, terms).price).toBe(95.23);
    expect(piecePrice(93.67, 1, undefined, terms).price).toBe(156.12);
  });

  it("keeps a typed price, and says what it earns (by hand: (80 - 60) / 80, on cost 20 / 60)", () => {
    const fixed = piecePrice(60, 2, 40, termsOf({ margin: 0.9 }));
    expect(fixed).toMatchObject({ each: 40, price: 80 });
    expect(known(fixed.margin)).toBeCloseTo(0.25, 12);
    expect(known(piecePrice(60, 2, 40, termsOf({ margin: 0.9, basis: "cost" })).margin)).toBeCloseTo(
      1 / 3,
      12,
    );
  });

  it("carries the tax where prices include it, and earns its margin before it (by hand: 60 / 0.6 x 1.2)", () => {
    const found = piecePrice(60, 1, undefined, termsOf({ margin: 0.4, tax: 0.2, "tax included": true }));
    expect(found.price).toBe(120);
    expect(known(found.margin)).toBeCloseTo(0.4, 12);
  });

  it("rounds one piece up to a step and an ending (by hand: 71.37 to 74.99 in steps of 5)", () => {
    const terms = termsOf({ margin: 0.45, "round to": 5, ending: 4.99 });
    expect(piecePrice(78.51, 2, undefined, terms)).toMatchObject({ each: 74.99, price: 149.98 });
  });

  it("costs nothing where the piece is parked, and has no margin then", () => {
    expect(piecePrice(0, 0, undefined, termsOf({ margin: 0.4 }))).toEqual({ each: 0, price: 0, margin: "" });
  });

  it("is withheld with the cost, and without a margin in terms", () => {
    const gap = withheld("nobody sells 11 in Gold, 20 short");
    expect(piecePrice(gap, 1, undefined, termsOf({ margin: 0.4 }))).toEqual({
      each: gap,
      price: gap,
      margin: gap,
    });
    const silent = piecePrice(60, 1, undefined, termsOf());
    expect(isWithheld(silent.price) && silent.price.sentence).toBe(
      "margin must be given in terms; type none to sell at cost",
    );
    // A typed price stands by itself; only what it earns cannot be told.
    const fixed = piecePrice(gap, 2, 40, termsOf());
    expect([fixed.price, isWithheld(fixed.margin)]).toEqual([80, true]);
  });

  it("is quantity x each to the cent, never falls with cost or margin, and loses at most half a cent a piece", () => {
    const cents = fc.integer({ min: 1, max: 500_000 }).map((amount) => amount / 100);
    const percent = fc.integer({ min: 0, max: 90 });
    fc.assert(
      fc.property(cents, cents, percent, fc.integer({ min: 1, max: 60 }), (cost, more, margin, quantity) => {
        const at = (amount: number, share: number): number =>
          known(piecePrice(amount, quantity, undefined, termsOf({ margin: share / 100 })).price);
        const { each, price } = piecePrice(cost, quantity, undefined, termsOf({ margin: margin / 100 }));
        expect(Math.round(known(price) * 100)).toBe(quantity * Math.round(known(each) * 100));
        expect(known(price)).toBeGreaterThanOrEqual(cost / (1 - margin / 100) - quantity * 0.005 - 1e-6);
        expect(at(cost + more, margin)).toBeGreaterThanOrEqual(known(price));
        expect(at(cost, margin + 1)).toBeGreaterThanOrEqual(known(price));
      }),
      { numRuns: 60 },
    );
  });
});
