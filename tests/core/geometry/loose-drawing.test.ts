import { describe, expect, it } from "vitest";
import {
  bouquetPlacements,
  heapPlacements,
  ringPlacements,
  ringSize,
  type GroupedPlacement,
} from "../../../src/core/geometry/loose-drawing";

const TWO_SIZES = [
  { size: 0.28, balloons: 12 },
  { size: 0.13, balloons: 30 },
];

const deepest = (places: readonly GroupedPlacement[]): number => {
  let most = 0;
  places.forEach((one, index) => {
    for (const other of places.slice(index + 1)) {
      const apart = Math.hypot(one.x - other.x, one.y - other.y, one.z - other.z);
      most = Math.max(most, 1 - apart / (one.radius + other.radius));
    }
  });
  return most;
};

const numbers = (places: readonly GroupedPlacement[]): readonly number[] =>
  TWO_SIZES.map((_, index) => places.filter(({ group }) => group === index).length);

// 0.64 below: random close packing of equal balls, 0.6366 measured by Scott and Kilgour 1969, from memory.
describe("drawing of a heap", () => {
  const heap = heapPlacements(TWO_SIZES);

  it("has every balloon, standing on the base", () => {
    expect(numbers(heap)).toEqual([12, 30]);
    expect(Math.min(...heap.map(({ y, radius }) => y - radius))).toBeCloseTo(0, 9);
  });

  it("is about as large as its balloons at random close packing, and does not press them flat", () => {
    // Volume / 0.64 as a ball: (12 x 0.28^3 + 30 x 0.13^3) / 0.64 = 0.5146 m3 pi/6, across its cube root 0.802 m.
    const high = Math.max(...heap.map(({ y, radius }) => y + radius));
    expect(high).toBeGreaterThan(0.65);
    expect(high).toBeLessThan(1.1);
    expect(deepest(heap)).toBeLessThan(0.45);
  });

  it("draws one and none", () => {
    expect(heapPlacements([{ size: 0.3, balloons: 1 }])).toEqual([
      expect.objectContaining({ x: 0, y: 0.15, z: 0, radius: 0.15 }),
    ]);
    expect(heapPlacements([])).toEqual([]);
  });
});

describe("drawing of a ring", () => {
  it("lies on the base inside its width, round its middle", () => {
    const ring = ringPlacements(TWO_SIZES, { across: 1.2, thickness: 0.32 });
    expect(numbers(ring)).toEqual([12, 30]);
    for (const { x, y, z, radius } of ring) {
      expect(Math.hypot(x, z) + radius).toBeLessThan(0.6 + 1e-9);
      // The hole: the ring's body ends 0.6 - 0.32 from the middle.
      expect(Math.hypot(x, z) - radius).toBeGreaterThan(0.28 - 1e-9);
      expect(y - radius).toBeGreaterThan(-1e-9);
      expect(y + radius).toBeLessThan(0.32 + 1e-9);
    }
    for (const turn of [0, 1, 2, 3]) {
      const quarter = ring.filter(
        ({ x, z }) => Math.floor((Math.atan2(z, x) / Math.PI + 1) * 2) % 4 === turn,
      );
      expect(quarter.length).toBeGreaterThan(5);
    }
  });

  it("has a size of its own for balloons without one", () => {
    // 18 of 4 in, a body two thick: 18 x (2/3) 0.1016^3 / 0.64 / 0.1016^2 / 4 = 0.476 m round, less than its body needs.
    const { across, thickness } = ringSize([{ size: 0.1016, balloons: 18 }]);
    expect(thickness).toBeCloseTo(0.2032, 9);
    expect(across).toBeCloseTo(0.4064, 9);
    // 100 of them: 100 x (pi/6) d^3 / 0.64 / (pi d^2) = 26.04 d = 2.6458 m round, 0.8422 m across the middle.
    expect(ringSize([{ size: 0.1016, balloons: 100 }]).across).toBeCloseTo(0.8422 + 0.2032, 3);
  });
});

describe("drawing of a bouquet", () => {
  it("has each balloon's neck at the end of its ribbon, none inside another", () => {
    const groups = [
      { size: 0.28, balloons: 5, ribbon: 1.2 },
      { size: 0.35, balloons: 1, ribbon: 1.5 },
    ];
    const bouquet = bouquetPlacements(groups);
    expect(bouquet).toHaveLength(6);
    for (const { x, y, z, radius, group } of bouquet)
      expect(Math.hypot(x, y, z) - radius).toBeCloseTo(groups[group]?.ribbon ?? 0, 9);
    expect(deepest(bouquet)).toBeLessThan(0.02);
    // Nearest to upright: five in a ring of touching neighbours are 0.28 / (2 sin 36) = 0.238 m off the middle at most.
    for (const { x, z } of bouquet) expect(Math.hypot(x, z)).toBeLessThan(0.36);
  });

  it("keeps balloons without ribbon on their gathering point", () => {
    expect(bouquetPlacements([{ size: 0.6, balloons: 1, ribbon: 0 }])).toEqual([
      expect.objectContaining({ x: 0, y: 0.3, z: 0 }),
    ]);
  });
});
