import { describe, expect, it } from "vitest";
import type { TermCells } from "../../../src/core/event/job";
import { piecePrice } from "../../../src/core/event/pricing";
import { resolvedTerms, type Terms } from "../../../src/core/event/terms";
import { isWithheld, withheld } from "../../../src/core/withheld";
import { jobOf } from "./job-builder";

const terms = (given: Partial<TermCells>): Terms => resolvedTerms(jobOf({ terms: given }));

describe("piecePrice", () => {
  it("P1 to P3: rounds the price of one, then takes it as often as it is built", () => {
    // By hand: 39.255/0.55 = 71.3727; 11.069/0.55 = 20.1255.
    expect(piecePrice(78.51, 2, undefined, terms({ margin: 0.45 }))).toMatchObject({
      each: 71.37,
      price: 142.74,
    });
    expect(piecePrice(442.76, 40, undefined, terms({ margin: 0.45 }))).toMatchObject({
      each: 20.13,
      price: 805.2,
    });
  });

  it("goes up to an ending, and carries a tax that is included", () => {
    expect(piecePrice(57.14, 1, undefined, terms({ margin: 0.4, "round to": 1, ending: 0.9 })).each).toBe(
      95.9,
    );
    // By hand: 57.14/0.6 x 1.2; the margin is earned before tax.
    const taxed = piecePrice(57.14, 1, undefined, terms({ margin: 0.4, tax: 0.2, "tax included": true }));
    expect(taxed.each).toBe(114.28);
    expect(taxed.margin).toBeCloseTo(0.4, 4);
  });

  it("keeps a fixed price where the cost is not known, but no margin", () => {
    const priced = piecePrice(withheld("nobody sells it"), 3, 20, terms({}));
    expect(priced).toMatchObject({ each: 20, price: 60 });
    expect(isWithheld(priced.margin)).toBe(true);
  });

  it("has no margin on nothing", () => {
    expect(piecePrice(0, 0, undefined, terms({ margin: 0.4 }))).toEqual({ each: 0, price: 0, margin: "" });
  });
});
