import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wallCount } from "../../../src/core/geometry/flat";
import { outlineCount, outlinePlaces } from "../../../src/core/geometry/outline";
import type { Corner } from "../../../src/core/geometry/outline";

const corners = (...points: readonly (readonly [number, number])[]): readonly Corner[] =>
  points.map(([x, y]) => ({ x, y }));
const rectangle = (width: number, height: number) =>
  corners([0, 0], [width, 0], [width, height], [0, height]);
const polygon = (radius: number, sides: number, times: (index: number) => number = () => 1) =>
  Array.from({ length: sides }, (_, index) => ({
    x: radius * times(index) * Math.cos((2 * Math.PI * index) / sides),
    y: radius * times(index) * Math.sin((2 * Math.PI * index) / sides),
  }));

/** Distance from the nearest side, below 0 outside: written out point by point, even-odd. */
function depth(outline: readonly (readonly Corner[])[], x: number, y: number): number {
  let nearest = Infinity;
  let isInside = false;
  for (const loop of outline) {
    loop.forEach((from, index) => {
      const to = loop[(index + 1) % loop.length] ?? from;
      const [dx, dy] = [to.x - from.x, to.y - from.y];
      const share = Math.max(0, Math.min(1, ((x - from.x) * dx + (y - from.y) * dy) / (dx * dx + dy * dy)));
      nearest = Math.min(nearest, Math.hypot(x - from.x - share * dx, y - from.y - share * dy));
      if (from.y > y !== to.y > y && x < from.x + ((y - from.y) / dy) * dx) isInside = !isInside;
    });
  }
  return isInside ? nearest : -nearest;
}

const letterL = corners([0, 0], [1.2, 0], [1.2, 0.5], [0.5, 0.5], [0.5, 2], [0, 2]);
const ring: readonly Corner[] = [
  ...polygon(1, 40).map((corner) => ({ ...corner, loop: 1 })),
  ...polygon(0.5, 40).map((corner) => ({ ...corner, loop: 2 })),
];

describe("COUNT_OUTLINE", () => {
  it("agrees with a staggered COUNT_WALL on rectangles, within one row and one column", () => {
    for (const [width, height] of [
      [1, 1],
      [2.44, 2.44],
      [3, 1],
      [5, 5],
    ] as const) {
      const wall = wallCount(width, height, 0.2286, "staggered", 0.8);
      const most = (width + height * (2 / Math.sqrt(3))) / (0.8 * 0.2286);
      expect(Math.abs(outlineCount(rectangle(width, height), 0.2286, 0.8) - wall)).toBeLessThan(most);
    }
  });

  it("places as many as it counts, inside, apart", () => {
    const star = polygon(1.5, 20, (index) => (index % 2 === 0 ? 1 : 0.6));
    for (const outline of [rectangle(1.5, 1), letterL, star]) {
      for (const spacing of [0.8, 1]) {
        const places = outlinePlaces(outline, 0.127, spacing);
        expect(places).toHaveLength(outlineCount(outline, 0.127, spacing));
        places.forEach(({ x, y }, index) => {
          expect(depth([outline], x, y)).toBeGreaterThan(0.0635 - 1e-6);
          for (const other of places.slice(index + 1)) {
            expect(Math.hypot(other.x - x, other.y - y)).toBeGreaterThan(0.127 * spacing - 1e-9);
          }
        });
      }
    }
  });

  it("leaves the hole of a letter free", () => {
    const loops = [ring.slice(0, 40), ring.slice(40)];
    const places = outlinePlaces(ring, 0.127);
    expect(places.length).toBeGreaterThan(80);
    for (const { x, y } of places) expect(depth(loops, x, y)).toBeGreaterThan(0.0635 - 1e-6);
    expect(outlineCount(ring, 0.127)).toBeLessThan(outlineCount(ring.slice(0, 40), 0.127));
  });

  it("finds as many as a search over every point of the same lattice, laid straight", () => {
    const brute = (outline: readonly Corner[], d: number) => {
      let best = 0;
      for (let row = 0; row < 3; row += 1) {
        for (let shift = 0; shift < 8; shift += 1) {
          let count = 0;
          for (let j = 0; j < 40; j += 1) {
            for (let i = -1; i < 40; i += 1) {
              const x = d / 2 + (i + shift / 8 + (j % 2) / 2) * d;
              if (depth([outline], x, d / 2 + ((row / 3 + j) * d * Math.sqrt(3)) / 2) > d / 2 - 1e-9)
                count += 1;
            }
          }
          best = Math.max(best, count);
        }
      }
      return best;
    };
    // The search over angles may only add to the straight ones.
    for (const outline of [rectangle(1.3, 0.9), letterL]) {
      expect(outlineCount(outline, 0.127)).toBeGreaterThanOrEqual(brute(outline, 0.127));
      expect(outlineCount(outline, 0.127)).toBeLessThanOrEqual(brute(outline, 0.127) * 1.1 + 2);
    }
  });

  it("tends to hexagonal packing", () => {
    // pi/sqrt 12 (Lagrange, Thue): area over the cell sqrt(3)/2 d^2.
    const share = (outlineCount(rectangle(8, 8), 0.127) * (Math.sqrt(3) / 2) * 0.127 ** 2) / 64;
    expect(share).toBeGreaterThan(0.95);
    expect(share).toBeLessThan(1);
  });

  it("never falls when a convex outline grows or the spacing shrinks by a tenth or more, and scales", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 9 }),
        fc.double({ min: 0.2, max: 1.5, noNaN: true }),
        fc.double({ min: 1.1, max: 2, noNaN: true }),
        (sides, radius, times) => {
          const count = outlineCount(polygon(radius, sides), 0.127);
          expect(outlineCount(polygon(radius * times, sides), 0.127)).toBeGreaterThanOrEqual(count);
          expect(outlineCount(polygon(radius, sides), 0.127, 0.9)).toBeGreaterThanOrEqual(count);
          expect(outlineCount(polygon(radius * 2, sides), 0.254)).toBe(count);
        },
      ),
    );
  });

  it("is 0 where no balloon fits", () => {
    expect(outlineCount(rectangle(0.1, 5), 0.127)).toBe(0);
    expect(outlineCount(rectangle(0.127, 0.127), 0.127)).toBe(1);
  });

  it("refuses crossing, repeating and folding outlines by row", () => {
    const count = (...points: readonly (readonly [number, number])[]) =>
      outlineCount(corners(...points), 0.1);
    expect(() => count([0, 0], [1, 1])).toThrow("corners must have from 3 to 500 rows, found 2");
    expect(() => count([0, 0], [1, 1], [1, 0], [0, 1])).toThrow(
      "corners row 3 must not cross or touch the side from row 1",
    );
    expect(() => count([0, 0], [1, 0], [1, 1], [0, 0])).toThrow(
      "corners row 4 must differ from row 1, found 0 m, 0 m; an outline closes by itself",
    );
    expect(() => count([0, 0], [2, 0], [1, 0], [1, 1])).toThrow(
      "corners row 2 must not fold back over the side",
    );
    expect(() => count([0, 0], [2, 0], [2, 1], [1, 0], [0, 1])).toThrow("not cross or touch");
    expect(() => count([0, 0], [NaN, 0], [1, 1])).toThrow("corners row 2: x must be a length up to 1000 m");
    expect(() => outlineCount([...rectangle(1, 1), { x: 3, y: 3, loop: 2 }], 0.1)).toThrow(
      "corners must have at least 3 rows for each closed line",
    );
    expect(() => outlineCount(rectangle(900, 900), 0.1)).toThrow("an outline of more than 100000 balloons");
  });
});
