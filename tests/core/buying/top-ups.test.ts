import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { TopUps } from "../../../src/core/buying/top-ups";

describe("TopUps", () => {
  it("finds the least sum at or above an amount, by brute force", () => {
    const prices = fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(prices, fc.integer({ min: -5, max: 200 }), (list, amount) => {
        const reachable = [true];
        for (let sum = 1; sum <= 260; sum += 1)
          reachable.push(list.some((price) => reachable[sum - price] ?? false));
        const least = reachable.findIndex((isReached, sum) => isReached && sum >= amount);
        const found = new TopUps(list).reach(amount);
        expect(found.sum).toBe(least);
        const spent = [...found.counts].reduce((sum, [price, count]) => sum + price * count, 0);
        expect(spent).toBe(found.sum);
        for (const price of found.counts.keys()) expect(list).toContain(price);
      }),
      { numRuns: 1000 },
    );
  });

  it("falls back to the smallest price where prices are too fine, and says so", () => {
    const coarse = new TopUps([100_000_007, 100_000_009]);
    expect(coarse.isExact).toBe(false);
    expect(coarse.reach(1).sum).toBe(100_000_007);
    expect(new TopUps([950, 550]).isExact).toBe(true);
  });
});
