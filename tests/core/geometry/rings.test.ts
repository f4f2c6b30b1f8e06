import { describe, expect, it } from "vitest";
import { sphereCount } from "../../../src/core/geometry/ball";
import { revolvedPlan } from "../../../src/core/geometry/revolved";
import { balloonsOf, fittedRings, ringsAt } from "../../../src/core/geometry/rings";

const INCH = 0.0254;
const ball = (radius: number): { readonly height: number; readonly radius: number }[] =>
  Array.from({ length: 61 }, (_, step) => ({
    height: radius - radius * Math.cos((Math.PI * step) / 60),
    radius: step === 0 || step === 60 ? 0 : radius * Math.sin((Math.PI * step) / 60),
  }));

/** A tube 1 m round its axis and 1 m high, as the line of the centres. */
const tube = [
  { from: { height: 0, radius: 0.5 }, to: { height: 1, radius: 0.5 }, length: 1, dr: 0, dh: 1 },
] as const;

describe("ringsAt", () => {
  it("fills a ring by the chord: 16 balloons of 0.2 m round 0.5 m (by hand: pi / asin 0.2 = 15.6)", () => {
    expect(ringsAt(tube, 0, 1, 4, 0.2).map(({ balloons, height }) => [balloons, height])).toEqual([
      [16, 0],
      [16, 0.25],
      [16, 0.5],
      [16, 0.75],
      [16, 1],
    ]);
    expect(ringsAt(tube, 0, 1, 0, 0.2)).toMatchObject([{ height: 0.5, balloons: 16 }]);
  });
});

describe("fittedRings", () => {
  it("takes nothing off a tube, which closes nowhere", () => {
    const rings = ringsAt(tube, 0, 1, 4, 0.2);
    const line = { meridian: tube, isClosed: [false, false], first: 0, last: 1, distance: 0.2 } as const;
    expect(fittedRings(line, rings)).toEqual(rings);
  });

  it("puts no more on a small ball than touch each other (best known packings: 2 at 180, 3 at 120, 4 at 109.5 degrees)", () => {
    for (const inches of [10, 11, 12, 16]) {
      for (let hundredths = 60; hundredths <= 120; hundredths += 1) {
        const best = sphereCount(hundredths / 100, inches * INCH);
        if (best > 15) continue;
        const plan = revolvedPlan(ball(hundredths / 200), inches * INCH);
        expect(Math.abs(balloonsOf(plan) - best), `${hundredths} cm of ${inches} in`).toBeLessThanOrEqual(2);
        expect(plan.every(({ balloons }) => balloons > 0)).toBe(true);
      }
    }
    // Centres 0.1603 m from the middle: three round the waist are 0.2776 m apart, a hair less than 11 in.
    expect(balloonsOf(revolvedPlan(ball(0.3), 11 * INCH))).toBe(3);
  });
});
