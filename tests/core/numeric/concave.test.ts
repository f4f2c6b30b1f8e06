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

  it("does not lose a small rise, nor one far from 0", () => {
    for (const [rise, level] of [
      [1e-6, 0],
      [1e-6, -1],
      [1e6, 1e9],
      [1e6, -1e9],
    ] as const) {
      const plane = ([x = 0, y = 0]: readonly number[]): Slope => ({
        value: level + rise * (x - y),
        slope: [rise, -rise],
      });
      expect(maximiseConcave(2, plane, 1e-3 * rise, always).point).toEqual([1, 0]);
    }
  });

  it("stops when told to, with the best so far", () => {
    const line = ([x = 0]: readonly number[]): Slope => ({ value: x, slope: [1] });
    expect(maximiseConcave(1, line, 0, () => false)).toEqual({ point: [0], value: 0 });
  });

  it("finds the best point where it is known in closed form", () => {
    const place = fc.record({
      // Tops inside the box, on its faces and outside it, where the nearest point of the box is best.
      top: fc.integer({ min: -20, max: 40 }).map((whole) => whole / 20),
      steep: fc.integer({ min: 1, max: 50 }),
    });
    fc.assert(
      fc.property(
        fc.array(place, { minLength: 1, maxLength: 4 }),
        fc.integer({ min: -1000, max: 1000 }),
        (places, level) => {
          const hill = (x: readonly number[]): Slope => ({
            value: places.reduce((sum, { top, steep }, i) => sum - steep * ((x[i] ?? 0) - top) ** 2, level),
            slope: places.map(({ top, steep }, i) => -2 * steep * ((x[i] ?? 0) - top)),
          });
          const best = places.map(({ top }) => Math.min(1, Math.max(0, top)));
          const highest = hill(best).value;
          const found = maximiseConcave(places.length, hill, 1e-4, always);
          const slack = 1e-4 + 2e-9 * (Math.abs(highest) + 1);
          expect(found.value).toBeLessThanOrEqual(highest + 1e-9 * (Math.abs(highest) + 1));
          expect(found.value).toBeGreaterThanOrEqual(highest - slack);
          expect(found.value).toBe(hill(found.point).value);
          places.forEach(({ steep }, i) => {
            const apart = (found.point[i] ?? NaN) - (best[i] ?? NaN);
            expect(steep * apart ** 2).toBeLessThanOrEqual(slack);
          });
        },
      ),
      { numRuns: 60 },
    );
  });

  it("balances gains against costs: a sum of logarithms", () => {
    // d/dx (ln(1 + c x) - d x) = 0 at x = 1/d - 1/c, by hand.
    const [gains, costs] = [
      [4, 10, 2],
      [2, 2, 3],
    ];
    const at = (x: readonly number[]): Slope => ({
      value: gains.reduce(
        (sum, gain, i) => sum + Math.log1p(gain * (x[i] ?? 0)) - (costs[i] ?? 0) * (x[i] ?? 0),
        0,
      ),
      slope: gains.map((gain, i) => gain / (1 + gain * (x[i] ?? 0)) - (costs[i] ?? 0)),
    });
    // 1/2 - 1/4, 1/2 - 1/10, and 1/3 - 1/2 below 0, so 0.
    const found = maximiseConcave(3, at, 1e-7, always);
    expect(found.value).toBeCloseTo(Math.log(2) - 0.5 + Math.log(5) - 0.8, 6);
    [0.25, 0.4, 0].forEach((part, i) => {
      expect(found.point[i]).toBeCloseTo(part, 2);
    });
  });

  it("sees each flat piece of a roof at most once", () => {
    // Kelley's method on a roof of k planes: each new point adds the ceiling of a plane not seen yet.
    const plane = fc.record({
      slope: fc.tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: -20, max: 20 })),
      height: fc.integer({ min: -500, max: 500 }),
    });
    fc.assert(
      fc.property(fc.array(plane, { minLength: 1, maxLength: 8 }), (planes) => {
        const points: (readonly number[])[] = [];
        const at = (x: readonly number[]): Slope => {
          points.push(x);
          const heights = planes.map(
            ({ slope, height }) => height + slope[0] * (x[0] ?? 0) + slope[1] * (x[1] ?? 0),
          );
          const value = Math.min(...heights);
          return { value, slope: planes[heights.indexOf(value)]?.slope ?? [] };
        };
        const found = maximiseConcave(2, at, 1e-6, always);
        expect(points.length).toBeLessThanOrEqual(planes.length + 1);
        expect(points[0]).toEqual([0, 0]);
        expect(points.flat().every((part) => part >= 0 && part <= 1)).toBe(true);
        expect(found.value).toBe(Math.max(...points.map((point) => at(point).value)));
      }),
    );
  });

  describe("with a count of the points it asks for", () => {
    const asking = (
      at: (x: readonly number[]) => Slope,
      within: number,
      isGoing: (best: number) => boolean,
      guess?: readonly number[],
    ) => {
      const points: (readonly number[])[] = [];
      const found = maximiseConcave(
        2,
        (x) => {
          points.push(x);
          return at(x);
        },
        within,
        isGoing,
        guess,
      );
      return { points, found };
    };
    const plane = ([x = 0, y = 0]: readonly number[]): Slope => ({ value: 2 * x - y, slope: [2, -1] });
    const hill = ([x = 0, y = 0]: readonly number[]): Slope => ({
      value: -((x - 0.3) ** 2) - (y - 0.6) ** 2,
      slope: [-2 * (x - 0.3), -2 * (y - 0.6)],
    });

    it("asks no more where the ceiling is near enough", () => {
      // The plane rises by 2 from the corner at 0, and no more than that was asked for.
      expect(asking(plane, 2, always)).toEqual({ points: [[0, 0]], found: { point: [0, 0], value: 0 } });
      expect(asking(plane, 1.9, always).points).toEqual([
        [0, 0],
        [1, 0],
      ]);
    });

    it("asks for fewer points where less is good enough", () => {
      const counts = [0.5, 0.05, 0.005, 0.0005].map((within) => {
        const { found, points } = asking(hill, within, always);
        expect(found.value).toBeGreaterThanOrEqual(-within - 1e-9);
        return points.length;
      });
      expect(counts).toEqual(counts.toSorted((a, b) => a - b));
      // 0 lies 0.45 below the top; its ceiling is 0.6 + 1.2 higher, so 0 alone cannot be proved good.
      expect(counts[0]).toBeGreaterThan(1);
    });

    it("looks at a guess second and stops there where it is the best", () => {
      const { points, found } = asking(plane, 1e-6, always, [1, 0]);
      expect(points).toEqual([
        [0, 0],
        [1, 0],
      ]);
      expect(found).toEqual({ point: [1, 0], value: 2 });
      const guided = asking(hill, 1e-6, always, [0.3, 0.6]);
      expect(guided.points[1]).toEqual([0.3, 0.6]);
      expect(guided.points.length).toBe(2);
      expect(guided.found).toEqual({ point: [0.3, 0.6], value: -0 });
    });

    it("does not look at 0 twice, nor at a bad guess twice", () => {
      expect(asking(hill, 1e-6, always, [0, 0]).points).toEqual(asking(hill, 1e-6, always).points);
      const { points, found } = asking(hill, 1e-4, always, [0, 1]);
      expect(points[1]).toEqual([0, 1]);
      expect(points.filter((point) => point[0] === 0 && point[1] === 1).length).toBe(1);
      expect(found.value).toBeGreaterThanOrEqual(-1e-4 - 1e-9);
    });

    it("tells the best value so far before each new point and stops there when told to", () => {
      const told: number[] = [];
      const { points, found } = asking(hill, 0, (best) => (told.push(best), told.length <= 4));
      const values = points.map((point) => hill(point).value);
      expect(points.length).toBe(5);
      expect(told).toEqual(points.map((_, i) => Math.max(...values.slice(0, i + 1))));
      expect(found.value).toBe(Math.max(...values));
      expect(points).toContain(found.point);
    });
  });
});
