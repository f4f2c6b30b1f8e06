import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wallCount } from "../../../src/core/geometry/flat";
import { outlineCount, outlinePlaces } from "../../../src/core/geometry/outline";
import type { Corner } from "../../../src/core/geometry/polygon";

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

/**
 * Most points of a lattice at least a depth inside, for each of two depths: each of the 4 x 3 x 8 lattices written
 * out point by point.
 */
function mostInside(
  outline: readonly (readonly Corner[])[],
  d: number,
  spacing: number,
  [shallow, deep]: readonly [number, number],
): readonly [number, number] {
  const distance = d * spacing;
  const pitch = (distance * Math.sqrt(3)) / 2;
  let [most, least] = [0, 0];
  for (const angle of [0, Math.PI / 2, Math.PI / 6, Math.PI / 12]) {
    const laid = outline.map((loop) =>
      loop.map(({ x, y }) => ({
        x: x * Math.cos(angle) + y * Math.sin(angle),
        y: y * Math.cos(angle) - x * Math.sin(angle),
      })),
    );
    const [xs, ys] = [laid.flat().map(({ x }) => x), laid.flat().map(({ y }) => y)];
    const [left, bottom] = [Math.min(...xs) + d / 2, Math.min(...ys) + d / 2];
    const [right, top] = [Math.max(...xs), Math.max(...ys)];
    for (let row = 0; row < 3; row += 1) {
      for (let shift = 0; shift < 8; shift += 1) {
        let [many, few] = [0, 0];
        for (let j = 0; bottom + (row / 3 + j) * pitch < top; j += 1) {
          for (let i = -2; left + i * distance < right; i += 1) {
            const x = left + (i + shift / 8 + (j % 2) / 2) * distance;
            const off = depth(laid, x, bottom + (row / 3 + j) * pitch);
            if (off > shallow) many += 1;
            if (off > deep) few += 1;
          }
        }
        [most, least] = [Math.max(most, many), Math.max(least, few)];
      }
    }
  }
  return [most, least];
}

/** Closed lines of an outline. */
const loopsOf = (outline: readonly Corner[]): readonly (readonly Corner[])[] =>
  [...new Set(outline.map(({ loop }) => loop))].map((loop) => outline.filter((one) => one.loop === loop));

type Point = readonly [number, number];

/** Points that two sides share: none, one, or many; whole numbers in, no rounding that matters. */
function shared([a, b]: readonly [Point, Point], [c, d]: readonly [Point, Point]): "none" | "one" | "many" {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const [wx, wy] = [c[0] - a[0], c[1] - a[1]];
  const cross = ux * vy - uy * vx;
  if (cross !== 0) {
    // a + s u = c + t v, solved by Cramer's rule; compared as fractions of `cross`.
    const [s, t] = [(wx * vy - wy * vx) * Math.sign(cross), (wx * uy - wy * ux) * Math.sign(cross)];
    return s >= 0 && s <= Math.abs(cross) && t >= 0 && t <= Math.abs(cross) ? "one" : "none";
  }
  if (wx * uy !== wy * ux) return "none";
  // Along one line: places of c and d measured along u, from 0 at a to u.u at b.
  const [at, to] = [wx * ux + wy * uy, (wx + vx) * ux + (wy + vy) * uy];
  const [low, high] = [Math.max(0, Math.min(at, to)), Math.min(ux * ux + uy * uy, Math.max(at, to))];
  if (low > high) return "none";
  return low === high ? "one" : "many";
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
        const depths = places.map(({ x, y }) => depth([outline], x, y));
        expect(Math.min(...depths)).toBeGreaterThan(0.0635 - 1e-6);
        const apart = places.flatMap(({ x, y }, index) =>
          places.slice(index + 1).map((other) => Math.hypot(other.x - x, other.y - y)),
        );
        expect(apart.reduce((least, one) => Math.min(least, one), Infinity)).toBeGreaterThan(
          0.127 * spacing - 1e-9,
        );
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

  it("lays the rows upright where more balloons fit that way", () => {
    // Two upright rows of three fill it: 1 + sqrt(3)/2 wide, 3 + 1/2 high. Level rows are one balloon wide.
    const outline = rectangle(1 + Math.sqrt(3) / 2, 3.5);
    const places = outlinePlaces(outline, 1);
    expect(outlineCount(outline, 1)).toBe(6);
    const half = 0.5 + Math.sqrt(3) / 2;
    const wanted = (first: number) =>
      [0, 1, 2].flatMap((step) => [
        [0.5, first + step],
        [half, 1.5 - first + step],
      ]);
    const text = (points: readonly (readonly number[])[]) =>
      points.map((point) => point.map((value) => value.toFixed(6)).join(" ")).sort();
    // Either of the two rows may be the one that begins at the bottom.
    expect([text(wanted(0.5)), text(wanted(1))]).toContainEqual(text(places.map(({ x, y }) => [x, y])));
    expect(places.map(({ row }) => row).sort()).toEqual([1, 1, 1, 2, 2, 2]);
    // The same strip lying down.
    expect(outlineCount(rectangle(3.5, 1 + Math.sqrt(3) / 2), 1)).toBe(6);
  });

  it("numbers the rows of the lattice from 1", () => {
    const pitch = (0.25 * Math.sqrt(3)) / 2;
    const places = outlinePlaces(rectangle(1, 0.25 + pitch), 0.25);
    // Four and three: 4 x 0.25 wide, one row's height apart.
    expect(places.map(({ row }) => row)).toEqual([1, 1, 1, 1, 2, 2, 2]);
    places.forEach(({ x, y, row }, index) => {
      expect(x).toBeCloseTo(row === 1 ? 0.125 + 0.25 * index : 0.25 * (index - 3), 9);
      expect(y).toBeCloseTo(0.125 + (row - 1) * pitch, 9);
    });
  });

  it("does not depend on where the outline lies", () => {
    const count = outlineCount(rectangle(1.03, 0.97), 0.1);
    for (const [x, y] of [
      [900, 900],
      [-900, 900],
      [-998, -998],
    ] as const) {
      const moved = rectangle(1.03, 0.97).map((one) => ({ x: one.x + x, y: one.y + y }));
      expect(outlineCount(moved, 0.1)).toBe(count);
    }
  });

  it("takes outlines as large as it says", () => {
    expect(outlineCount(polygon(1, 500), 0.2)).toBeGreaterThan(50);
    expect(() => outlineCount(polygon(1, 501), 0.2)).toThrow(
      "corners must have from 3 to 500 rows, found 501",
    );
    // One balloon in the corner of the allowed square.
    const corner = rectangle(0.3, 0.3);
    expect(
      outlineCount(
        corner.map(({ x, y }) => ({ x: 1000 - x, y: 1000 - y })),
        0.3,
      ),
    ).toBe(1);
    expect(
      outlineCount(
        corner.map(({ x, y }) => ({ x: x - 1000, y: y - 1000 })),
        0.3,
      ),
    ).toBe(1);
    const above = (y: number) => () => outlineCount([...corner.slice(0, 3), { x: 0, y }], 0.3);
    expect(above(1000.1)).toThrow("corners row 4: y must be a length up to 1000 m, found 1000.1");
    expect(above(NaN)).toThrow("corners row 4: y must be a length up to 1000 m");
    // A strip of 1000 m has 20,000 balloons of 0.1 m along its sides; in one of 499.8 m they are two too few for the limit.
    const strip = (length: number) => () => outlineCount(rectangle(length, 0.1), 0.1);
    expect(strip(1000)).toThrow("an outline with more than 10000 balloons along its sides");
    expect(strip(499.8)()).toBe(4998);
    // A square 100 m wide holds a million balloons of 0.1 m.
    expect(() => outlineCount(rectangle(100, 100), 0.1)).toThrow("an outline of more than 100000 balloons");
  });

  it("refuses exactly the outlines whose sides meet elsewhere than in their corners, naming two that do", () => {
    const grid = fc.integer({ min: 0, max: 4 });
    const lengths = fc.oneof(
      fc.integer({ min: 3, max: 8 }).map((first) => [first]),
      fc.tuple(fc.integer({ min: 3, max: 5 }), fc.integer({ min: 3, max: 5 })),
    );
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.tuple(grid, grid), { minLength: 10, maxLength: 10, selector: String }),
        lengths,
        (points, [first = 0, second = 0]) => {
          const rows = points.slice(0, first + second);
          const outline = rows.map(([x, y], index) => ({ x, y, loop: index < first ? 1 : 2 }));
          const sides = rows.map((from, index): readonly [Point, Point] => {
            const [begin, end] = index < first ? [0, first] : [first, first + second];
            return [from, rows[index + 1 < end ? index + 1 : begin] ?? from];
          });
          const wrong = new Map<string, string>();
          sides.forEach((one, row) => {
            sides.slice(row + 1).forEach((other, further) => {
              const meeting = shared(one, other);
              const isNeighbour = one[1] === other[0] || other[1] === one[0];
              if (meeting === "none" || (isNeighbour && meeting === "one")) return;
              const what = isNeighbour ? "not fold back over" : "not cross or touch";
              const name = `corners row ${row + further + 2}`;
              const end = `a side to ${other[1][0]} m, ${other[1][1]} m`;
              wrong.set(`${name} must ${what} the side from row ${row + 1}, found ${end}`, what);
            });
          });
          let message = "";
          try {
            outlineCount(outline, 0.5);
          } catch (error) {
            message = (error as Error).message;
          }
          if (wrong.size === 0) expect(message).toBe("");
          else expect([...wrong.keys()]).toContain(message);
        },
      ),
      { numRuns: 1500 },
    );
  });

  it("finds as many as a search over every point of the 4 x 3 x 8 lattices", () => {
    const corner = fc.tuple(
      fc.double({ min: 0.3, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
    );
    fc.assert(
      fc.property(
        fc.array(corner, { minLength: 3, maxLength: 7 }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.constantFrom(0.7, 0.9, 1),
        fc.boolean(),
        (points, off, spacing, hasHole) => {
          // Seen from its middle a star's corners follow each other, so no sides cross.
          const star: Corner[] = points.map(([length, share], index) => {
            const turn = (2 * Math.PI * (index + 0.8 * share)) / points.length;
            return { x: off + length * Math.cos(turn), y: 2 + length * Math.sin(turn), loop: 1 };
          });
          const hole = [
            [off - 0.02, 2.01],
            [off + 0.03, 2.02],
            [off, 1.98],
          ].map(([x = 0, y = 0]) => ({ x, y, loop: 2 }));
          fc.pre(!hasHole || hole.every(({ x, y }) => depth([star], x, y) > 0.1));
          const outline = hasHole ? [...star, ...hole] : star;
          const loops = loopsOf(outline);
          const count = outlineCount(outline, 0.25, spacing);
          // Points right at the edge may fall on either side.
          const [most, least] = mostInside(loops, 0.25, spacing, [0.125 - 1e-7, 0.125 + 1e-7]);
          expect(count).toBeGreaterThanOrEqual(least);
          expect(count).toBeLessThanOrEqual(most);
          const places = outlinePlaces(outline, 0.25, spacing);
          expect(places).toHaveLength(count);
          for (const { x, y } of places) expect(depth(loops, x, y)).toBeGreaterThan(0.125 - 1e-6);
        },
      ),
      { numRuns: 25 },
    );
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
      "corners must have at least 3 rows for each closed line, found 1",
    );
    expect(() => outlineCount(rectangle(900, 900), 0.1)).toThrow("an outline of more than 100000 balloons");
  });
});
