import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { NearBestSearch, type Floor, type Way } from "../../../src/core/stock/near-best";
import { randomFrom } from "./purchase-model";

interface Case {
  readonly groups: readonly (readonly Way[])[];
  readonly floors: readonly Floor[];
}

/** Cost of one way a group, from its definition. */
function costOf({ groups, floors }: Case, ways: readonly number[]): number {
  const chosen = groups.map((group, i) => group[ways[i] ?? -1] ?? { excess: NaN, spent: [] });
  return floors.reduce(
    (cost, { floor, rate, topUp }, place) => {
      const sum = chosen.reduce((total, { spent }) => total + (spent[place] ?? 0), 0);
      return cost + (sum < floor ? topUp(floor - sum) : 0) + rate * (sum - floor);
    },
    chosen.reduce((cost, { excess }) => cost + excess, 0),
  );
}

/** The least cost by trying every combination. */
function leastOf(one: Case): number {
  const combinations = one.groups.reduce<readonly (readonly number[])[]>(
    (all, group) => all.flatMap((ways) => group.map((_, way) => [...ways, way])),
    [[]],
  );
  return Math.min(...combinations.map((ways) => costOf(one, ways)));
}

/** The least cost by the cheapest way to every sum there is. */
function leastBySums({ groups, floors }: Case): number {
  let sums = new Map<string, { readonly at: readonly number[]; readonly excess: number }>([
    ["", { at: floors.map(() => 0), excess: 0 }],
  ]);
  for (const ways of groups) {
    const next: typeof sums = new Map();
    for (const { at, excess } of sums.values()) {
      for (const way of ways) {
        const to = at.map((sum, place) => sum + (way.spent[place] ?? 0));
        const cost = excess + way.excess;
        const key = to.join();
        if (cost < (next.get(key)?.excess ?? Infinity)) next.set(key, { at: to, excess: cost });
      }
    }
    sums = next;
  }
  const costs = [...sums.values()].map(({ at, excess }) =>
    costOf({ groups: [[{ excess, spent: at }]], floors }, [0]),
  );
  return costs.reduce((least, cost) => Math.min(least, cost), Infinity);
}

const floorOf = (floor: number, rate: number, price: number): Floor => ({
  floor,
  rate,
  leastTopUp: price,
  topUp: (amount) => Math.ceil(amount / price) * price,
});

const cases: fc.Arbitrary<Case> = fc.integer({ min: 1, max: 4 }).chain((places) => {
  const way = fc.record({
    excess: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 12, noNaN: true })),
    spent: fc.array(fc.integer({ min: 0, max: 60 }), { minLength: places, maxLength: places }),
  });
  const group = fc
    .array(way, { minLength: 1, maxLength: 4 })
    .chain((ways) =>
      fc.nat(ways.length - 1).map((best) => ways.map((one, i) => (i === best ? { ...one, excess: 0 } : one))),
    );
  const floor = fc
    .tuple(
      fc.integer({ min: 1, max: 150 }),
      fc.constantFrom(0, 0.05, 0.3, 0.9, 1),
      fc.integer({ min: 3, max: 40 }),
    )
    .map((parts) => floorOf(...parts));
  return fc.record({
    groups: fc.array(group, { minLength: 1, maxLength: 6 }),
    floors: fc.array(floor, { minLength: places, maxLength: places }),
  });
});

const STEP = 1e-9;

describe("NearBestSearch", () => {
  it("finds what trying everything finds, or that nothing lies within the reach", () => {
    fc.assert(
      fc.property(cases, fc.double({ min: 0.1, max: 60, noNaN: true }), (one, most) => {
        const least = leastOf(one);
        const search = new NearBestSearch(one.groups, one.floors);
        const { found, isCut } = search.run({ excess: most, most, step: STEP, steps: 1e6 });
        expect(isCut).toBe(false);
        if (Math.abs(least - most) < 1e-6) return;
        if (least > most) {
          expect(found).toBeUndefined();
          return;
        }
        expect(found?.cost).toBeCloseTo(least, 6);
        expect(costOf(one, found?.ways ?? [])).toBeCloseTo(found?.cost ?? NaN, 6);
      }),
      { numRuns: 500 },
    );
  });

  it("finds in narrow windows what a table of all sums finds", () => {
    // Many groups and floors that are hit by few combinations, so that the grid decides what is compared.
    const windows: fc.Arbitrary<Case> = fc.integer({ min: 1, max: 3 }).chain((places) => {
      const largest = [60, 14, 5][places - 1] ?? 5;
      const spent = fc.array(fc.integer({ min: 0, max: largest }), { minLength: places, maxLength: places });
      const excess = fc.double({ min: 0.01, max: 2, noNaN: true });
      const group = fc
        .tuple(spent, fc.array(fc.record({ excess, spent }), { minLength: 1, maxLength: 2 }))
        .map(([base, others]): readonly Way[] => [{ excess: 0, spent: base }, ...others]);
      const floor = fc
        .tuple(
          fc.integer({ min: 3 * largest, max: 9 * largest }),
          fc.constantFrom(0.4, 0.7, 1),
          fc.constantFrom(2, 7, 1000),
        )
        .map((parts) => floorOf(...parts));
      return fc.record({
        groups: fc.array(group, { minLength: 10, maxLength: 13 }),
        floors: fc.array(floor, { minLength: places, maxLength: places }),
      });
    });
    fc.assert(
      fc.property(windows, fc.double({ min: 1, max: 6, noNaN: true }), (one, most) => {
        const least = leastBySums(one);
        const { found, isCut } = new NearBestSearch(one.groups, one.floors).run({
          excess: most,
          most,
          step: STEP,
          steps: 1e7,
        });
        expect(isCut).toBe(false);
        if (Math.abs(least - most) < 1e-6) return;
        expect(found?.cost ?? Infinity).toBeCloseTo(least > most ? Infinity : least, 6);
        if (found) expect(costOf(one, found.ways)).toBeCloseTo(found.cost, 6);
      }),
      { numRuns: 60 },
    );
  });

  it("gives what it says where the halves are not followed to the end", () => {
    fc.assert(
      fc.property(cases, fc.double({ min: 0, max: 3, noNaN: true }), (one, excess) => {
        const { found } = new NearBestSearch(one.groups, one.floors).run({
          excess,
          most: 200,
          step: STEP,
          steps: 1e6,
        });
        if (found === undefined) return;
        expect(costOf(one, found.ways)).toBeCloseTo(found.cost, 6);
        expect(found.cost).toBeGreaterThanOrEqual(leastOf(one) - 1e-6);
      }),
    );
  });

  it("finds a better one that is exactly a step cheaper, whatever the rounding", () => {
    // Excesses in tenths, which binary numbers only come near to.
    const groups = Array.from({ length: 12 }, (_, group) => [
      { excess: 0, spent: [0] },
      { excess: 0.1 * (1 + (group % 3)), spent: [1] },
    ]);
    const floors = [floorOf(5, 0, 1000)];
    const { found } = new NearBestSearch(groups, floors).run({ excess: 3, most: 3, step: 0.1, steps: 1e6 });
    // Four groups cost 0.1 and four cost 0.2: five of the cheapest are 4 x 0.1 + 0.2.
    expect(found?.cost).toBeCloseTo(0.6, 9);
  });

  it("holds together for sums as large as prices are: one subset out of 2^24", () => {
    // Powers of three: a sum of distinct ones is reached in one way only.
    const powers = Array.from({ length: 24 }, (_, i) => 3 ** i);
    const groups = powers.map((power) => [
      { excess: 0, spent: [0] },
      { excess: 1, spent: [power] },
    ]);
    const chosen = powers.map((_, i) => (i % 3 === 0 ? 1 : 0));
    const target = powers.reduce((sum, power, i) => sum + power * (chosen[i] ?? 0), 0);
    const { found, isCut } = new NearBestSearch(groups, [floorOf(target, 1, 1e15)]).run({
      excess: 8.5,
      most: 8.5,
      step: 0.5,
      steps: 1e7,
    });
    expect(isCut).toBe(false);
    expect(found).toEqual({ cost: 8, ways: chosen });
  });

  it("gives up when its steps run out, and counts them", () => {
    const groups = Array.from({ length: 30 }, (_, i) => [
      { excess: 0, spent: [0] },
      { excess: 0.01, spent: [1 + i] },
    ]);
    const search = new NearBestSearch(groups, [floorOf(10_000, 0.5, 7)]);
    expect(search.run({ excess: 1, most: 1, step: 0.1, steps: 5000 }).isCut).toBe(true);
    expect(search.steps).toBeGreaterThan(5000);
    expect(search.steps).toBeLessThan(10_000);
  });

  it("gives up before its tables fill the memory", () => {
    // 2^40 combinations for nothing more than what a few cost.
    const groups = Array.from({ length: 40 }, (_, i) => [
      { excess: 0, spent: [0] },
      { excess: 1e-6, spent: [1 + i] },
    ]);
    const search = new NearBestSearch(groups, [floorOf(10_000, 0.5, 7)]);
    expect(search.run({ excess: 1, most: 1, step: 0.1, steps: 1e9 })).toEqual({
      found: undefined,
      isCut: true,
    });
    expect(search.steps).toBeLessThan(1e6);
  });

  // Seed, floors, largest amount, rate, least cost to look within, and steps that may be spent, a twentieth more than
  // when this was written: that a change makes the search slower is seen here, since it finds the same.
  it.each([
    [1, 1, 90, 0.5, 3, 621],
    [2, 1, 90, 1, 2, 31],
    [3, 2, 12, 0.7, 3, 388],
    [4, 2, 12, 1, 3, 264],
    [5, 3, 4, 0.6, 4, 1612],
    [6, 3, 4, 0, 3, 775],
    [7, 3, 4, 1, 3, 350],
    [8, 4, 2, 0.8, 4, 496],
  ])(
    "finds the best of many groups with little work: seed %i, %i floors",
    (seed, places, largest, rate, most, work) => {
      const random = randomFrom(seed);
      const spent = (): readonly number[] => Array.from({ length: places }, () => random(largest + 1));
      const groups = Array.from({ length: Math.floor(24 / Math.sqrt(places)) }, (): readonly Way[] => [
        { excess: 0, spent: spent() },
        ...[1, 2].map(() => ({ excess: 0.2 + random(1000) / 500, spent: spent() })),
      ]);
      const floors = Array.from({ length: places }, () =>
        floorOf((groups.length * largest) / 2 + random(largest), rate, 5),
      );
      const search = new NearBestSearch(groups, floors);
      const { found, isCut } = search.run({ excess: most, most, step: STEP, steps: 1e7 });
      const least = leastBySums({ groups, floors });
      expect(isCut).toBe(false);
      expect(found?.cost ?? Infinity).toBeCloseTo(least > most ? Infinity : least, 6);
      expect(search.steps).toBeLessThan(work);
    },
  );

  it("needs no groups and no floors", () => {
    const reach = { excess: 5, most: 5, step: 1, steps: 100 };
    expect(new NearBestSearch([], []).run(reach)).toEqual({ found: { cost: 0, ways: [] }, isCut: false });
    expect(new NearBestSearch([], [floorOf(3, 0, 4)]).run(reach).found?.cost).toBe(4);
    expect(new NearBestSearch([], [floorOf(3, 0, 6)]).run(reach).found).toBeUndefined();
  });
});
