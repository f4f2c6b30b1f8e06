import { describe, expect, it } from "vitest";
import { columnHeight } from "../../../src/core/geometry/clusters";
import {
  clusterPlacements,
  columnPlacements,
  garlandPlacements,
} from "../../../src/core/geometry/clusters-drawing";
import { centres, middles, nearest, pairsAt, written } from "./drawing-checks";

// Worked by hand for balloons of 0.25 m, 0.2 m from centre to centre.
describe("drawing of clusters", () => {
  const half = 0.1 * Math.SQRT2;
  const ring = [
    [0, half],
    [half, 0],
    [0, -half],
    [-half, 0],
  ] as const;
  const turnedRing = [
    [0.1, 0.1],
    [0.1, -0.1],
    [-0.1, -0.1],
    [-0.1, 0.1],
  ] as const;
  // Balloons of two rings touch over a corner: 0.2^2 = pitch^2 + 0.1^2 + (half - 0.1)^2.
  const pitch = Math.sqrt(0.04 - 0.01 - (half - 0.1) ** 2);

  it("stacks a column, every other cluster turned by half a step", () => {
    const places = columnPlacements(0.25 + 2 * pitch, 0.25);
    expect(centres(places)).toEqual(
      written([
        ...ring.map(([x, z]) => [x, 0.125, z, 1]),
        ...turnedRing.map(([x, z]) => [x, 0.125 + pitch, z, 2]),
        ...ring.map(([x, z]) => [x, 0.125 + 2 * pitch, z, 3]),
      ]),
    );
    expect(places.map(({ row }) => row)).toEqual([1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3]);
  });

  it("lays a garland along a line about its middle", () => {
    const places = garlandPlacements(3 * pitch, 0.25);
    // The lowest balloons are those of an upright diagonal.
    const base = 0.125 + half;
    expect(centres(places)).toEqual(
      written([
        ...ring.map(([y, z]) => [-pitch, base + y, z, 1]),
        ...turnedRing.map(([y, z]) => [0, base + y, z, 2]),
        ...ring.map(([y, z]) => [pitch, base + y, z, 3]),
      ]),
    );
  });

  it.each([2, 3, 4, 5, 7])(
    "puts neighbours of clusters of %i exactly at the spacing, none nearer",
    (size) => {
      // Two neighbours in its own ring (one in a pair) and two in each ring beside it, every pair seen twice;
      // in a stack of pairs both balloons touch both of the next pair.
      const pairs = (clusters: number) =>
        clusters * (size === 2 ? 1 : size) + (clusters - 1) * (size === 2 ? 4 : 2 * size);
      for (const places of [
        columnPlacements(1.1, 0.25, size, 0.9),
        garlandPlacements(1.1, 0.25, size, 0.9),
      ]) {
        expect(nearest(places)).toBeCloseTo(0.9, 9);
        expect(pairsAt(places, 0.225)).toBe(pairs(places.length / size));
        for (const { ring: cluster } of middles(places, size)) {
          expect(new Set(cluster.map(({ row }) => row)).size).toBe(1);
        }
      }
    },
  );

  it("stacks a column to its finished height, centred", () => {
    const places = columnPlacements(1.83, 0.2286);
    expect(Math.max(...places.map(({ y, radius }) => y + radius))).toBeCloseTo(columnHeight(12, 0.2286), 9);
    for (const value of [
      places.reduce((sum, { x }) => sum + x, 0),
      places.reduce((sum, { z }) => sum + z, 0),
    ]) {
      expect(value).toBeCloseTo(0, 9);
    }
  });

  it("turns every other cluster by half a step", () => {
    const at = (x: number, z: number) => ({ x, y: 0, z });
    // Two on a circle of 0.4 m: in front and behind, then right and left.
    expect(written(clusterPlacements(0, 2, 0.4, at, 0.25).map(({ x, z }) => [x, z]))).toEqual(
      written([
        [0, 0.2],
        [0, -0.2],
      ]),
    );
    expect(written(clusterPlacements(1, 2, 0.4, at, 0.25).map(({ x, z }) => [x, z]))).toEqual(
      written([
        [0.2, 0],
        [-0.2, 0],
      ]),
    );
  });
});
