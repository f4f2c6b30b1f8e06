import { describe, expect, it } from "vitest";
import { dot, relaxedBound } from "../../../src/core/numeric/cutting-bound";

describe("relaxedBound", () => {
  it("is the optimum of the relaxed problem", () => {
    // Gilmore and Gomory's own kind of example: stock 9, four of length 4, five of 3. Patterns (2,0), (1,1), (0,3): two stocks
    // of the first and five thirds of the last, 3.667. Prices 1/2 and 1/3 prove it: no pattern is worth more than 1.
    const bound = relaxedBound({ lengths: [4, 3], pieces: [4, 5], stock: 9 }, { steps: 0 });
    expect(bound.stocks).toBeCloseTo(11 / 3, 9);
    expect(bound.prices[0]).toBeCloseTo(1 / 2, 9);
    expect(bound.prices[1]).toBeCloseTo(1 / 3, 9);
  });

  it("has a plan that cuts everything and prices that prove it", () => {
    const problem = { lengths: [61, 47, 33, 20], pieces: [7, 11, 13, 5], stock: 100 };
    const bound = relaxedBound(problem, { steps: 0 });
    problem.pieces.forEach((count, index) => {
      const cut = bound.plan.reduce((sum, { pattern, times }) => sum + times * (pattern[index] ?? 0), 0);
      expect(cut).toBeGreaterThanOrEqual(count - 1e-9);
    });
    expect(bound.plan.reduce((sum, { times }) => sum + times, 0)).toBeCloseTo(bound.stocks, 9);
    expect(dot(bound.prices, problem.pieces)).toBeCloseTo(bound.stocks, 9);
    for (const { pattern } of bound.plan) {
      expect(dot(problem.lengths, pattern)).toBeLessThanOrEqual(100);
      expect(dot(bound.prices, pattern)).toBeLessThanOrEqual(1 + 1e-9);
    }
  });
});

describe("dot", () => {
  it("adds products", () => {
    expect(dot([1, 2, 3], [4, 5, 6])).toBe(32);
  });
});
