import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  WALL_LATTICES,
  ceilingCount,
  strandCount,
  wallCount,
  wallShape,
} from "../../../src/core/geometry/flat";

const INCH = 0.0254;
const FOOT = 0.3048;
const length = fc.double({ min: 0.01, max: 30, noNaN: true });
const size = fc.double({ min: 0.0254, max: 1, noNaN: true });
const spacing = fc.double({ min: 0.6, max: 1.2, noNaN: true });
const lattice = fc.constantFrom(...WALL_LATTICES);

describe("COUNT_WALL", () => {
  it("counts rows and columns", () => {
    // By hand: (2.4384 - 0.2286)/(0.8 x 0.2286) = 12.08, 13 x 13.
    expect(wallCount(8 * FOOT, 8 * FOOT, 9 * INCH)).toBe(169);
    expect(wallCount(1, 1, 0.25, "square", 1)).toBe(16);
    expect(wallCount(1, 1, 0.25, "square", 1, 2)).toBe(32);
    expect(wallCount(0.1, 0.1, 0.25)).toBe(1);
  });

  it("staggers hexagonal rows, one balloon fewer in every other row where only the full rows fit", () => {
    // Four touching balloons wide, rows 0.2165 m apart: 4, 3, 4, 3 in 3 row steps + 1 balloon.
    const height = 0.25 + (3 * 0.25 * Math.sqrt(3)) / 2;
    expect(wallCount(1, height, 0.25, "staggered", 1)).toBe(14);
    expect(wallCount(1.125, height, 0.25, "staggered", 1)).toBe(16);
    expect(wallShape(1.125, height, 0.25, "staggered", 1)).toMatchObject({
      fullRow: 4,
      otherRow: 4,
      rows: 4,
    });
  });

  it("stacks a wall one balloon wide straight", () => {
    expect(wallCount(0.25, 1, 0.25, "staggered", 1)).toBe(4);
  });

  it("never falls when the wall grows or the spacing shrinks, and scales", () => {
    fc.assert(
      fc.property(length, length, length, size, lattice, spacing, spacing, (w, h, more, d, kind, s, t) => {
        const count = wallCount(w, h, d, kind, Math.max(s, t));
        expect(wallCount(w + more, h, d, kind, Math.max(s, t))).toBeGreaterThanOrEqual(count);
        expect(wallCount(w, h + more, d, kind, Math.max(s, t))).toBeGreaterThanOrEqual(count);
        expect(wallCount(w, h, d, kind, Math.min(s, t))).toBeGreaterThanOrEqual(count);
        expect(wallCount(4 * w, 4 * h, 4 * d, kind, s)).toBe(wallCount(w, h, d, kind, s));
      }),
    );
  });

  it("needs in one piece at most two columns more than in two: the ones pressed in at the joint", () => {
    fc.assert(
      fc.property(length, length, length, size, spacing, (one, other, height, d, s) => {
        const parts = wallCount(one, height, d, "square", s) + wallCount(other, height, d, "square", s);
        const { rows } = wallShape(one, height, d, "square", s);
        expect(wallCount(one + other, height, d, "square", s)).toBeLessThanOrEqual(parts + 2 * rows);
      }),
    );
  });

  it("refuses what is not a wall", () => {
    expect(() => wallCount(0, 1, 0.25)).toThrow("width must be more than 0 m, found 0");
    expect(() => wallCount(1, -1, 0.25)).toThrow("height must be more than 0 m, found -1");
    expect(() => wallCount(1, 1, 0.25, "square", 1, 0)).toThrow("faces must be a whole number from 1");
    expect(() => wallCount(1, 1, 0.25, "square", 1.3)).toThrow("spacing must be from 0.6 to 1.2, found 1.3");
  });
});

describe("COUNT_CEILING", () => {
  it("is about one to the square foot at 11 in", () => {
    // Common practice, no source; random packing of discs 0.82 by Berryman 1983.
    expect(ceilingCount(30 * FOOT, 20 * FOOT, 11 * INCH)).toBe(596);
    expect(ceilingCount(1, 1, 0.25, 0)).toBe(0);
  });

  it("stays below hexagonal packing and grows with the room", () => {
    fc.assert(
      fc.property(length, length, length, size, (l, w, more, d) => {
        const discs = (ceilingCount(l, w, d, 1) * Math.PI * d * d) / 4;
        expect(discs).toBeLessThanOrEqual((Math.PI / Math.sqrt(12)) * l * w + (Math.PI * d * d) / 8);
        expect(ceilingCount(l + more, w, d)).toBeGreaterThanOrEqual(ceilingCount(l, w, d));
      }),
    );
  });

  it("needs in two rooms what it needs in one, to the rounding", () => {
    fc.assert(
      fc.property(length, length, length, size, (one, other, w, d) => {
        const parts = ceilingCount(one, w, d) + ceilingCount(other, w, d);
        expect(Math.abs(ceilingCount(one + other, w, d) - parts)).toBeLessThanOrEqual(1);
      }),
    );
  });
});

describe("COUNT_STRAND", () => {
  it("fits balloons side by side", () => {
    expect(strandCount(3, 0.3)).toBe(10);
    expect(strandCount(3, 0.3, 0.3)).toBe(5);
    expect(strandCount(0.9, 0.3)).toBe(3);
    expect(strandCount(0.2, 0.3)).toBe(0);
    expect(() => strandCount(3, 0.3, -0.1)).toThrow("gap must be 0 m or more, found -0.1");
  });

  it("fits within the line, and one more does not", () => {
    fc.assert(
      fc.property(length, size, fc.double({ min: 0, max: 1, noNaN: true }), (line, d, gap) => {
        const count = strandCount(line, d, gap);
        expect(count * d + Math.max(0, count - 1) * gap).toBeLessThanOrEqual(line + 1e-6);
        expect((count + 1) * d + count * gap).toBeGreaterThan(line - 1e-6);
      }),
    );
  });
});
