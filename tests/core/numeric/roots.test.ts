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

  it("refuses ends of one sign", () => {
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

  it("gives up on a function that stays below 0", () => {
    expect(() => rootAbove(() => -1, 0, 1)).toThrow(RangeError);
  });
});
