import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { root, rootAbove } from "../../../src/core/numeric/roots";

describe("root", () => {
  it("finds roots known in closed form", () => {
    expect(root((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 15);
    expect(root((x) => Math.cos(x), 0, 3)).toBeCloseTo(Math.PI / 2, 15);
    expect(root((x) => x ** 3, -1, 3)).toBeCloseTo(0, 5);
    expect(root((x) => Math.exp(x) - 5, -20, 20)).toBeCloseTo(Math.log(5), 14);
  });

  it("takes an end that is already a root", () => {
    expect(root((x) => x - 1, 1, 2)).toBe(1);
    expect(root((x) => x - 2, 1, 2)).toBe(2);
  });

  it("takes an end that is already a root whatever the sign of the other", () => {
    expect(root((x) => 1 - x, 1, 2)).toBe(1);
    expect(root((x) => 2 - x, 1, 2)).toBe(2);
    expect(root((x) => x - 1, 1, 2)).toBe(1);
    expect(root((x) => x - 2, 1, 2)).toBe(2);
    let calls = 0;
    root((x) => ((calls += 1), (x - 1) * (3 - x)), 1, 2);
    expect(calls).toBe(2);
  });

  it("takes a falling function and ends in either order", () => {
    expect(root((x) => Math.exp(-x) - 0.25, -10, 10)).toBeCloseTo(Math.log(4), 14);
    expect(root((x) => Math.exp(-x) - 0.25, 10, -10)).toBeCloseTo(Math.log(4), 14);
    expect(root((x) => x ** 5 - 7, 3, 0)).toBeCloseTo(7 ** 0.2, 14);
  });

  it("gives the best of the places it looked at, never outside the two ends", () => {
    const shape = fc.constantFrom<(x: number) => number>(
      (x) => x,
      (x) => x ** 3,
      (x) => Math.expm1(x),
      (x) => Math.atan(20 * x),
      (x) => Math.sign(x) * Math.sqrt(Math.abs(x)),
      (x) => x + Math.sin(x),
      (x) => (x < 0 ? x : 1e6 * x),
    );
    const size = fc.double({ min: 1e-3, max: 3, noNaN: true });
    const place = fc.oneof(
      fc.constant(0),
      size,
      size.map((x) => -x),
    );
    fc.assert(
      fc.property(shape, place, (f, at) => {
        const seen: { x: number; size: number }[] = [];
        const level = f(at);
        const found = root(
          (x) => {
            seen.push({ x, size: Math.abs(f(x) - level) });
            return f(x) - level;
          },
          -5,
          4,
        );
        const best = Math.min(...seen.map(({ size }) => size));
        expect(Math.abs(f(found) - level)).toBe(best);
        expect(seen.every(({ x }) => x >= -5 && x <= 4)).toBe(true);
        // A bracket of two neighbouring doubles holds the sign change, so f is as near 0 as doubles allow.
        const step = 8 * Number.EPSILON * Math.max(Math.abs(found), 1e-3);
        expect(f(found - step) - level).toBeLessThanOrEqual(0);
        expect(f(found + step) - level).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 300 },
    );
  });

  it("ends in a stated number of steps even where a function jumps", () => {
    let calls = 0;
    const found = root((x) => ((calls += 1), x > 0 ? 1 : -1), -1, 3);
    // 200 halvings of 4 are 2.5e-60.
    expect(Math.abs(found)).toBeLessThan(1e-59);
    expect(calls).toBeLessThanOrEqual(202);
    expect(root((x) => (x > Math.PI ? 1 : -1), -1, 30)).toBeCloseTo(Math.PI, 14);
  });

  it("refuses ends of one sign", () => {
    expect(() => root((x) => -x * x - 1, -1, 1)).toThrow("a root needs opposite signs at its two ends");
    expect(() => root((x) => x * x + 1, -1, 1)).toThrow(RangeError);
  });

  it("undoes any rising cubic", () => {
    fc.assert(
      fc.property(fc.double({ min: -100, max: 100, noNaN: true }), (x) => {
        const value = (y: number) => y ** 3 + y;
        expect(Math.abs(root((y) => value(y) - value(x), -1000, 1001) - x)).toBeLessThan(
          1e-12 * (1 + Math.abs(x)),
        );
      }),
    );
  });

  it("needs few steps", () => {
    let calls = 0;
    root((x) => ((calls += 1), Math.exp(x) - 1e6), 0, 1000);
    expect(calls).toBeLessThan(100);
  });
});

describe("root on a smooth function", () => {
  // Interpolation is what the method is for: halving alone takes some 52 steps for every bit of a double.
  it.each([
    // Wallis' cubic, whose root 2.0945514815423265 the textbooks print; and two roots in closed form.
    [(x: number) => x ** 3 - 2 * x - 5, 2, 3, 2.0945514815423265],
    [(x: number) => x * x - 2, 1, 2, Math.SQRT2],
    [(x: number) => Math.cos(x) - 0.5, 0, 2, Math.PI / 3],
  ])("takes a fraction of the steps of halving (%s)", (value, low, high, expected) => {
    let calls = 0;
    const found = root(
      (x) => {
        calls += 1;
        return value(x);
      },
      low,
      high,
    );
    expect(found).toBeCloseTo(expected, 14);
    expect(calls).toBeLessThan(20);
  });
});

describe("rootAbove", () => {
  it("reaches out until it passes the root", () => {
    expect(rootAbove((x) => x - 12345, 0, 0.001)).toBeCloseTo(12345, 9);
    expect(rootAbove((x) => x, 0, 1)).toBe(0);
  });

  it("begins at its own start and never looks below it", () => {
    // sqrt(x - 100) = 15 at x = 325; below 100 it has no value.
    for (const reach of [0.001, 1, 150, 225, 1000])
      expect(rootAbove((x) => Math.sqrt(x - 100) - 15, 100, reach)).toBeCloseTo(325, 10);
    expect(rootAbove((x) => x + 7, -20, 0.5)).toBeCloseTo(-7, 12);
    expect(rootAbove((x) => x - 1e30, 0, 1e-30) / 1e30).toBeCloseTo(1, 14);
  });

  it("gives up on a function that stays below 0", () => {
    expect(() => rootAbove((x) => -1 / (1 + x), 0, 1)).toThrow("a rising function must get above 0");
    expect(() => rootAbove(() => -1, 0, 1)).toThrow(RangeError);
  });
});
