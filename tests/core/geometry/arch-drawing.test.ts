import { describe, expect, it } from "vitest";
import { ARCH_CURVES, archLength, archPoints } from "../../../src/core/geometry/arch";
import { archPlacements } from "../../../src/core/geometry/arch-drawing";
import type { Placement } from "../../../src/core/geometry/drawing";
import { middles } from "./drawing-checks";

// Worked by hand for balloons of 0.25 m, 0.2 m from centre to centre.
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
