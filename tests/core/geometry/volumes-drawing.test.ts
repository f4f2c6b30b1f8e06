import { describe, expect, it } from "vitest";
import { mixPlan } from "../../../src/core/geometry/volumes";
import { bodyPlacements, mixPlacements } from "../../../src/core/geometry/volumes-drawing";

const mix = [
  [0.1143, 0.2286, 0.3556],
  [0.6, 0.3, 0.1],
] as const;

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

  it("keeps within its body", () => {
    for (const { y, z, radius } of mixPlacements(3, 0.55, ...mix)) {
      expect(Math.hypot(y - 0.275, z) + radius).toBeLessThan(0.275 + 1e-9);
    }
  });
});

describe("drawing of a counted body", () => {
  it("has each group's balloons within length and thickness, also more than fit", () => {
    for (const most of [10, 200]) {
      const groups = [
        { size: 0.3, balloons: 4 },
        { size: 0.12, balloons: most },
      ];
      const places = bodyPlacements(2, 0.4, groups);
      groups.forEach(({ size, balloons }, index) => {
        const own = places.filter(({ group }) => group === index);
        expect(own.map(({ radius }) => radius)).toEqual(Array.from({ length: balloons }, () => size / 2));
      });
      for (const { x, y, z, radius } of places) {
        expect(Math.abs(x) + radius).toBeLessThan(1 + 1e-9);
        expect(Math.hypot(y - 0.2, z) + radius).toBeLessThan(0.2 + 1e-9);
      }
    }
  });
});
