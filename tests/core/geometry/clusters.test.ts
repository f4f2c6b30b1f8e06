import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  clusterShape,
  columnAcross,
  columnCount,
  columnHeight,
  columnPlan,
  garlandCount,
} from "../../../src/core/geometry/clusters";

const INCH = 0.0254;
const FOOT = 0.3048;
const length = fc.double({ min: 0.01, max: 50, noNaN: true });
const balloon = fc.double({ min: 0.0254, max: 1, noNaN: true });
const perCluster = fc.integer({ min: 2, max: 8 });
const spacing = fc.double({ min: 0.6, max: 1.2, noNaN: true });

describe("cluster shape", () => {
  it("keeps every pair of touching balloons at the spacing, measured in space", () => {
    fc.assert(
      fc.property(balloon, perCluster, spacing, (d, n, s) => {
        const { pitch, ringDiameter } = clusterShape(d, n, s);
        const at = (turn: number) => [
          (ringDiameter / 2) * Math.cos(turn),
          (ringDiameter / 2) * Math.sin(turn),
        ];
        const [x, y] = at(0);
        const [a, b] = at((2 * Math.PI) / n);
        const [p, q] = at(Math.PI / n);
        const gap = (u = 0, v = 0, w = 0) => Math.hypot(u, v, w) / (s * d);
        expect(gap((a ?? 0) - (x ?? 0), (b ?? 0) - (y ?? 0))).toBeCloseTo(1, 12);
        expect(gap((p ?? 0) - (x ?? 0), (q ?? 0) - (y ?? 0), pitch)).toBeCloseTo(1, 12);
      }),
    );
  });

  it("is the square antiprism for four: height 2^-1/4 of the edge", () => {
    expect(clusterShape(1, 4, 1).pitch).toBeCloseTo(2 ** -0.25, 14);
    expect(clusterShape(1, 2, 1).pitch).toBeCloseTo(Math.SQRT1_2, 14);
    expect(clusterShape(1, 3, 1).pitch).toBeCloseTo(Math.sqrt(2 / 3), 14); // octahedra on a face
  });
});

describe("COUNT_COLUMN", () => {
  it("builds about two clusters of four to the foot at 9 in", () => {
    // Common practice, no source.
    expect(columnCount(6 * FOOT, 9 * INCH)).toBe(48);
    expect(columnCount(1.8, 10 * INCH)).toBe(40);
  });

  it("is one cluster where no second one fits, and leaves out a last sliver", () => {
    expect(columnCount(0.1, 10 * INCH)).toBe(4);
    const { pitch } = clusterShape(0.25);
    expect(columnCount(0.25 + pitch * 3.24, 0.25)).toBe(16);
    expect(columnCount(0.25 + pitch * 3.26, 0.25)).toBe(20);
  });

  it("never falls when the column grows or the spacing shrinks, and scales", () => {
    fc.assert(
      fc.property(length, length, balloon, perCluster, spacing, spacing, (one, other, d, n, s, t) => {
        expect(columnCount(Math.max(one, other), d, n, s)).toBeGreaterThanOrEqual(
          columnCount(Math.min(one, other), d, n, s),
        );
        expect(columnCount(one, d, n, Math.min(s, t))).toBeGreaterThanOrEqual(
          columnCount(one, d, n, Math.max(s, t)),
        );
        expect(columnCount(8 * one, 8 * d, n, s)).toBe(columnCount(one, d, n, s));
      }),
    );
  });

  it("needs at most one cluster more than two stacked parts, the one nested at the joint", () => {
    fc.assert(
      fc.property(length, length, balloon, perCluster, spacing, (one, other, d, n, s) => {
        // A closely pressed pair nests by up to a whole balloon over the pitch.
        const nested = Math.ceil(d / clusterShape(d, n, s).pitch);
        const parts = columnCount(one, d, n, s) + columnCount(other, d, n, s);
        expect(columnCount(one + other, d, n, s)).toBeLessThanOrEqual(parts + n * nested);
      }),
    );
  });

  it("refuses what is not a column", () => {
    expect(() => columnCount(0, 0.25)).toThrow("height must be more than 0 m, found 0");
    expect(() => columnCount(1.8, 0.25, 1)).toThrow("per_cluster must be a whole number from 2");
    expect(() => columnCount(1.8, 0.25, 4, 2)).toThrow("spacing must be from 0.6 to 1.2, found 2");
    expect(() => columnCount(1.8, -1)).toThrow("balloon must be more than 0 m, found -1");
  });
});

describe("COLUMN_METRES and COLUMN_ACROSS_METRES", () => {
  it("give the size of a 9 in column", () => {
    // By hand: 11 x 0.8409 x 0.8 x 0.2286 + 0.2286 and 0.8 x 0.2286/sin 45 + 0.2286.
    expect(columnHeight(12, 9 * INCH)).toBeCloseTo(1.92, 3);
    expect(columnAcross(9 * INCH)).toBeCloseTo(0.487, 3);
  });

  it("give the clusters back", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), balloon, perCluster, spacing, (clusters, d, n, s) => {
        expect(columnCount(columnHeight(clusters, d, n, s), d, n, s)).toBe(clusters * n);
      }),
    );
  });
});

describe("COLUMN_PLAN", () => {
  it("adds up to the count and ends half a balloon below the finished height", () => {
    fc.assert(
      fc.property(length, balloon, perCluster, spacing, (height, d, n, s) => {
        const plan = columnPlan(height, d, n, s);
        expect(plan.reduce((sum, row) => sum + row.balloons, 0)).toBe(columnCount(height, d, n, s));
        expect((plan.at(-1)?.height ?? 0) + d / 2).toBeCloseTo(columnHeight(plan.length, d, n, s), 9);
        expect(plan.map((row) => row.row)).toEqual(plan.map((_, index) => index + 1));
      }),
    );
  });
});

describe("COUNT_GARLAND", () => {
  it("takes whole clusters", () => {
    const { pitch } = clusterShape(9 * INCH);
    expect(garlandCount(10 * pitch, 9 * INCH)).toBe(40);
    expect(garlandCount(10.01 * pitch, 9 * INCH)).toBe(44);
  });

  it("needs never fewer in parts than in one piece, never falls, and scales", () => {
    fc.assert(
      fc.property(length, length, balloon, perCluster, spacing, (one, other, d, n, s) => {
        const whole = garlandCount(one + other, d, n, s);
        expect(garlandCount(one, d, n, s) + garlandCount(other, d, n, s)).toBeGreaterThanOrEqual(whole);
        expect(whole).toBeGreaterThanOrEqual(garlandCount(one, d, n, s));
        expect(garlandCount(4 * one, 4 * d, n, s)).toBe(garlandCount(one, d, n, s));
      }),
    );
  });
});
