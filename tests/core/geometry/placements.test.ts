import { describe, expect, it } from "vitest";
import { ARCH_CURVES, archCount, archLength, archPoints } from "../../../src/core/geometry/arch";
import { ballAcross, coverCount, sphereCount } from "../../../src/core/geometry/ball";
import { columnCount, columnHeight, garlandCount } from "../../../src/core/geometry/clusters";
import { ceilingCount, strandCount, wallCount } from "../../../src/core/geometry/flat";
import { outlineCount } from "../../../src/core/geometry/outline";
import {
  archPlacements,
  ballPlacements,
  ceilingPlacements,
  columnPlacements,
  coverPlacements,
  garlandPlacements,
  mixPlacements,
  outlinePlacements,
  revolvedPlacements,
  spherePlacements,
  strandPlacements,
  wallPlacements,
} from "../../../src/core/geometry/placements";
import type { Placement } from "../../../src/core/geometry/placements";
import { revolvedCount } from "../../../src/core/geometry/revolved";
import { mixPlan } from "../../../src/core/geometry/volumes";

const D = 0.2286;

/** Smallest distance of two centres, as a ratio to the sum of their radii. */
function nearest(places: readonly Placement[]): number {
  let least = Infinity;
  places.forEach((one, index) => {
    for (const other of places.slice(index + 1)) {
      const apart = Math.hypot(one.x - other.x, one.y - other.y, one.z - other.z);
      least = Math.min(least, apart / (one.radius + other.radius));
    }
  });
  return least;
}

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

  it("puts the balloons of a ball on one sphere, within its finished size", () => {
    const radius = (ballAcross(40, 0.25) - 0.25) / 2;
    const places = ballPlacements(40, 0.25);
    const middle = { x: 0, y: 0, z: 0 };
    // The centre of the sphere is where four of them put it: here they are known to be about the axis x = z =
    // 0.
    const [one, other] = [places[0], places.at(-1)];
    const squares = ({ x, z }: Placement) => x * x + z * z;
    if (one === undefined || other === undefined)
      throw new Error("a ball of 40 has a first and a last balloon");
    middle.y = (squares(one) + one.y ** 2 - squares(other) - other.y ** 2) / (2 * (one.y - other.y));
    for (const { x, y, z } of places) expect(Math.hypot(x, y - middle.y, z)).toBeCloseTo(radius, 9);
  });

  it("stacks a column to its finished height, centred", () => {
    const places = columnPlacements(1.83, D);
    expect(Math.max(...places.map(({ y, radius }) => y + radius))).toBeCloseTo(columnHeight(12, D), 9);
    for (const value of [
      places.reduce((sum, { x }) => sum + x, 0),
      places.reduce((sum, { z }) => sum + z, 0),
    ]) {
      expect(value).toBeCloseTo(0, 9);
    }
  });

  it("keeps a mix within its body and the letter within its outline", () => {
    for (const { y, z, radius } of mixPlacements(3, 0.55, ...mix)) {
      expect(Math.hypot(y - 0.275, z) + radius).toBeLessThan(0.275 + 1e-9);
    }
    const places = outlinePlacements(letter, 0.127);
    expect(Math.min(...places.map(({ x, radius }) => x - radius))).toBeGreaterThan(1 - 1e-6);
    expect(Math.max(...places.map(({ y, radius }) => y + radius))).toBeLessThan(2 + 1e-6);
  });

  it("refuses more balloons than a drawing shows", () => {
    expect(() => wallPlacements(100, 100, 0.1)).toThrow("a drawing of more than 20000 balloons is not made");
    expect(() => ballPlacements(1e6, 0.1)).toThrow("a drawing of more than 20000 balloons");
  });
});

describe("points of an arch", () => {
  it("are as long as the arch and reach its feet and top", () => {
    for (const curve of ARCH_CURVES) {
      for (const height of [0.3, 1.5, 4]) {
        const points = archPoints(3, height, curve);
        const length = points
          .slice(1)
          .reduce(
            (sum, { x, y }, index) =>
              sum + Math.hypot(x - (points[index]?.x ?? x), y - (points[index]?.y ?? y)),
            0,
          );
        expect(Math.abs(length / archLength(3, height, curve) - 1)).toBeLessThan(1e-5);
        expect(Math.max(...points.map(({ y }) => y))).toBeCloseTo(height, 9);
        expect(points[0]?.x).toBeCloseTo(-1.5, 9);
        expect(points.at(-1)?.y).toBeCloseTo(0, 9);
      }
    }
  });
});
