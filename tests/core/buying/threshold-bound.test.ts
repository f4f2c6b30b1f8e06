import { describe, expect, it } from "vitest";
import { Incumbent } from "../../../src/core/buying/incumbent";
import { PurchaseProblem } from "../../../src/core/buying/purchase-problem";
import { StepBudget } from "../../../src/core/buying/step-budget";
import { ThresholdBound } from "../../../src/core/buying/threshold-bound";

// One item of 50 at supplier 0 for 10.00 or at supplier 1 for 8.00; supplier 0 has another for 5.00 and asks for 12.00.
const wanted = [
  {
    need: 50,
    offers: [
      { supplier: 0, pieces: 50, price: 1000 },
      { supplier: 1, pieces: 50, price: 800 },
    ],
  },
  { need: 10, offers: [{ supplier: 0, pieces: 10, price: 500 }] },
];
const terms = [
  { charge: 0, minimum: 1200, freeFrom: Infinity },
  { charge: 0, minimum: 0, freeFrom: Infinity },
];
const active = [{ supplier: 0, threshold: 1200, charge: 0 }];

function boundOf() {
  const problem = new PurchaseProblem(wanted, terms, new StepBudget(1e6));
  const incumbent = new Incumbent(problem);
  return { incumbent, bounds: new ThresholdBound(problem, incumbent, [true, true], [0, 0]) };
}

describe("ThresholdBound", () => {
  it("relaxes once for the same multipliers, and proposes what it sees", () => {
    const { incumbent, bounds } = boundOf();
    const free = bounds.relaxFreely();
    expect([free.price, free.cover.goods]).toEqual([1300, [500, 800]]);
    // 5.00 of supplier 0 is filled up to 15.00 with bags of 5.00 and 10.00.
    expect(incumbent.price).toBe(1500 + 800);
    expect(bounds.relax([0, 0])).toBe(free);
    // A quarter off supplier 0: 7.50 beats 8.00, and the plan is 15.00 in all.
    expect(bounds.relaxBy(active, [0.25]).price).toBe(1125);
    expect([incumbent.price, bounds.covers.length]).toEqual([1500, 2]);
  });

  it("maximises the dual", () => {
    // At u: min(10 (1 - u), 8) + 5 (1 - u) + 12 u. Up to 0.2 it rises from 13 by 7 a unit, then it falls by 3: 14.40.
    const { bounds } = boundOf();
    const { multipliers, value, points } = bounds.maximise(active, 0);
    expect(value).toBeCloseTo(1440, 6);
    expect(multipliers[0]).toBeCloseTo(0.2, 9);
    expect(points[0]?.multipliers).toEqual([0]);
    for (const point of points) expect(point.value).toBeLessThanOrEqual(value + 1e-9);
    // The best plan is 15.00, above the bound.
    expect(bounds.best(active, [])).toBeCloseTo(1440, 6);
    expect(bounds.best([], [0])).toBeCloseTo(1440, 6);
  });
});
