import { describe, expect, it } from "vitest";
import { SIZING_USES, sizedDiameter } from "../../../src/core/geometry/sizing";

const INCH = 0.0254;

describe("SIZED_INCHES", () => {
  it("gives the sizes of a template in half inches", () => {
    // Common practice, no source: 11 in is sized to 9 in in clusters and filled up with helium.
    expect(sizedDiameter(11 * INCH) / INCH).toBeCloseTo(9, 9);
    expect(sizedDiameter(5 * INCH) / INCH).toBeCloseTo(4, 9);
    expect(sizedDiameter(11 * INCH, "helium") / INCH).toBeCloseTo(11, 9);
    expect(sizedDiameter(11 * INCH, "outdoors") / INCH).toBeCloseTo(9, 9);
    expect(sizedDiameter(16 * INCH, "free-form") / INCH).toBeCloseTo(13, 9);
    expect(sizedDiameter(0.001)).toBeCloseTo(INCH / 2, 12);
    expect(SIZING_USES).toContain("clusters");
    expect(() => sizedDiameter(0)).toThrow("printed must be more than 0 m, found 0");
  });
});
