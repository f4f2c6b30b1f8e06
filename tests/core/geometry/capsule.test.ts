import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nearSpan, remainingSpans } from "../../../src/core/geometry/capsule";
import type { Span } from "../../../src/core/geometry/capsule";

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
          for (let t = -10; t <= 10; t += 0.093) {
            const off = distance(t, [a, b, c, d]) - r;
            if (Math.abs(off) < 1e-6) continue;
            expect(span !== undefined && t > span[0] && t < span[1]).toBe(off < 0);
          }
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe("what remains of a stretch", () => {
  it("is every point that nothing was taken at", () => {
    const ends = fc.tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 1, max: 10 }));
    fc.assert(
      fc.property(fc.array(ends, { maxLength: 8 }), (list) => {
        const taken = list.map(([from, size]): Span => [from, from + size]);
        const left = remainingSpans(5, 35, [...taken]);
        for (let t = 0.5; t < 50; t += 1) {
          const isLeft = t > 5 && t < 35 && !taken.some(([from, to]) => t > from && t < to);
          expect(left.some(([from, to]) => t > from && t < to)).toBe(isLeft);
        }
      }),
    );
  });
});
