import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  ARCH_CURVES,
  archCount,
  archHeight,
  archLength,
  archPoints,
  catenaryShape,
} from "../../../src/core/geometry/arch";

const INCH = 0.0254;
const relative = (found: number, wanted: number) => Math.abs(found / wanted - 1);
const span = fc.double({ min: 0.1, max: 100, noNaN: true });
const curve = fc.constantFrom(...ARCH_CURVES);

/** Length of a curve by Simpson's rule over a parameter from 0 to 1, where the points move evenly enough. */
function measured(point: (t: number) => readonly [number, number]): number {
  let length = 0;
  let [x, y] = point(0);
  const steps = 200_000;
  for (let step = 1; step <= steps; step += 1) {
    const [a, b] = point(step / steps);
    length += Math.hypot(a - x, b - y);
    [x, y] = [a, b];
  }
  return length;
}

describe("ARCH_METRES", () => {
  // Parabola: 0.5 sqrt(L^2 + 16 h^2) + L^2/(8 h) asinh(4 h/L), CRC and Marks handbooks.
  it.each([
    [10, 2, 10.982300837717],
    [4, 1, 4.591174298785],
    [2, 1, 2.957885715089],
    [3, 2.4, 5.910102439458],
  ])("parabola %f x %f", (width, height, length) => {
    expect(relative(archLength(width, height, "parabola"), length)).toBeLessThan(1e-11);
  });

  // Classical catenary: s = a(cosh(L/2a) - 1), l = 2a sinh(L/2a).
  it.each([
    [10, 2, 6.5586258675, 10.9971820882],
    [6, 3, 1.8562776833, 8.975002195],
    [3, 0.3, 3.7989730812, 3.0785606044],
    [3, 2.4, 0.6871271231, 6.0193721236],
  ])("catenary %f x %f", (width, height, parameter, length) => {
    expect(relative(width / (2 * catenaryShape(width, height)), parameter)).toBeLessThan(1e-9);
    expect(relative(archLength(width, height, "catenary"), length)).toBeLessThan(1e-9);
  });

  it("half ellipse, from the circumferences 4 a E(e^2) of half axes 2 x 1, 3 x 2, 5 x 4", () => {
    expect(relative(archLength(4, 1), 9.688448220547675 / 2)).toBeLessThan(1e-12);
    expect(relative(archLength(4, 3), 15.86543958929059 / 2)).toBeLessThan(1e-12);
    expect(relative(archLength(8, 5), 28.36166788897449 / 2)).toBeLessThan(1e-12);
  });

  it("round: a half circle, a third of a circle, and more than half of one", () => {
    expect(relative(archLength(2, 1, "round"), Math.PI)).toBeLessThan(1e-12);
    const radius = 2;
    for (const half of [Math.PI / 3, Math.PI / 2, 2.5, 3]) {
      const width = 2 * radius * Math.sin(half);
      const height = radius * (1 - Math.cos(half));
      expect(relative(archLength(width, height, "round"), 2 * half * radius)).toBeLessThan(1e-9);
    }
  });

  it("square: two legs and a beam", () => {
    expect(archLength(3, 2.5, "square")).toBe(8);
  });

  it("agrees with a tape laid along the points of each curve", () => {
    const [width, height] = [5, 2.8];
    const u = catenaryShape(width, height);
    const a = width / (2 * u);
    const radius = (height ** 2 + (width / 2) ** 2) / (2 * height);
    const half = 2 * Math.atan((2 * height) / width);
    const points = {
      "half ellipse": (t: number) => [2.5 * Math.cos(Math.PI * t), height * Math.sin(Math.PI * t)],
      parabola: (t: number) => [width * t, 4 * height * t * (1 - t)],
      catenary: (t: number) => [width * t, a * (Math.cosh(u) - Math.cosh(2 * u * (t - 0.5)))],
      round: (t: number) => [radius * Math.sin(half * (2 * t - 1)), radius * Math.cos(half * (2 * t - 1))],
    } as const satisfies Record<string, (t: number) => readonly [number, number]>;
    for (const [name, point] of Object.entries(points)) {
      expect(relative(archLength(width, height, name as keyof typeof points), measured(point))).toBeLessThan(
        1e-9,
      );
    }
  });

  it("takes the centre line half a garland inside or outside what was measured", () => {
    expect(archLength(5, 2.8, "square", "inside", 0.5)).toBeCloseTo(archLength(5.5, 3.05, "square"), 12);
    expect(archLength(5, 2.8, "round", "outside", 0.5)).toBeCloseTo(archLength(4.5, 2.55, "round"), 12);
    // A low one: 4 - 0.5 along the beam, two legs of 0.3 - 0.25.
    expect(archLength(4, 0.3, "square", "outside", 0.5)).toBeCloseTo(3.6, 12);
    // A half circle's parallel curves are half circles again.
    expect(archLength(2, 1, "round", "inside", 0.4)).toBeCloseTo(1.2 * Math.PI, 12);
  });

  it("is never shorter than the straight line, nor longer than legs and beam unless it bulges out", () => {
    fc.assert(
      fc.property(span, span, curve, (width, height, kind) => {
        const length = archLength(width, height, kind);
        expect(length).toBeGreaterThanOrEqual(width);
        if (kind !== "round") expect(length).toBeLessThanOrEqual((width + 2 * height) * (1 + 1e-12));
        expect(relative(archLength(3 * width, 3 * height, kind), 3 * length)).toBeLessThan(1e-12);
        expect(archLength(width, height * 1.01, kind)).toBeGreaterThan(length);
      }),
    );
  });

  it("stays exact where the arch is almost a straight line or a needle", () => {
    for (const kind of ARCH_CURVES) {
      expect(relative(archLength(1000, 1e-6, kind), 1000)).toBeLessThan(1e-8);
      if (kind !== "round") expect(relative(archLength(1e-3, 1000, kind), 2000)).toBeLessThan(1e-5);
    }
  });

  it("refuses what is not an arch", () => {
    expect(() => archLength(0, 2)).toThrow("width must be more than 0 m, found 0");
    expect(() => archLength(3, 0)).toThrow("height must be more than 0 m, found 0");
    expect(() => archLength(0.4, 2, "round", "outside", 0.5)).toThrow(
      "width must be more than the garland's thickness of 0.5 m, found 0.4 m",
    );
    expect(() => archLength(4, 0.2, "round", "outside", 0.5)).toThrow(
      "height must be more than half the garland's thickness of 0.5 m, found 0.2 m",
    );
    // Nothing is left of the centre line.
    expect(() => archLength(0.5, 2, "square", "outside", 0.5)).toThrow(
      "width must be more than the garland's",
    );
    expect(() => archLength(4, 0.25, "square", "outside", 0.5)).toThrow("height must be more than half");
    expect(() => archLength(4, 2, "round", "inside")).toThrow("across must be more than 0 m");
    expect(() => archPoints(4, 2, "round", "inside")).toThrow("across must be more than 0 m");
  });
});

describe("COUNT_ARCH", () => {
  it("depends on where it was measured", () => {
    // Lengths by hand (Ramanujan's ellipse formula) over the pitch of 0.15378 m: 54.2, 59.1 and 49.2 clusters
    // of four.
    const arch = (where: "centre" | "inside" | "outside") =>
      archCount(5, 2.8, 9 * INCH, "half ellipse", 4, 0.8, where);
    expect([arch("centre"), arch("inside"), arch("outside")]).toEqual([220, 240, 200]);
  });

  it("never falls when the arch grows or the spacing shrinks", () => {
    const spacing = fc.double({ min: 0.6, max: 1.2, noNaN: true });
    fc.assert(
      fc.property(span, span, curve, spacing, spacing, (width, height, kind, s, t) => {
        const count = archCount(width, height, 0.25, kind, 4, Math.max(s, t));
        expect(archCount(width, height, 0.25, kind, 4, Math.min(s, t))).toBeGreaterThanOrEqual(count);
        expect(archCount(width, height * 1.2, 0.25, kind, 4, Math.max(s, t))).toBeGreaterThanOrEqual(count);
        expect(archCount(4 * width, 4 * height, 1, kind, 4, s)).toBe(
          archCount(width, height, 0.25, kind, 4, s),
        );
      }),
    );
  });
});

describe("ARCH_HEIGHT_METRES", () => {
  it("solves for the height", () => {
    // The half ellipse 3.6 x 2.967 m is 7.6 m long: Ramanujan's formula by hand.
    expect(archHeight(3.6, 7.6)).toBeCloseTo(2.967, 3);
    expect(archHeight(2, Math.PI, "round")).toBeCloseTo(1, 12);
    expect(archHeight(3, 8, "square")).toBeCloseTo(2.5, 12);
    for (const kind of ARCH_CURVES) expect(archHeight(3, 3, kind)).toBe(0);
    expect(catenaryShape(3, 0)).toBe(0);
  });

  it("undoes ARCH_METRES", () => {
    fc.assert(
      fc.property(span, fc.double({ min: 0.05, max: 20, noNaN: true }), curve, (width, ratio, kind) => {
        const height = width * ratio;
        expect(relative(archHeight(width, archLength(width, height, kind), kind), height)).toBeLessThan(1e-9);
      }),
    );
  });

  it("refuses a garland that does not reach", () => {
    expect(() => archHeight(3, 2.9)).toThrow(
      "length must be at least 3 m, the distance of the feet, found 2.9 m",
    );
  });
});
