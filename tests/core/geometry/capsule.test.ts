import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nearSpan, remainingSpans } from "../../../src/core/geometry/capsule";
import type { LineStretch } from "../../../src/core/geometry/capsule";

const coordinate = fc.integer({ min: -100, max: 100 }).map((value) => value / 20);

/** Distance of a point of the line from a side, by its foot. */
function distance(t: number, [a, b, c, d]: readonly [number, number, number, number]): number {
  const square = (c - a) ** 2 + (d - b) ** 2;
  const share = Math.max(0, Math.min(1, ((t - a) * (c - a) - b * (d - b)) / square));
  return Math.hypot(t - (a + share * (c - a)), b + share * (d - b));
}

describe("stretch of a line near a side", () => {
  it("is where the distance is below the radius, point by point", () => {
    fc.assert(
      fc.property(
        coordinate,
        coordinate,
        coordinate,
        coordinate,
        fc.double({ min: 0.05, max: 3, noNaN: true }),
        (a, b, c, d, r) => {
          fc.pre(a !== c || b !== d);
          const span = nearSpan(a, b, c, d, r);
          const wrong: number[] = [];
          for (let t = -10; t <= 10; t += 0.093) {
            const off = distance(t, [a, b, c, d]) - r;
            if (Math.abs(off) < 1e-6) continue;
            if ((span !== undefined && t > span[0] && t < span[1]) !== off < 0) wrong.push(t);
          }
          expect(wrong).toEqual([]);
        },
      ),
      { numRuns: 500 },
    );
  });

  it("ends where the distance is the radius, also beside upright and level sides", () => {
    const few = fc.integer({ min: -3, max: 3 });
    fc.assert(
      fc.property(few, few, few, few, fc.constantFrom(0.5, 1, 1.3, 2), (a, b, c, d, r) => {
        fc.pre(a !== c || b !== d);
        const side = [a, b, c, d] as const;
        const span = nearSpan(a, b, c, d, r);
        // Nearest point of the line by a search: its distance is convex along the line.
        let [low, high] = [-9, 9];
        for (let step = 0; step < 200; step += 1) {
          const [one, other] = [low + (high - low) / 3, high - (high - low) / 3];
          if (distance(one, side) < distance(other, side)) high = other;
          else low = one;
        }
        const least = distance(low, side);
        if (least > r - 1e-9) expect(span).toBeUndefined();
        else {
          expect(span?.[0]).toBeLessThanOrEqual(low);
          expect(span?.[1]).toBeGreaterThanOrEqual(low);
          for (const end of span ?? []) expect(distance(end, side)).toBeCloseTo(r, 9);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it("of sides worked by hand with the triangle 3, 4, 5", () => {
    // Upright, off the line: only the disc about the near end, half of it sqrt(1 - 0.6^2).
    for (const [near, far] of [
      [0.6, 2],
      [-0.6, -2],
    ] as const) {
      for (const span of [nearSpan(7, near, 7, far, 1), nearSpan(7, far, 7, near, 1)]) {
        expect(span?.[0]).toBeCloseTo(6.2, 12);
        expect(span?.[1]).toBeCloseTo(7.8, 12);
      }
    }
    // Upright across the line.
    expect(nearSpan(7, -2, 7, 3, 1)).toEqual([6, 8]);
    // Level: a rectangle with a cap at both ends.
    expect(nearSpan(5, 0.6, 2, 0.6, 1)?.[0]).toBeCloseTo(1.2, 12);
    expect(nearSpan(5, 0.6, 2, 0.6, 1)?.[1]).toBeCloseTo(5.8, 12);
    expect(nearSpan(2, 0, 5, 0, 1)).toEqual([1, 6]);
    // At the radius it is not nearer than the radius.
    expect(nearSpan(2, 1, 5, 1, 1)).toBeUndefined();
    expect(nearSpan(2, -1, 5, -1, 1)).toBeUndefined();
    expect(nearSpan(2, 1, 2, 3, 1)).toBeUndefined();
    // A slope of 4 to 3 across the line: 1/sin either way.
    expect(nearSpan(-3, -4, 3, 4, 1)?.[0]).toBeCloseTo(-1.25, 12);
    expect(nearSpan(-3, -4, 3, 4, 1)?.[1]).toBeCloseTo(1.25, 12);
  });
});

describe("what remains of a stretch", () => {
  it("is every point that nothing was taken at", () => {
    const ends = fc.tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 1, max: 10 }));
    fc.assert(
      fc.property(fc.array(ends, { maxLength: 8 }), (list) => {
        const taken = list.map(([from, size]): LineStretch => [from, from + size]);
        const left = remainingSpans(5, 35, [...taken]);
        for (let t = 0.5; t < 50; t += 1) {
          const isLeft = t > 5 && t < 35 && !taken.some(([from, to]) => t > from && t < to);
          expect(left.some(([from, to]) => t > from && t < to)).toBe(isLeft);
        }
      }),
    );
  });

  it("is in order, whole, and without empty stretches", () => {
    const ends = fc.tuple(fc.integer({ min: -5, max: 30 }), fc.integer({ min: 1, max: 8 }));
    fc.assert(
      fc.property(fc.array(ends, { maxLength: 6 }), (list) => {
        const taken = list.map(([from, size]): LineStretch => [from, from + size]);
        // Runs of free cells of one unit.
        const runs: [number, number][] = [];
        for (let cell = 0; cell < 25; cell += 1) {
          if (taken.some(([from, to]) => from <= cell && cell < to)) continue;
          const last = runs.at(-1);
          if (last?.[1] === cell) last[1] = cell + 1;
          else runs.push([cell, cell + 1]);
        }
        expect(remainingSpans(0, 25, [...taken])).toEqual(runs);
      }),
    );
    expect(remainingSpans(0, 10, [])).toEqual([[0, 10]]);
    expect(
      remainingSpans(0, 10, [
        [5, 10],
        [0, 5],
      ]),
    ).toEqual([]);
    expect(remainingSpans(3, 3, [])).toEqual([]);
  });
});
