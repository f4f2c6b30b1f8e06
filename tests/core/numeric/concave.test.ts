import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { maximiseConcave, type Slope } from "../../../src/core/numeric/concave";

const always = (): boolean => true;

describe("maximiseConcave", () => {
  it("finds the top of a cone inside the box and of a plane at its corner", () => {
    const cone = (x: readonly number[]): Slope => {
      const apart = x.map((part, i) => part - ([0.3, 0.8, 0][i] ?? 0));
      return {
        value: 5 - apart.reduce((sum, part) => sum + Math.abs(part), 0),
        slope: apart.map((part) => -Math.sign(part)),
      };
    };
    const top = maximiseConcave(3, cone, 1e-6, always);
    expect(top.value).toBeCloseTo(5, 5);
    const plane = ([x = 0, y = 0]: readonly number[]): Slope => ({ value: 2 * x - y, slope: [2, -1] });
    expect(maximiseConcave(2, plane, 1e-9, always)).toEqual({ point: [1, 0], value: 2 });
  });

  it("comes within the tolerance of the best of a fine grid", () => {
    const cut = fc.record({
      a: fc.integer({ min: -20, max: 20 }),
      b: fc.integer({ min: -20, max: 20 }),
      c: fc.integer({ min: 0, max: 20 }),
    });
    fc.assert(
      fc.property(fc.array(cut, { minLength: 1, maxLength: 6 }), (cuts) => {
        const at = ([x = 0, y = 0]: readonly number[]): Slope => {
          const height = (cut: { a: number; b: number; c: number }): number => cut.a * x + cut.b * y + cut.c;
          const lowest = cuts.reduce((low, cut) => (height(cut) < height(low) ? cut : low));
          return { value: height(lowest), slope: [lowest.a, lowest.b] };
        };
        const found = maximiseConcave(2, at, 1e-6, always);
        let best = -Infinity;
        for (let i = 0; i <= 40; i += 1)
          for (let j = 0; j <= 40; j += 1) best = Math.max(best, at([i / 40, j / 40]).value);
        expect(found.value).toBeGreaterThanOrEqual(best - 1e-5);
        expect(at(found.point).value).toBeCloseTo(found.value, 9);
      }),
    );
  });

  it("stops when told to, with the best so far", () => {
    const line = ([x = 0]: readonly number[]): Slope => ({ value: x, slope: [1] });
    expect(maximiseConcave(1, line, 0, () => false)).toEqual({ point: [0], value: 0 });
  });
});
