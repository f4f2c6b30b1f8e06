import { describe, expect, it } from "vitest";
import { isWithheld, sumKnown, whenKnown, withheld } from "../../src/core/withheld";

describe("a withheld number", () => {
  const gold = withheld("nobody sells 11 in Gold");
  const pink = withheld("nobody sells 11 in Pink");

  it("is told from every value of a cell", () => {
    expect(isWithheld(gold)).toBe(true);
    for (const value of [0, "", "#N/A", false, null, undefined, { error: "#N/A" }]) {
      expect(isWithheld(value)).toBe(false);
    }
  });

  it("takes every number computed from it away and keeps the first sentence", () => {
    expect(whenKnown([1, gold, pink], (a) => a)).toBe(gold);
    expect(whenKnown([6, 7], (a, b) => (a ?? 0) * (b ?? 0))).toBe(42);
    expect(sumKnown([1, pink, gold])).toBe(pink);
    expect(sumKnown([1, 2.5])).toBe(3.5);
    expect(sumKnown([])).toBe(0);
  });
});
