import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sphereCount } from "../../../src/core/geometry/ball";
import { wallCount } from "../../../src/core/geometry/flat";
import { revolvedCount, revolvedPlan } from "../../../src/core/geometry/revolved";
import type { ProfilePoint } from "../../../src/core/geometry/revolved";

const INCH = 0.0254;

const sphere = (radius: number, sides = 100): readonly ProfilePoint[] =>
  Array.from({ length: sides + 1 }, (_, index) => ({
    height: radius - radius * Math.cos((Math.PI * index) / sides),
    radius: index === 0 || index === sides ? 0 : radius * Math.sin((Math.PI * index) / sides),
  }));

const cylinder = (radius: number, height: number): readonly ProfilePoint[] => [
  { height: 0, radius },
  { height, radius },
];

const vase: readonly ProfilePoint[] = [
  { height: 0, radius: 0.3 },
  { height: 0.6, radius: 0.5 },
  { height: 1.2, radius: 0.25 },
  { height: 1.5, radius: 0.4 },
];

describe("COUNT_REVOLVED", () => {
  it("agrees with COUNT_SPHERE on balls, within one row at the equator", () => {
    for (const radius of [0.4, 0.5, 0.7, 1, 2, 5]) {
      for (const spacing of [0.7, 0.8, 1]) {
        const row = (2 * Math.PI * (radius - 0.125)) / (spacing * 0.25);
        const off = revolvedCount(sphere(radius), 0.25, spacing) - sphereCount(2 * radius, 0.25, spacing);
        expect(Math.abs(off)).toBeLessThanOrEqual(Math.ceil(row));
      }
    }
  });

  it("agrees with COUNT_WALL on tubes, unrolled, within one row and one column", () => {
    for (const radius of [0.5, 0.8, 1.5]) {
      for (const height of [0.6, 1, 2.5]) {
        const [d, s] = [0.25, 0.8];
        // A wall has a balloon's end at both sides, a ring has none.
        const around = 2 * Math.PI * (radius - d / 2);
        const wall = wallCount(around + d - s * d, height, d, "staggered", s);
        const rows = revolvedPlan(cylinder(radius, height), d, s).length;
        const most = around / (s * d) + rows;
        expect(Math.abs(revolvedCount(cylinder(radius, height), d, s) - wall)).toBeLessThanOrEqual(most);
      }
    }
  });

  it("makes an icosahedron of twelve touching balloons", () => {
    // Circumscribed radius of the icosahedron with edge d, and half a balloon to the finished outline.
    const radius = 0.25 * (Math.sqrt(10 + 2 * Math.sqrt(5)) / 4 + 0.5);
    expect(revolvedPlan(sphere(radius), 0.25).map((ring) => ring.balloons)).toEqual([1, 5, 5, 1]);
  });

  it("covers by area: the surface that the centres lie on over the hexagonal cell, for large bodies", () => {
    // Cone of half angle 45 degrees moved in by half a balloon: its slant loses d/2 at the rim and the tip
    // moves down by d/2 sqrt 2.
    const [d, radius] = [0.1, 5];
    const slant = radius * Math.SQRT2 - d / 2 - d / 2;
    const [rim, cell] = [slant / Math.SQRT2, (Math.sqrt(3) / 2) * d * d];
    const cone = [
      { height: 0, radius },
      { height: radius, radius: 0 },
    ];
    expect(revolvedCount(cone, d) / ((Math.PI * rim * slant) / cell)).toBeCloseTo(1, 1);
  });

  it("never falls when the body grows or the spacing shrinks", () => {
    const point = fc.record({
      rise: fc.double({ min: 0.05, max: 1, noNaN: true }),
      radius: fc.double({ min: 0.2, max: 1.2, noNaN: true }),
    });
    // A body with no room for a balloon is refused: none fit.
    const fitting = (profile: readonly ProfilePoint[], balloon: number, apart: number): number => {
      try {
        return revolvedCount(profile, balloon, apart);
      } catch (error) {
        expect(String(error)).toContain("balloon must fit into the body");
        return 0;
      }
    };
    const spacing = fc.double({ min: 0.6, max: 1.2, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(point, { minLength: 2, maxLength: 6 }),
        fc.boolean(),
        fc.double({ min: 1, max: 1.5, noNaN: true }),
        spacing,
        spacing,
        (points, isClosed, times, s, t) => {
          let height = 0;
          const profile = points.map(({ rise, radius }) => ({ height: (height += rise), radius }));
          if (isClosed) profile.unshift({ height: -0.1, radius: 0 });
          const grown = profile.map((one) => ({ height: one.height * times, radius: one.radius * times }));
          // A body that a balloon fits into exactly may be refused by a hair.
          fc.pre(profile.every((one) => one.radius === 0 || one.radius > 0.25) && height > 0.5);
          const count = fitting(profile, 0.2, Math.max(s, t));
          expect(fitting(grown, 0.2, Math.max(s, t))).toBeGreaterThanOrEqual(count);
          expect(fitting(profile, 0.2, Math.min(s, t))).toBeGreaterThanOrEqual(count);
          const doubled = profile.map((one) => ({ height: one.height * 2, radius: one.radius * 2 }));
          expect(fitting(doubled, 0.4, s)).toBe(fitting(profile, 0.2, s));
        },
      ),
      { numRuns: 300 },
    );
  });

  it("refuses bad profiles by row", () => {
    const at = (...rows: readonly (readonly [number, number])[]) =>
      rows.map(([height, radius]) => ({ height, radius }));
    const count = (...rows: readonly (readonly [number, number])[]) => revolvedCount(at(...rows), 0.1);
    expect(() => count([0, 1])).toThrow("profile must have from 2 to 500 rows, found 1");
    expect(() => count([0, 0.5], [1, 0.5], [0.5, 0.5])).toThrow(
      "profile row 3: height must be at least 1 m, the row before, found 0.5 m",
    );
    expect(() => count([0, 0.5], [0, 0.5])).toThrow("profile row 2 must differ from the row before");
    expect(() => count([0, 0.5], [1, -0.5])).toThrow(
      "profile row 2: radius must be from 0 to 1000 m, found -0.5",
    );
    expect(() => count([0, 0.5], [NaN, 0.5])).toThrow("profile row 2: height must be a length up to 1000 m");
    expect(() => count([0, 0], [1, 0])).toThrow(
      "profile row 2: radius must be above 0 next to a row on the axis",
    );
    expect(() => count([0, 0.2], [0, 0.6], [0, 0.4])).toThrow("profile row 3: radius must not turn back");
    expect(() => count([0, 0.02], [1, 0.02])).toThrow("balloon must fit into the body, found 0.1 m");
    expect(() => revolvedCount(cylinder(100, 900), 0.001)).toThrow("rings is beyond this function");
  });

  it("takes flat lids and overhanging caps", () => {
    const mushroom = [
      { height: 0, radius: 0.2 },
      { height: 0.6, radius: 0.2 },
      { height: 0.6, radius: 0.6 },
      { height: 1, radius: 0 },
    ];
    const rings = revolvedPlan(mushroom, 5 * INCH, 0.8);
    // The rim is too sharp for a balloon: no centre comes nearer than half a balloon to the underside or the
    // cap.
    for (const { height, ringDiameter } of rings.filter((ring) => ring.ringDiameter > 0.42)) {
      expect(height).toBeGreaterThanOrEqual(0.6 + 2.5 * INCH - 1e-9);
      expect(
        (0.6 - 0.4 * (ringDiameter / 2) - 0.6 * (height - 0.6) - 0.36) / Math.hypot(0.4, 0.6),
      ).toBeGreaterThan(2.5 * INCH - 1e-2);
    }
    expect(rings.at(-1)).toMatchObject({ ringDiameter: 0, balloons: 1 });
  });
});

describe("REVOLVED_PLAN", () => {
  it("adds up to the count, keeps half a balloon inside, and is numbered from the base", () => {
    const plan = revolvedPlan(vase, 0.127, 0.9);
    expect(plan.reduce((sum, ring) => sum + ring.balloons, 0)).toBe(revolvedCount(vase, 0.127, 0.9));
    expect(plan.map((ring) => ring.row)).toEqual(plan.map((_, index) => index + 1));
    for (const { height, ringDiameter } of plan) {
      const nearest = vase.slice(1).map((to, index) => {
        const from = vase[index] ?? to;
        const [dr, dh] = [to.radius - from.radius, to.height - from.height];
        const share =
          ((ringDiameter / 2 - from.radius) * dr + (height - from.height) * dh) / (dr * dr + dh * dh);
        const at = Math.max(0, Math.min(1, share));
        return Math.hypot(ringDiameter / 2 - from.radius - at * dr, height - from.height - at * dh);
      });
      expect(Math.min(...nearest)).toBeGreaterThan(0.127 / 2 - 1e-6);
      expect(Math.min(...nearest)).toBeLessThan(0.127 / 2 + 2e-3);
    }
  });
});
