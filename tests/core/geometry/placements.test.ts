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

/** The points as sortable text to the tenth of a micrometre, so that two sets of them can be compared. */
const written = (points: readonly (readonly number[])[]): readonly string[] =>
  points
    .map((point) => point.map((value) => (Math.round(value * 1e7) / 1e7 + 0).toFixed(7)).join(" "))
    .sort();
const centres = (places: readonly Placement[]): readonly string[] =>
  written(places.map(({ x, y, z, row }) => [x, y, z, row]));

/** Pairs of balloons exactly a distance apart. */
function pairsAt(places: readonly Placement[], distance: number): number {
  let pairs = 0;
  places.forEach((one, index) => {
    for (const other of places.slice(index + 1)) {
      if (Math.abs(Math.hypot(one.x - other.x, one.y - other.y, one.z - other.z) - distance) < 1e-9)
        pairs += 1;
    }
  });
  return pairs;
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Middle of each cluster, in order. */
function middles(places: readonly Placement[], perCluster: number) {
  return Array.from({ length: places.length / perCluster }, (_, index) => {
    const ring = places.slice(index * perCluster, (index + 1) * perCluster);
    return {
      ring,
      x: mean(ring.map(({ x }) => x)),
      y: mean(ring.map(({ y }) => y)),
      z: mean(ring.map(({ z }) => z)),
    };
  });
}

/** Distances from the centre of a ball whose centre is on the axis, found from its lowest and highest balloon. */
function fromCentre(places: readonly Placement[]): readonly number[] {
  const [one, other] = [places[0], places.at(-1)];
  if (one === undefined || other === undefined) throw new Error("a ball has a first and a last balloon");
  const square = ({ x, y, z }: Placement) => x * x + y * y + z * z;
  const middle = (square(one) - square(other)) / (2 * (one.y - other.y));
  return places.map(({ x, y, z }) => Math.hypot(x, y - middle, z));
}

// Everything below is worked by hand for balloons of 0.25 m, 0.2 m from centre to centre.
describe("drawing of a wall", () => {
  it("puts a square one in rows and columns about the middle, further faces behind", () => {
    // 0.85 = 0.25 + 3 x 0.2 and 0.65 = 0.25 + 2 x 0.2.
    const face = (z: number) =>
      [0.125, 0.325, 0.525].flatMap((y, row) => [-0.3, -0.1, 0.1, 0.3].map((x) => [x, y, z, row + 1]));
    expect(centres(wallPlacements(0.85, 0.65, 0.25))).toEqual(written(face(0)));
    const both = wallPlacements(0.85, 0.65, 0.25, "square", 0.8, 2);
    expect(centres(both)).toEqual(written([...face(0), ...face(-0.25)]));
    expect(both.every(({ radius }) => radius === 0.125)).toBe(true);
    expect(both.slice(0, 12).every(({ z }) => z === 0)).toBe(true);
  });

  it("shifts every other row of a staggered one by half a step", () => {
    const pitch = 0.1 * Math.sqrt(3);
    // 0.75 = 0.25 + 5 x 0.1: the shifted row has as many. 0.65 = 0.25 + 4 x 0.1: it has one fewer.
    const equal = [
      ...[-0.25, -0.05, 0.15].flatMap((x) => [
        [x, 0.125, 0, 1],
        [x, 0.125 + 2 * pitch, 0, 3],
      ]),
      ...[-0.15, 0.05, 0.25].map((x) => [x, 0.125 + pitch, 0, 2]),
    ];
    const fewer = [
      ...[-0.2, 0, 0.2].map((x) => [x, 0.125, 0, 1]),
      ...[-0.1, 0.1].map((x) => [x, 0.125 + pitch, 0, 2]),
    ];
    expect(centres(wallPlacements(0.75, 0.25 + 2 * pitch, 0.25, "staggered"))).toEqual(written(equal));
    expect(centres(wallPlacements(0.65, 0.25 + pitch, 0.25, "staggered"))).toEqual(written(fewer));
  });
});

it("lays a strand along a line, a balloon and a gap from centre to centre", () => {
  // (1.5 + 0.1)/(0.3 + 0.1) = 4 balloons.
  expect(centres(strandPlacements(1.5, 0.3, 0.1))).toEqual(
    written([-0.6, -0.2, 0.2, 0.6].map((x, index) => [x, 0.15, 0, index + 1])),
  );
});

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
});

describe("drawing of an arch", () => {
  const across = 0.2 * Math.SQRT2 + 0.25;

  /** Checks that clusters stand square to a line at given points of it, lifted as a whole. */
  function checkClusters(
    places: readonly Placement[],
    at: (share: number) => { x: number; y: number; dx: number; dy: number },
  ): void {
    const clusters = middles(places, 4);
    const lift = (clusters[0]?.y ?? 0) - at(0.5 / clusters.length).y;
    clusters.forEach(({ ring, x, y, z }, index) => {
      const point = at((index + 0.5) / clusters.length);
      expect(Math.abs(x - point.x)).toBeLessThan(1e-4);
      expect(Math.abs(y - lift - point.y)).toBeLessThan(1e-4);
      expect(Math.abs(z)).toBeLessThan(1e-9);
      for (const one of ring) {
        expect(Math.hypot(one.x - x, one.y - y, one.z)).toBeCloseTo(0.1 * Math.SQRT2, 9);
        expect(Math.abs((one.x - x) * point.dx + (one.y - y) * point.dy)).toBeLessThan(2e-3);
        expect(one.row).toBe(index + 1);
      }
    });
    expect(Math.min(...places.map(({ y, radius }) => y - radius))).toBeCloseTo(0, 9);
  }

  it("stands its clusters at even steps round a half circle", () => {
    const circle = (radius: number) => (share: number) => {
      const turn = Math.PI * share;
      return {
        x: -radius * Math.cos(turn),
        y: radius * Math.sin(turn),
        dx: Math.sin(turn),
        dy: Math.cos(turn),
      };
    };
    checkClusters(archPlacements(4, 2, 0.25, "round"), circle(2));
    checkClusters(archPlacements(4, 2, 0.25, "round", 4, 0.8, "inside"), circle(2 + across / 2));
    checkClusters(archPlacements(4, 2, 0.25, "round", 4, 0.8, "outside"), circle(2 - across / 2));
  });

  it("stands its clusters at even steps up a leg, along the beam and down again", () => {
    checkClusters(archPlacements(2, 1, 0.25, "square"), (share) => {
      const along = 4 * share;
      if (along < 1) return { x: -1, y: along, dx: 0, dy: 1 };
      if (along > 3) return { x: 1, y: 4 - along, dx: 0, dy: -1 };
      return { x: along - 2, y: 1, dx: 1, dy: 0 };
    });
  });

  it("puts its clusters on the curve, as far from each other as the line is long", () => {
    const [width, height] = [5, 2.8];
    const over = {
      "half ellipse": (x: number) => height * Math.sqrt(1 - (x / 2.5) ** 2),
      parabola: (x: number) => height * (1 - (x / 2.5) ** 2),
    } as const;
    for (const [curve, rise] of Object.entries(over)) {
      const places = archPlacements(width, height, 0.25, curve as keyof typeof over);
      const clusters = middles(places, 4);
      const step = archLength(width, height, curve as keyof typeof over) / clusters.length;
      const lift = (clusters[0]?.y ?? 0) - rise(clusters[0]?.x ?? 0);
      clusters.forEach(({ x, y }, index) => {
        // The feet are so steep that the straight pieces of the line leave some of a millimetre.
        expect(Math.abs(y - lift - rise(x))).toBeLessThan(1e-3);
        // The line mirrored is the same line.
        expect(x).toBeCloseTo(0 - (clusters.at(-1 - index)?.x ?? NaN), 6);
        const next = clusters[index + 1];
        if (next === undefined) return;
        const chord = Math.hypot(next.x - x, next.y - y);
        expect(chord).toBeLessThan(step + 1e-9);
        expect(chord).toBeGreaterThan(0.98 * step);
      });
    }
  });
});

describe("drawing of a ball", () => {
  it("puts every centre half a balloon inside the finished surface", () => {
    for (const [across, balloon, spacing] of [
      [1, 0.25, 0.8],
      [0.6, 0.25, 1],
      [2, 0.3, 1.1],
    ] as const) {
      const places = spherePlacements(across, balloon, spacing);
      for (const distance of fromCentre(places)) expect(distance).toBeCloseTo((across - balloon) / 2, 9);
      expect(Math.min(...places.map(({ y }) => y))).toBeCloseTo(balloon / 2, 9);
      expect(places.every(({ radius }) => radius === balloon / 2)).toBe(true);
    }
  });

  it("puts the loose balloons of a cover where they touch what they rest on", () => {
    // On one balloon: half of 0.3 and 0.2 together. In the groove of two: 0.25^2 = 0.15^2 + 0.2^2.
    for (const distance of fromCentre(coverPlacements(1, 0.3, 0.2))) expect(distance).toBeCloseTo(0.25, 9);
    for (const distance of fromCentre(coverPlacements(2, 0.3, 0.2))) expect(distance).toBeCloseTo(0.2, 9);
  });

  it("goes from the bottom up, in rows as high as those of a hexagonal pattern", () => {
    for (const count of [12, 32, 75, 200]) {
      const places = ballPlacements(count, 0.25, 0.8);
      const lowest = places[0]?.y ?? NaN;
      places.forEach(({ y, row }, index) => {
        expect(y).toBeGreaterThanOrEqual(places[index - 1]?.y ?? 0);
        expect(Math.abs((y - lowest) / (0.1 * Math.sqrt(3)) - (row - 1))).toBeLessThan(0.5 + 1e-9);
      });
    }
  });

  it("dresses a dome from the top: the upper part of the whole ball", () => {
    const whole = spherePlacements(1, 0.25, 0.8);
    const dome = spherePlacements(1, 0.25, 0.8, 0.4);
    const upper = whole.slice(-dome.length);
    const lift = (upper[0]?.y ?? 0) - 0.125;
    expect(dome.length).toBeLessThan(whole.length / 2);
    expect(written(dome.map(({ x, y, z }) => [x, y, z]))).toEqual(
      written(upper.map(({ x, y, z }) => [x, y - lift, z])),
    );
    expect(dome[0]?.row).toBe(1);
  });

  it("shows one balloon as itself, two of a ball opposite each other", () => {
    expect(spherePlacements(0.25, 0.25)).toEqual([{ x: 0, y: 0.125, z: 0, radius: 0.125, row: 1 }]);
    // Three would need a circle of 2/sqrt 3 balloons through their centres.
    const [one, other, ...more] = spherePlacements(2.1 * 0.25, 0.25);
    if (one === undefined || other === undefined) throw new Error("a balloon is missing");
    expect(more).toEqual([]);
    const apart = Math.hypot(one.x - other.x, one.y - other.y, one.z - other.z);
    expect(apart / (1.1 * 0.25)).toBeGreaterThan(0.98);
  });
});

describe("drawing of a turned body", () => {
  it("puts the rings of a tube on one cylinder, counted from its base", () => {
    const tube = [
      { height: 2, radius: 0.5 },
      { height: 3, radius: 0.5 },
    ];
    const places = revolvedPlacements(tube, 0.25, 0.8);
    // Around: pi/asin(0.2/0.75) = 11.6 balloons; up: (1 - 0.25)/(0.1 sqrt 3) = 4.3 steps.
    expect(places).toHaveLength(5 * 12);
    places.forEach(({ x, y, z, row }, index) => {
      expect(Math.hypot(x, z)).toBeCloseTo(0.375, 9);
      expect(row).toBe(1 + Math.floor(index / 12));
      expect(y).toBeCloseTo(0.125 + (row - 1) * 0.1875, 9);
    });
    // Neighbours on a ring, a twelfth of a turn apart.
    expect(pairsAt(places, 0.75 * Math.sin(Math.PI / 12))).toBe(60);
  });

  it("puts a ring of one balloon on the axis", () => {
    const rod = [
      { height: 0, radius: 0.2 },
      { height: 1, radius: 0.2 },
    ];
    const places = revolvedPlacements(rod, 0.25);
    expect(places.length).toBeGreaterThan(1);
    for (const { x, z } of places) expect([x, z]).toEqual([0, 0]);
  });
});

describe("drawing of an outline", () => {
  const pitch = (0.25 * Math.sqrt(3)) / 2;

  it("fills a rectangle of four and three", () => {
    const [right, top] = [3 + 4 * 0.25, 5 + 0.25 + pitch];
    const places = outlinePlacements(
      [
        { x: 3, y: 5 },
        { x: right, y: 5 },
        { x: right, y: top },
        { x: 3, y: top },
      ],
      0.25,
    );
    expect(centres(places)).toEqual(
      written([
        ...[3.125, 3.375, 3.625, 3.875].map((x) => [x, 0.125, 0, 1]),
        ...[3.25, 3.5, 3.75].map((x) => [x, 0.125 + pitch, 0, 2]),
      ]),
    );
    expect(places.every(({ radius }) => radius === 0.125)).toBe(true);
  });

  it("counts rows from the first that has a balloon, a row's height apart", () => {
    // The tip is too thin for a balloon.
    const wedge = [
      { x: 0, y: -2 },
      { x: 0.9, y: 1 },
      { x: -0.9, y: 1 },
    ];
    const places = outlinePlacements(wedge, 0.25);
    expect(Math.min(...places.map(({ row }) => row))).toBe(1);
    const inRow = places.filter(({ row }) => row === places.at(-1)?.row);
    const [one, other] = [inRow[0], inRow.at(-1)];
    if (one === undefined || other === undefined || one === other) throw new Error("a row of one balloon");
    const length = Math.hypot(other.x - one.x, other.y - one.y);
    const height = ({ x, y }: Placement) => (y * (other.x - one.x) - x * (other.y - one.y)) / length;
    for (const place of places) {
      expect(height(place) - height(one)).toBeCloseTo((place.row - one.row) * pitch, 9);
    }
    // Half a balloon inside the lid, and inside both slanted sides, whose direction is 0.9 : 3.
    for (const { x, y } of places) {
      expect(y).toBeLessThan(3 - 0.125 + 1e-6);
      expect((0.9 * y - 3 * Math.abs(x)) / Math.hypot(0.9, 3)).toBeGreaterThan(0.125 - 1e-6);
    }
  });
});

describe("drawing of a ceiling", () => {
  it("keeps within the walls of the room and reaches them, in rows from the back", () => {
    for (const [length, width] of [
      [9, 6],
      [4, 7],
    ] as const) {
      const places = ceilingPlacements(length, width, 0.28);
      const [most, deepest] = [length / 2 - 0.14, width / 2 - 0.14];
      places.forEach(({ x, y, z, radius, row }, index) => {
        expect(Math.abs(x)).toBeLessThanOrEqual(most + 1e-9);
        expect(Math.abs(z)).toBeLessThanOrEqual(deepest + 1e-9);
        expect([y, radius]).toEqual([0.14, 0.14]);
        expect(z).toBeGreaterThanOrEqual(places[index - 1]?.z ?? -Infinity);
        const rows = (z + deepest) / 0.28;
        expect(rows).toBeGreaterThan(row - 1 - 1e-9);
        expect(rows).toBeLessThan(row + 1e-9);
      });
      // Loose balloons leave no gap of two along a wall's whole length.
      for (const [values, end] of [
        [places.map(({ x }) => x), most],
        [places.map(({ z }) => z), deepest],
      ] as const) {
        expect(Math.max(...values)).toBeGreaterThan(end - 0.28);
        expect(Math.min(...values)).toBeLessThan(0.28 - end);
      }
    }
  });

  it("spreads a thin one evenly: every quarter of the room has its share", () => {
    for (const covered of [0.1, 0.3, 0.6]) {
      const places = ceilingPlacements(8, 5, 0.28, covered);
      for (const isRight of [false, true]) {
        for (const isFront of [false, true]) {
          const quarter = places.filter(({ x, z }) => x > 0 === isRight && z > 0 === isFront);
          expect(Math.abs(quarter.length / places.length - 0.25)).toBeLessThan(0.05);
        }
      }
    }
  });

  it("lays a corridor narrower than a balloon in one row", () => {
    const places = ceilingPlacements(3, 0.2, 0.25);
    expect(places.length).toBe(ceilingCount(3, 0.2, 0.25));
    for (const { z, row } of places) expect([z, row]).toEqual([0, 1]);
  });
});

describe("drawing of a mix", () => {
  it("keeps within the ends of the body, from left to right, in rows of a thickness", () => {
    const places = mixPlacements(3, 0.55, ...mix);
    places.forEach(({ x, radius, row }, index) => {
      expect(Math.abs(x) + radius).toBeLessThan(1.5 + 1e-9);
      expect(x).toBeGreaterThanOrEqual(places[index - 1]?.x ?? -Infinity);
      expect(Math.abs((x + 1.5) / 0.55 - (row - 1))).toBeLessThan(0.5 + 1e-6);
    });
  });

  it("has as many of each size as planned, and the whole mix in every third", () => {
    const places = mixPlacements(3, 0.55, ...mix);
    for (const { size, balloons } of mixPlan(3, 0.55, ...mix)) {
      const alike = places.filter(({ radius }) => radius === size / 2);
      expect(alike).toHaveLength(balloons);
      for (const end of [-0.5, 0.5, 1.5]) {
        const here = alike.filter(({ x }) => x > end - 1 && x <= end).length;
        expect(Math.abs(here - balloons / 3)).toBeLessThan(2 + balloons / 10);
      }
    }
  });

  it("presses half of the neighbours by up to a tenth, the worst by two fifths", () => {
    const bodies = [
      mixPlacements(3, 0.55, ...mix),
      mixPlacements(2, 0.4, [0.13, 0.23], [2, 1]),
      mixPlacements(6, 0.6, [0.127, 0.28], [1, 1]),
    ];
    for (const body of bodies) {
      const pressed = body
        .flatMap((one, index) =>
          body.slice(index + 1).map((other) => {
            const apart = Math.hypot(one.x - other.x, one.y - other.y, one.z - other.z);
            return apart / (one.radius + other.radius);
          }),
        )
        .filter((ratio) => ratio < 1)
        .sort((one, other) => one - other);
      expect(pressed[0]).toBeGreaterThan(0.6);
      expect(pressed[Math.floor(pressed.length / 2)]).toBeGreaterThan(0.9);
    }
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
