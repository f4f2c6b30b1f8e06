import { describe, expect, it } from "vitest";
import { ARCH_CURVES, archCount } from "../../../src/core/geometry/arch";
import { coverCount, sphereCount } from "../../../src/core/geometry/ball";
import { columnCount, garlandCount } from "../../../src/core/geometry/clusters";
import { ceilingCount, strandCount, wallCount } from "../../../src/core/geometry/flat";
import { outlineCount } from "../../../src/core/geometry/outline";
import { revolvedCount } from "../../../src/core/geometry/revolved";
import { mixPlan } from "../../../src/core/geometry/volumes";
import { archPlacements } from "../../../src/core/geometry/arch-drawing";
import { ballPlacements, coverPlacements, spherePlacements } from "../../../src/core/geometry/ball-drawing";
import { columnPlacements, garlandPlacements } from "../../../src/core/geometry/clusters-drawing";
import { ceilingPlacements, strandPlacements, wallPlacements } from "../../../src/core/geometry/flat-drawing";
import { outlinePlacements } from "../../../src/core/geometry/outline-drawing";
import { revolvedPlacements } from "../../../src/core/geometry/revolved-drawing";
import { mixPlacements } from "../../../src/core/geometry/volumes-drawing";
import {
  centred,
  moved,
  refuseLargeDrawing,
  sidesOf,
  standing,
  topOf,
} from "../../../src/core/geometry/drawing";
import type { Placement } from "../../../src/core/geometry/drawing";
import { nearest } from "./drawing-checks";

const D = 0.2286;

const ball = (radius: number) =>
  Array.from({ length: 61 }, (_, index) => ({
    height: radius - radius * Math.cos((Math.PI * index) / 60),
    radius: index === 0 || index === 60 ? 0 : radius * Math.sin((Math.PI * index) / 60),
  }));
const letter = [
  { x: 1, y: 1 },
  { x: 2.2, y: 1 },
  { x: 2.2, y: 1.5 },
  { x: 1.5, y: 1.5 },
  { x: 1.5, y: 3 },
  { x: 1, y: 3 },
];
const mix = [
  [0.1143, D, 0.3556],
  [0.6, 0.3, 0.1],
] as const;

interface Drawing {
  readonly name: string;
  readonly draw: () => readonly Placement[];
  readonly count: number;
  /** Least distance of neighbours as a ratio to the size that the drawing states. */
  readonly apart: number;
}

const DRAWINGS: readonly Drawing[] = [
  { name: "ball", draw: () => spherePlacements(1, D, 0.8), count: sphereCount(1, D, 0.8), apart: 0.95 * 0.8 },
  {
    name: "large ball",
    draw: () => spherePlacements(2.6, 0.127, 0.85),
    count: sphereCount(2.6, 0.127, 0.85),
    apart: 0.9 * 0.85,
  },
  {
    name: "dome",
    draw: () => spherePlacements(1, D, 0.8, 0.5),
    count: sphereCount(1, D, 0.8, 0.5),
    apart: 0.95 * 0.8,
  },
  { name: "tied ball", draw: () => ballPlacements(12, 0.254), count: 12, apart: 0.95 * 0.85 },
  { name: "pair", draw: () => ballPlacements(2, 0.254, 1), count: 2, apart: 0.98 },
  { name: "single", draw: () => ballPlacements(1, 0.254), count: 1, apart: 1 },
  {
    name: "cover",
    draw: () => coverPlacements(12, 0.254, 0.28),
    count: coverCount(12, 0.254, 0.28),
    apart: 0.95 * 0.8,
  },
  { name: "column", draw: () => columnPlacements(1.83, D), count: columnCount(1.83, D), apart: 0.8 },
  {
    name: "column of pairs",
    draw: () => columnPlacements(1.83, D, 2, 1),
    count: columnCount(1.83, D, 2, 1),
    apart: 1,
  },
  { name: "garland", draw: () => garlandPlacements(6, D, 5), count: garlandCount(6, D, 5), apart: 0.8 },
  ...ARCH_CURVES.map((curve) => ({
    name: `${curve} arch`,
    draw: () => archPlacements(5, 2.8, D, curve, 4, 0.8, "inside"),
    count: archCount(5, 2.8, D, curve, 4, 0.8, "inside"),
    apart: curve === "square" ? 0.5 * 0.7 : 0.9 * 0.8,
  })),
  { name: "strand", draw: () => strandPlacements(3, D, 0.1), count: strandCount(3, D, 0.1), apart: 1 },
  {
    name: "square wall",
    draw: () => wallPlacements(2.44, 2.44, D),
    count: wallCount(2.44, 2.44, D),
    apart: 0.8,
  },
  {
    name: "staggered wall",
    draw: () => wallPlacements(2.5, 2, D, "staggered", 0.9, 2),
    count: wallCount(2.5, 2, D, "staggered", 0.9, 2),
    apart: 0.9,
  },
  {
    name: "turned body",
    draw: () => revolvedPlacements(ball(0.6), D, 0.8),
    count: revolvedCount(ball(0.6), D, 0.8),
    apart: 0.75 * 0.8,
  },
  {
    name: "letter",
    draw: () => outlinePlacements(letter, 0.127, 0.9),
    count: outlineCount(letter, 0.127, 0.9),
    apart: 0.9,
  },
  {
    name: "ceiling",
    draw: () => ceilingPlacements(9, 6, 0.28),
    count: ceilingCount(9, 6, 0.28),
    apart: 0.98,
  },
  {
    name: "full ceiling",
    draw: () => ceilingPlacements(9, 6, 0.28, 1),
    count: ceilingCount(9, 6, 0.28, 1),
    apart: 0.8,
  },
  {
    name: "mix",
    draw: () => mixPlacements(3, 0.55, ...mix),
    count: mixPlan(3, 0.55, ...mix).reduce((sum, row) => sum + row.balloons, 0),
    apart: 0.55,
  },
];

describe("drawings", () => {
  it.each(DRAWINGS)(
    "$name: as many as counted, apart, standing on the base, the same each time",
    ({ draw, count, apart }) => {
      const places = draw();
      expect(places).toHaveLength(count);
      expect(nearest(places)).toBeGreaterThan(apart - 1e-9);
      for (const { x, y, z, radius, row } of places) {
        for (const value of [x, y, z]) expect(Number.isFinite(value) && !Object.is(value, -0)).toBe(true);
        expect(radius).toBeGreaterThan(0);
        expect(y - radius).toBeGreaterThan(-1e-9);
        expect(Number.isInteger(row) && row >= 1).toBe(true);
      }
      expect(draw()).toEqual(places);
    },
  );

  it("refuses more balloons than a drawing shows", () => {
    expect(() => wallPlacements(100, 100, 0.1)).toThrow("a drawing of more than 20000 balloons is not made");
    expect(() => ballPlacements(1e6, 0.1)).toThrow("a drawing of more than 20000 balloons");
  });
});

it("draws nothing where there is nothing to draw", () => {
  expect(spherePlacements(1, 0.25, 1, 0)).toEqual([]);
  expect(ceilingPlacements(2, 2, 0.25, 0)).toEqual([]);
  // A triangle with room for a circle of 0.2 m at most.
  const small = [
    { x: 0, y: 0 },
    { x: 0.3, y: 0 },
    { x: 0, y: 0.4 },
  ];
  expect(outlinePlacements(small, 0.25)).toEqual([]);
});

it("draws 20000 balloons and not one more", () => {
  expect(strandPlacements(2000, 0.1)).toHaveLength(20_000);
  const refusal = "a drawing of more than 20000 balloons is not made";
  const tube = [
    { height: 0, radius: 2 },
    { height: 40, radius: 2 },
  ];
  expect(() => strandPlacements(2000.1, 0.1)).toThrow(refusal);
  // 1000 m are some 15000 clusters of four.
  expect(() => columnPlacements(1000, 0.1)).toThrow(refusal);
  expect(() => garlandPlacements(1000, 0.1)).toThrow(refusal);
  expect(() => archPlacements(400, 300, 0.1)).toThrow(refusal);
  // 125 round x 460 rings; 0.7 x 500 m3 and 0.82 x 0.8 x 900 m2 of balloons of 0.1 m.
  expect(() => revolvedPlacements(tube, 0.1)).toThrow(refusal);
  expect(() => mixPlacements(640, 1, [0.1], [1])).toThrow(refusal);
  expect(() => ceilingPlacements(30, 30, 0.1)).toThrow(refusal);
});

it("stands the lowest balloon on the base", () => {
  const places = [2, 5].map((y) => ({ x: 0, y, z: 0, radius: y / 4, row: 1 }));
  // 2 - 0.5 and 5 - 1.25: the first is the lower.
  expect(standing(places).map(({ y }) => y)).toEqual([0.5, 3.5]);
  expect(() => {
    refuseLargeDrawing(20_000);
  }).not.toThrow();
});

describe("where balloons are", () => {
  // Two balls: one from -1 to 1 across and 4 high at most, one from 2 to 5 across and 2.5 high at most.
  const two: readonly Placement[] = [
    { x: 0, y: 3, z: 0, radius: 1, row: 1 },
    { x: 3.5, y: 1, z: 2, radius: 1.5, row: 2 },
  ];

  it("tells their sides and top", () => {
    expect(sidesOf(two)).toEqual([-1, 5]);
    expect(topOf(two)).toBe(4);
    expect(topOf([])).toBe(0);
  });

  it("moves and centres them", () => {
    expect(moved(two, { x: 1, z: -2 }).map(({ x, y, z }) => [x, y, z])).toEqual([
      [1, 3, -2],
      [4.5, 1, 0],
    ]);
    expect(centred(two).map(({ x }) => x)).toEqual([-2, 1.5]);
    expect(centred([])).toEqual([]);
  });
});
