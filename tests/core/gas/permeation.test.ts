import { describe, expect, it } from "vitest";
import { BARRER, permeationFlow, permeationSpeedup } from "../../../src/core/gas/permeation";

describe("permeation", () => {
  it("turns the textbook permeability into barrer", () => {
    // Cengel, Heat and Mass Transfer: 9.4e-13 kmol/(m s bar) for helium in rubber at 25 C is 28.09 barrer.
    expect((9.4e-13 * 1000) / 1e5 / BARRER).toBeCloseTo(28.09, 2);
  });

  it("is proportional to area and pressure, inverse to thickness", () => {
    const flow = permeationFlow(BARRER, 0.2, 1e-5, 1e5);
    expect(permeationFlow(BARRER, 0.4, 1e-5, 1e5) / flow).toBeCloseTo(2, 12);
    expect(permeationFlow(BARRER, 0.2, 2e-5, 1e5) / flow).toBeCloseTo(0.5, 12);
    expect(permeationFlow(BARRER, 0.2, 1e-5, 3e5) / flow).toBeCloseTo(3, 12);
  });

  it("follows Arrhenius' law", () => {
    // By hand: 27000/8.314463 = 3247.35; 1/293.15 - 1/301.15 = 9.0618e-5; exp(0.29427) = 1.3421.
    expect(permeationSpeedup(301.15, 293.15)).toBeCloseTo(1.3421, 3);
  });

  it("grows with heat and is 1 at the reference", () => {
    expect(permeationSpeedup(293.15, 293.15)).toBe(1);
    expect(permeationSpeedup(303.15, 293.15)).toBeGreaterThan(1.2);
    expect(permeationSpeedup(283.15, 293.15)).toBeLessThan(0.8);
  });
});
