import { describe, expect, it } from "vitest";
import {
  bodyPlaces,
  ceilingPlaces,
  columnPlaces,
  countPlaces,
  facePlaces,
  fitted,
  linePlaces,
  wallPlaces,
} from "../../../src/core/event/part-places";
import { columnPlacements } from "../../../src/core/geometry/clusters-drawing";
import type { Placement } from "../../../src/core/geometry/drawing";

const line = (count: number): readonly Placement[] =>
  Array.from({ length: count }, (_, index) => ({ x: index, y: 0, z: 0, radius: 0.5, row: 1 }));
const reach = (places: readonly Placement[], of: "x" | "y"): readonly [number, number] => [
  Math.min(...places.map((place) => place[of] - place.radius)),
  Math.max(...places.map((place) => place[of] + place.radius)),
];

describe("places for another number", () => {
  it("are the same for the same number, even gaps for fewer, behind their neighbours for more", () => {
    expect(fitted(line(4), 4)).toEqual(line(4));
    expect(fitted(line(6), 3).map(({ x }) => x)).toEqual([0, 2, 4]);
    expect(fitted(line(2), 4).map(({ x, z }) => [x, z])).toEqual([
      [0, 0],
      [0.5, -0.5],
      [1, 0],
      [1.5, -0.5],
    ]);
  });
});

describe("columns", () => {
  it("stand as the drawing of their count does", () => {
    const places = columnPlacements(3, 0.2286);
    const row = { cells: { height: 3 }, size: 0.2286, balloons: places.length };
    const own = columnPlaces(row);
    expect(own).toHaveLength(places.length);
    own.forEach(({ x, y, z }, index) => {
      const other = places[index];
      expect(Math.hypot(x - (other?.x ?? 9), y - (other?.y ?? 9), z - (other?.z ?? 9))).toBeLessThan(1e-9);
    });
  });

  it("spread another number over their height", () => {
    const places = columnPlaces({ cells: { height: 3 }, size: 0.2, balloons: 20 });
    expect(places).toHaveLength(20);
    expect(reach(places, "y")[0]).toBeCloseTo(0, 9);
    expect(reach(places, "y")[1]).toBeCloseTo(3, 9);
  });
});

describe("faces and walls", () => {
  it("fill width and height in even rows", () => {
    const places = facePlaces(2, 1, { size: 0.2, balloons: 50 });
    expect(reach(places, "x")).toEqual([expect.closeTo(-1, 9), expect.closeTo(1, 9)]);
    expect(reach(places, "y")).toEqual([expect.closeTo(0, 9), expect.closeTo(1, 9)]);
    expect(new Set(places.map(({ y }) => y)).size).toBe(5);
  });

  it("keep a patch of whole rows in the middle for what takes its places out of the wall", () => {
    // A lattice of 10 x 10: the patch of 9 is 3 x 3, of which the middle lies nearest to the wall's own.
    const wall = { cells: { width: 2, height: 2, spacing: 1 }, size: 0.2, balloons: 91 };
    const places = wallPlaces(wall, [{ size: 0.2, balloons: 9 }]);
    const patch = places.filter(({ group }) => group === 1);
    expect([places.length, patch.length]).toEqual([100, 9]);
    expect(new Set(patch.map(({ y }) => y.toFixed(6))).size).toBe(3);
    for (const { x, y } of patch) {
      expect(Math.abs(x)).toBeLessThan(0.31);
      expect(Math.abs(y - 1)).toBeLessThan(0.31);
    }
  });
});

describe("bodies and heaps", () => {
  it("take length and thickness as typed, or make their own", () => {
    const rows = [{ size: 0.25, balloons: 40 }];
    const typed = bodyPlaces(3, 0.5, rows);
    expect(reach(typed, "x")[1]).toBeLessThanOrEqual(1.5 + 1e-9);
    expect(reach(typed, "y")[1]).toBeLessThanOrEqual(0.5 + 1e-9);
    // Without any: 2.5 balloons thick and 0.6 of it balloon, ours by eye, no source: 40 x (pi/6) 0.25^3 / 0.6 / ((pi/4) 0.625^2) = 1.78 m long.
    const own = bodyPlaces(undefined, undefined, rows);
    expect(reach(own, "x")[1]).toBeCloseTo(0.89, 1);
    expect(reach(own, "y")[1]).toBeLessThanOrEqual(0.625 + 1e-9);
  });

  it("stand where only a height was typed, lie where a length was, else are a heap", () => {
    const row = { size: 0.25, balloons: 20 };
    const high = countPlaces([{ ...row, cells: { height: 2 } }]);
    const long = countPlaces([{ ...row, cells: { length: 2 } }]);
    const heap = countPlaces([{ ...row, cells: {} }]);
    expect(reach(high, "y")[1]).toBeGreaterThan(1.5);
    expect(reach(long, "x")[1] - reach(long, "x")[0]).toBeGreaterThan(1.5);
    expect(reach(heap, "y")[1]).toBeLessThan(1.1);
    expect([high, long, heap].map(({ length }) => length)).toEqual([20, 20, 20]);
  });
});

describe("ceilings and lines", () => {
  it("show a ceiling from above within the room", () => {
    const places = ceilingPlaces({ cells: { length: 6, width: 4 }, size: 0.25, balloons: 100 });
    expect(places).toHaveLength(100);
    expect(reach(places, "x")[0]).toBeGreaterThanOrEqual(-3 - 1e-9);
    expect(reach(places, "y")[0]).toBeGreaterThanOrEqual(-1e-9);
    expect(reach(places, "y")[1]).toBeLessThanOrEqual(4 + 1e-9);
    expect(reach(places, "y")[1]).toBeGreaterThan(3.5);
  });

  it("follow the curve of an arch, lie along a garland", () => {
    const arch = linePlaces("arch", { cells: { width: 4, height: 2.5 }, size: 0.25, balloons: 100 });
    expect(arch).toHaveLength(100);
    expect(reach(arch, "y")[1]).toBeGreaterThan(2.4);
    const garland = linePlaces("garland", { cells: { length: 3 }, size: 0.25, balloons: 40 });
    expect(reach(garland, "x")[1] - reach(garland, "x")[0]).toBeGreaterThan(2.7);
    expect(garland).toHaveLength(40);
  });
});
