import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { anchorMass, slidingMass, tippingMass } from "../../../src/core/care/anchor";
import { WIND_FORMS, windDrag } from "../../../src/core/care/wind";

const lengths = fc.double({ min: 0.1, max: 10, noNaN: true });
const gusts = fc.double({ min: 0.1, max: 9.9, noNaN: true });
const forms = fc.constantFrom(...WIND_FORMS);

describe("anchor", () => {
  // Worked by hand: q = 40 Pa, F = 38.4 N, M = 38.4 N m.
  it("reproduces the overturning example: 2.0 x 0.4 m, 8 m/s, base 0.5 m, no safety factor: 15.66 kg", () => {
    expect(anchorMass(0.4, 2, 0.5, 8, "column", 1)).toBeCloseTo(15.66, 2);
  });

  it("has a safety factor of 1.5 (common practice, no source)", () => {
    expect(anchorMass(0.4, 2, 0.5, 8) / anchorMass(0.4, 2, 0.5, 8, "column", 1)).toBeCloseTo(1.5, 12);
  });

  it("slides before it tips on a wide base", () => {
    const push = windDrag(0.4, 2, 8);
    expect(anchorMass(0.4, 2, 5, 8, "column", 1)).toBe(slidingMass(push));
    expect(slidingMass(push)).toBeGreaterThan(tippingMass(push, 1, 5));
  });

  it("balances moments and friction", () => {
    fc.assert(
      fc.property(lengths, lengths, lengths, gusts, forms, (width, height, base, gust, form) => {
        const weight = anchorMass(width, height, base, gust, form, 1) * 9.80665;
        const push = windDrag(width, height, gust, form);
        const lever = (form === "arch" ? 2 / Math.PI : 0.5) * height;
        expect((weight * base) / 2).toBeGreaterThanOrEqual(push * lever * (1 - 1e-12));
        expect(weight * 0.4).toBeGreaterThanOrEqual(push * (1 - 1e-12));
        const tight = Math.min((weight * base) / 2 / (push * lever), (weight * 0.4) / push);
        expect(tight).toBeCloseTo(1, 9);
      }),
    );
  });

  it("grows with gust, height, safety and lift, and falls with a wider base", () => {
    fc.assert(
      fc.property(lengths, lengths, lengths, gusts, forms, (width, height, base, gust, form) => {
        const mass = anchorMass(width, height, base, gust, form);
        expect(anchorMass(width, height, base, gust * 1.005, form)).toBeGreaterThan(mass);
        expect(anchorMass(width, height, base, gust, form, 1.6)).toBeGreaterThan(mass);
        expect(anchorMass(width, height * 1.01, base, gust, form)).toBeGreaterThan(mass);
        expect(anchorMass(width, height, base * 1.01, gust, form)).toBeLessThanOrEqual(mass);
        expect(anchorMass(width, height, base, gust, form, 1.5, 0.2) - mass).toBeCloseTo(0.3, 9);
      }),
    );
  });

  it("answers #N/A above the take-down gust", () => {
    expect(anchorMass(0.4, 2, 0.5, 10)).toBeGreaterThan(0);
    expect(() => anchorMass(0.4, 2, 0.5, 10.01)).toThrow(
      expect.objectContaining({ code: "#N/A", message: expect.stringMatching(/^do not put up/) }),
    );
  });

  it("refuses a base of no width", () => {
    expect(() => anchorMass(0.4, 2, 0, 5)).toThrow("base_across must be above 0 m, found 0");
  });
});
