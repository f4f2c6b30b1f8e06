import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boundedKnapsack, type KnapsackItem } from "../../../src/core/numeric/bounded-knapsack";

/** The best value by trying every number of every item. */
function bruteForce(items: readonly KnapsackItem[], room: number): number {
  const [first, ...others] = items;
  if (first === undefined) return 0;
  let best = 0;
  for (let count = 0; count <= first.most && count * first.length <= room; count += 1)
    best = Math.max(best, count * first.value + bruteForce(others, room - count * first.length));
  return best;
}

const items = fc.array(
  fc.record({
    length: fc.integer({ min: 1, max: 30 }),
    value: fc.integer({ min: 1, max: 50 }),
    most: fc.integer({ min: 0, max: 6 }),
  }),
  { maxLength: 5 },
);

describe("boundedKnapsack", () => {
  it("packs what trying everything finds", () => {
    fc.assert(
      fc.property(items, fc.integer({ min: 0, max: 100 }), (list, room) => {
        const { counts, value, atMost } = boundedKnapsack(list, room, { steps: 0 });
        expect([value, atMost]).toEqual([bruteForce(list, room), value]);
        const total = (of: (item: KnapsackItem) => number): number =>
          list.reduce((sum, item, i) => sum + of(item) * (counts[i] ?? 0), 0);
        expect(total((item) => item.value)).toBe(value);
        expect(total((item) => item.length)).toBeLessThanOrEqual(room);
        list.forEach(({ most }, i) => expect(counts[i]).toBeLessThanOrEqual(most));
      }),
      { numRuns: 500 },
    );
  });

  it("is proved by a table where branch and bound is given up, and says so where no table is kept", () => {
    // Value is length, so no bound tells anything apart; all lengths even, the room odd: half a length stays empty.
    const alike = Array.from({ length: 14 }, (_, i) => ({
      length: 2002 + 2 * i,
      value: 2002 + 2 * i,
      most: 9,
    }));
    const work = { steps: 0 };
    const small = boundedKnapsack(alike, 19_999, work);
    expect([small.value, small.atMost]).toEqual([small.value, small.value]);
    expect(small.value % 2).toBe(0);
    expect(work.steps).toBeGreaterThan(19_999);
    const large = boundedKnapsack(alike, 60_001, { steps: 0 });
    expect(large.atMost).toBeGreaterThanOrEqual(large.value);
    expect(large.atMost).toBe(60_001);
  });
});
