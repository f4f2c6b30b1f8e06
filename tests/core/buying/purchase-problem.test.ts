import { describe, expect, it } from "vitest";
import { PurchaseProblem, roundingOf } from "../../../src/core/buying/purchase-problem";
import { StepBudget } from "../../../src/core/buying/step-budget";

const wanted = [
  {
    need: 60,
    offers: [
      { supplier: 0, pieces: 50, price: 900 },
      { supplier: 1, pieces: 100, price: 1500 },
    ],
  },
  { need: 10, offers: [{ supplier: 1, pieces: 10, price: 300 }] },
];
const none = { charge: 0, minimum: 0, freeFrom: Infinity };
const terms = [{ ...none, charge: 600 }, none, { ...none, charge: 500 }];
const problemOf = (budget = new StepBudget(1e6)) => new PurchaseProblem(wanted, terms, budget);

describe("PurchaseProblem", () => {
  it("covers each item by itself under the prices asked for", () => {
    const problem = problemOf();
    const all = [true, true, true];
    // 100 at 15.00 is less than 2 x 9.00.
    expect(problem.cover(problem.pricing(all))).toEqual({
      price: 1800,
      prices: [1500, 300],
      cover: { bags: [[0, 1], [1]], goods: [0, 1800, 0] },
    });
    // Half off supplier 0: 9.00 for two bags of 50, and the goods stand at the list price.
    expect(problem.cover(problem.pricing(all, [0.5, 0, 0]))).toEqual({
      price: 1200,
      prices: [900, 300],
      cover: { bags: [[2, 0], [1]], goods: [1800, 300, 0] },
    });
    expect(problem.cover(problem.pricing([true, false, true])).price).toBe(Infinity);
  });

  it("knows which suppliers ask for something and sell something, and what they sell", () => {
    const problem = problemOf();
    expect(problem.constrained).toEqual([0]);
    expect(problem.offersOf(1).map(({ item, index }) => [item, index])).toEqual([
      [0, 1],
      [1, 0],
    ]);
    expect(problem.offersOf(2)).toEqual([]);
  });

  it("raises a bound to the next price there can be", () => {
    // Prices and charges are multiples of 1.00.
    const problem = problemOf();
    expect(problem.grid).toBe(100);
    expect([1201, 1200, 1200.0000001, 1199].map((bound) => problem.onGrid(bound))).toEqual([
      1300, 1200, 1200, 1200,
    ]);
    expect(roundingOf(-1e6)).toBeCloseTo(1e-3, 5);
  });

  it("takes steps for every cover", () => {
    const budget = new StepBudget(1e6);
    const problem = problemOf(budget);
    problem.cover(problem.pricing([true, true, true]));
    // 60 in bags of 50 and 100 are two units of 50 for two offers; 10 in bags of 10 is one for one.
    expect(budget.used).toBe(5);
  });
});
