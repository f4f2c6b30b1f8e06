import { describe, expect, it } from "vitest";
import { areaBetween, bendsOf, lostAt, type Side } from "../../../src/core/geometry/closing";
import { sphereCount } from "../../../src/core/geometry/ball";

const sidesOf = (points: readonly (readonly [height: number, radius: number])[]): readonly Side[] =>
  points.slice(1).map(([height, radius], index) => {
    const [h, r] = points[index] ?? [0, 0];
    const length = Math.hypot(height - h, radius - r);
    return {
      from: { height: h, radius: r },
      to: { height, radius },
      length,
      dr: (radius - r) / length,
      dh: (height - h) / length,
    };
  });
const ball = (radius: number) =>
  sidesOf(
    Array.from({ length: 201 }, (_, step) => {
      const angle = (Math.PI * step) / 200;
      return [-radius * Math.cos(angle), radius * Math.sin(angle)] as const;
    }),
  );
const curvature = (sides: readonly Side[], closed: readonly [boolean, boolean]) =>
  bendsOf(sides, closed).reduce((total, { share }) => total + share, 0);

describe("closing a body", () => {
  it("gathers all of a ball's curvature on any closed convex body (Gauss and Bonnet)", () => {
    expect(curvature(ball(1), [true, true])).toBeCloseTo(1, 12);
    const cone = sidesOf([
      [0, 0],
      [0, 1],
      [2, 0],
    ]);
    expect(curvature(cone, [true, true])).toBeCloseTo(1, 12);
    expect(curvature(ball(1).slice(0, 100), [true, false])).toBeCloseTo(0.5, 2);
    const tube = sidesOf([
      [0, 1],
      [3, 1],
    ]);
    expect(curvature(tube, [false, false])).toBe(0);
    expect(bendsOf([], [true, true])).toEqual([]);
  });

  it("sweeps the areas of ball, tube and cone", () => {
    expect(areaBetween(ball(1), 0, 10)).toBeCloseTo(4 * Math.PI, 2);
    const cone = sidesOf([
      [0, 0],
      [3, 4],
    ]);
    expect(areaBetween(cone, 0, 5)).toBeCloseTo(Math.PI * 4 * 5, 9);
    expect(areaBetween(cone, 0, 2.5)).toBeCloseTo((Math.PI * 4 * 5) / 4, 9);
  });

  it("loses on a ball what the best known packings lose against the flat pattern", () => {
    // Ball of 2 m of 5 in: 757 by COUNT_SPHERE; 8 pi/sqrt 3 (0.9365/0.127)^2 = 789.
    const distance = 0.127;
    const radius = 1 - distance / 2;
    const flat = ((8 * Math.PI) / Math.sqrt(3)) * (radius / distance) ** 2;
    const lost = lostAt(bendsOf(ball(radius), [true, true]), 1, distance);
    expect(Math.abs(flat - lost - sphereCount(2, distance))).toBeLessThan(1.5);
    expect(lostAt([{ radius: 0, share: 0.3 }], 0.3, distance)).toBe(0);
  });
});
