import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chargeOf } from "../../../src/core/event/costing";

describe("chargeOf", () => {
  it("C1: charges 12 balloons at 3 % from a bag of 50 for 12.50", () => {
    // By hand: 12/0.97 = 12.371 x 0.25.
    const charge = chargeOf(
      { used: 12 / 0.97, taken: 50, worth: 12.5, bought: 12.5, todayEach: 0.25 },
      "used share",
      1,
    );
    expect(charge.pays).toBeCloseTo(3.0928, 4);
    expect(charge.unpaid).toBeCloseTo(12.5 - 3.0928, 4);
    expect(charge.leftEach).toBeCloseTo(0.25, 12);
  });

  it("C6: takes the weighted average of shelf and bags", () => {
    // By hand: (47 x 0.12 + 30.00)/(47 + 150) = 35.64/197.
    const taken = { used: 100, taken: 197, worth: 35.64, bought: 30, todayEach: 0.2 };
    expect(chargeOf(taken, "used share", 1).leftEach).toBeCloseTo(0.1809, 4);
    expect(chargeOf(taken, "used share", 1).pays).toBeCloseTo(18.09, 2);
    expect(chargeOf(taken, "replacement", 1).pays).toBe(20);
    expect(chargeOf(taken, "whole bags", 1)).toMatchObject({ pays: 35.64, leftEach: 0, unpaid: 0 });
  });

  it("never pays less than what is used nor more than what is taken, whatever left-overs are worth", () => {
    const part = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), part, part, (all, used, kept) => {
        const taken = { used: used * all, taken: all, worth: all * 0.2, bought: all * 0.2, todayEach: 0.2 };
        const { pays, unpaid } = chargeOf(taken, "used share", kept);
        expect(pays).toBeGreaterThanOrEqual(used * all * 0.2 - 1e-9);
        expect(pays).toBeLessThanOrEqual(all * 0.2 + 1e-9);
        expect(pays + unpaid).toBeCloseTo(all * 0.2, 9);
      }),
    );
  });

  it("costs nothing where nothing is taken", () => {
    const nothing = { used: 0, taken: 0, worth: 0, bought: 0, todayEach: undefined };
    for (const costing of ["used share", "whole bags", "replacement"] as const)
      expect(chargeOf(nothing, costing, 1)).toEqual({ pays: 0, bought: 0, unpaid: 0, leftEach: 0 });
  });
});
