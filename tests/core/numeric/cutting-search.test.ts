import { describe, expect, it } from "vitest";
import { canCut } from "../../../src/core/numeric/cutting-search";

const free = (lengths: readonly number[]): number[] => lengths.map(() => 0);

describe("canCut", () => {
  it("finds a cutting and proves that there is none", () => {
    // 44 + 33 + 23 and 45 + 32 + 23 fill two stocks of 100; first fit by length takes 45 + 44 and needs a third.
    const lengths = [45, 44, 33, 32, 23];
    const problem = { lengths, pieces: [1, 1, 1, 1, 2], stock: 100 };
    expect(canCut(problem, 2, free(lengths), { steps: 0 })).toBe(true);
    // Three pieces of 51 need three stocks.
    expect(canCut({ lengths: [51], pieces: [3], stock: 100 }, 2, [0], { steps: 0 })).toBe(false);
    // 200 in all, but 60 goes with 40 alone and there are two of 60 and one of 40, with 20 + 20 left for one of them.
    expect(
      canCut({ lengths: [60, 40, 20], pieces: [2, 1, 2], stock: 100 }, 2, free([1, 1, 1]), { steps: 0 }),
    ).toBe(true);
    expect(
      canCut({ lengths: [60, 41, 20], pieces: [2, 1, 1], stock: 100 }, 2, free([1, 1, 1]), { steps: 0 }),
    ).toBe(false);
  });

  it("is short where prices show that the pieces are worth more than the stocks", () => {
    const work = { steps: 0 };
    expect(canCut({ lengths: [51], pieces: [3], stock: 100 }, 2, [1], work)).toBe(false);
    expect(work.steps).toBe(1);
  });

  it("gives up after its steps", () => {
    expect(canCut({ lengths: [1], pieces: [5], stock: 1 }, 1001, [0], { steps: 0 })).toBeUndefined();
    const lengths = Array.from({ length: 30 }, (_, i) => 2002 + 14 * i);
    const pieces = lengths.map(() => 5);
    const stock = 10_001;
    const stocks = Math.ceil(lengths.reduce((sum, length) => sum + 5 * length, 0) / stock);
    expect(canCut({ lengths, pieces, stock }, stocks, free(lengths), { steps: 0 })).toBeUndefined();
  });
});
