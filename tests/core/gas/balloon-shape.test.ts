import { describe, expect, it } from "vitest";
import { elongation, latexArea, latexVolume } from "../../../src/core/gas/balloon-shape";
import { toSi } from "../../../src/core/units";

/** Volume and area of the ellipsoid by summing thin slices along its length. */
function sliced(across: number): { volume: number; area: number } {
  const steps = 20000;
  const long = (elongation(across) * across) / 2;
  const radius = (turn: number) => (across / 2) * Math.sin(turn);
  let volume = 0;
  let area = 0;
  for (let step = 0; step < steps; step++) {
    const from = (Math.PI * step) / steps;
    const to = (Math.PI * (step + 1)) / steps;
    const rise = long * (Math.cos(from) - Math.cos(to));
    const middle = radius((from + to) / 2);
    volume += Math.PI * middle ** 2 * rise;
    area += 2 * Math.PI * middle * Math.hypot(rise, radius(to) - radius(from));
  }
  return { volume, area };
}

describe("round latex shape", () => {
  // Common practice, no source: full elongation to 12 in, a ball from 24 in.
  it.each([
    [5, 1.2],
    [12, 1.2],
    [18, 1.1],
    [24, 1],
    [36, 1],
  ])("%d in is %d times as long as wide", (inches, ratio) => {
    expect(elongation(toSi(inches, "in"))).toBeCloseTo(ratio, 12);
  });

  it("agrees with a brute-force sum over slices", () => {
    for (const inches of [5, 11, 16, 23.999, 24, 36]) {
      const across = toSi(inches, "in");
      const { volume, area } = sliced(across);
      expect(latexVolume(across) / volume).toBeCloseTo(1, 6);
      expect(latexArea(across) / area).toBeCloseTo(1, 6);
    }
  });

  it("grows with size", () => {
    const volumes = Array.from({ length: 120 }, (_, index) => latexVolume(toSi(index + 1, "in")));
    expect(volumes).toEqual(volumes.toSorted((a, b) => a - b));
  });
});
