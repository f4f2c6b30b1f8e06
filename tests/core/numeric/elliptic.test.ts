import cephes from "cephes";
import geodesic from "geographiclib-geodesic";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ellipseCircumference, ellipticE, ellipticK } from "../../../src/core/numeric/elliptic";

// Abramowitz & Stegun, Table 17.1.
const TABLE = [
  [0, 1.5707963267948966, 1.5707963267948966],
  [0.2, 1.659623598610528, 1.489035058095853],
  [0.3, 1.713889448178791, 1.4453630644126652],
  [0.5, 1.8540746773013719, 1.3506438810476755],
  [0.9, 2.5780921133481733, 1.1047747327040733],
  [0.99, 3.6956373629898747, 1.015993545025224],
] as const;

const relative = (found: number, wanted: number) => Math.abs(found / wanted - 1);

describe("complete elliptic integrals", () => {
  it.each(TABLE)("match Abramowitz & Stegun at m = %f", (m, k, e) => {
    expect(relative(ellipticK(m), k)).toBeLessThan(1e-14);
    expect(relative(ellipticE(m), e)).toBeLessThan(1e-14);
  });

  it("match the Cephes library everywhere", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 0.999999, noNaN: true }), (m) => {
        // Cephes takes the complementary parameter for both.
        expect(relative(ellipticK(m), cephes.ellpk(1 - m))).toBeLessThan(1e-12);
        expect(relative(ellipticE(m), cephes.ellpe(1 - m))).toBeLessThan(1e-12);
      }),
    );
  });

  it("ends at 1 for the second kind, which A&S 17.3.29 gives", () => {
    expect(ellipticE(1)).toBe(1);
  });

  it("refuse parameters without a real value", () => {
    for (const m of [-0.1, 1, NaN]) expect(() => ellipticK(m)).toThrow(RangeError);
    for (const m of [-0.1, 1.1, NaN]) expect(() => ellipticE(m)).toThrow(RangeError);
  });
});

describe("circumference of an ellipse", () => {
  // 4 a E(e^2), values computed with arbitrary-precision quadrature.
  it.each([
    [2, 1, 9.688448220547675],
    [5, 4, 28.36166788897449],
    [3, 2, 15.86543958929059],
    [1, 0.1, 4.063974180100896],
  ])("of half axes %f and %f", (a, b, length) => {
    expect(relative(ellipseCircumference(a, b), length)).toBeLessThan(1e-13);
    expect(ellipseCircumference(b, a)).toBe(ellipseCircumference(a, b));
  });

  it("is four quarter meridians of GeographicLib", () => {
    const earth = new geodesic.Geodesic.Geodesic(6378137, 1 / 298.257223563);
    const quarter = earth.Inverse(0, 0, 90, 0).s12 ?? 0;
    expect(
      relative(ellipseCircumference(6378137, 6378137 * (1 - 1 / 298.257223563)), 4 * quarter),
    ).toBeLessThan(1e-12);
  });

  it("grows in step with the axes", () => {
    const axis = fc.double({ min: 0.001, max: 1000, noNaN: true });
    fc.assert(
      fc.property(axis, axis, fc.integer({ min: -20, max: 20 }), (a, b, power) => {
        const scale = 2 ** power;
        expect(ellipseCircumference(a * scale, b * scale)).toBe(scale * ellipseCircumference(a, b));
        expect(ellipseCircumference(b, a)).toBe(ellipseCircumference(a, b));
      }),
    );
  });

  it("is a circle's, and twice there and back where it is flat", () => {
    expect(ellipseCircumference(1, 1)).toBeCloseTo(2 * Math.PI, 14);
    expect(ellipseCircumference(3, 0)).toBe(12);
    expect(ellipseCircumference(0, 0)).toBe(0);
    expect(relative(ellipseCircumference(1, 1e-8), 4)).toBeLessThan(1e-14);
    // E - 1 is some 3e-23 here (Abramowitz & Stegun 17.3.12 near m = 1), less than the last bit.
    expect(ellipseCircumference(3, 3e-12)).toBe(12);
  });
});
