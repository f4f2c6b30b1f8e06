import { describe, expect, it } from "vitest";
import { ballAcross } from "../../../src/core/geometry/ball";
import {
  ballPlacements,
  coverPlacements,
  dressedPlacements,
  spherePlacements,
} from "../../../src/core/geometry/ball-drawing";
import type { Placement } from "../../../src/core/geometry/drawing";
import { written } from "./drawing-checks";

/** Distances from the centre of a ball whose centre is on the axis, found from its lowest and highest balloon. */
function fromCentre(places: readonly Placement[]): readonly number[] {
  const [one, other] = [places[0], places.at(-1)];
  if (one === undefined || other === undefined) throw new Error("a ball has a first and a last balloon");
  const square = ({ x, y, z }: Placement) => x * x + y * y + z * z;
  const middle = (square(one) - square(other)) / (2 * (one.y - other.y));
  return places.map(({ x, y, z }) => Math.hypot(x, y - middle, z));
}

// Worked by hand for balloons of 0.25 m, 0.2 m from centre to centre.
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
});

describe("drawing of a counted ball", () => {
  it("spreads any number over the finished size, about the ball's centre", () => {
    for (const count of [1, 2, 7, 45, 90]) {
      const places = dressedPlacements(count, 1.1, 0.28);
      expect(places).toHaveLength(count);
      for (const { x, y, z } of places) expect(Math.hypot(x, y, z)).toBeCloseTo((1.1 - 0.28) / 2, 9);
    }
    const middle = dressedPlacements(45, 1.1, 0.28).reduce((sum, { y }) => sum + y, 0) / 45;
    expect(Math.abs(middle)).toBeLessThan(0.02);
  });

  it("dresses from the top down where it is not fully covered", () => {
    // Half of a sphere's area lies above its middle (Archimedes).
    const half = dressedPlacements(30, 1.1, 0.28, 0.5);
    expect(half).toHaveLength(30);
    expect(Math.min(...half.map(({ y }) => y))).toBeGreaterThan(-0.06);
  });

  it("keeps balloons as large as the ball in its middle", () => {
    expect(dressedPlacements(3, 0.2, 0.28).every(({ x, y, z }) => Math.hypot(x, y, z) === 0)).toBe(true);
  });
});
