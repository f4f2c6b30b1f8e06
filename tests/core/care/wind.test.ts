import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { WIND_FORMS, velocityPressure, windDrag, windExposure } from "../../../src/core/care/wind";

const lengths = fc.double({ min: 0.1, max: 20, noNaN: true });
const speeds = fc.double({ min: 0.1, max: 30, noNaN: true });
const forms = fc.constantFrom(...WIND_FORMS);

describe("wind", () => {
  it("takes a column no lighter than any cylinder of the published table", () => {
    // Matthews, Aeronautical Engineer's Data Book, fig. 5.13: l/d = 2, 5, 10, 40, endless.
    for (const published of [0.68, 0.74, 0.82, 0.98, 1.2])
      expect(windExposure(0.4, 2, "column").coefficient).toBeGreaterThanOrEqual(published);
  });

  // 1.17 by Matthews, fig. 5.13; 2.0 by Hoerner, from memory.
  it("takes a wall from a square plate to at most an endless one", () => {
    expect(windExposure(2, 1, "wall").coefficient).toBeCloseTo(1.17, 12);
    // White, Fluid Mechanics, table 7.3, from memory: 1.2 at 5, 1.3 at 10, 1.5 at 20.
    expect(windExposure(10, 1, "wall").coefficient).toBeCloseTo(1.2, 12);
    expect(windExposure(1, 5, "wall").coefficient).toBeCloseTo(1.3, 12);
    expect(windExposure(40, 1, "wall").coefficient).toBeCloseTo(1.5, 12);
    expect(windExposure(1000, 0.01, "wall").coefficient).toBe(2);
  });

  it("reads forms in any case and refuses others by name", () => {
    expect(windDrag(1, 2, 5, " Wall ")).toBe(windDrag(1, 2, 5, "wall"));
    expect(() => windDrag(1, 2, 5, "tree")).toThrow(
      'form must be one of column, wall, ball, arch, found "tree"',
    );
  });

  it("refuses a piece of no size", () => {
    expect(() => windDrag(0, 2, 5)).toThrow("width must be above 0 m, found 0");
    expect(() => windDrag(1, 0, 5)).toThrow("height must be above 0 m, found 0");
  });

  it("is nothing in still air and four times as much in twice the wind", () => {
    expect(windDrag(1, 2, 0)).toBe(0);
    fc.assert(
      fc.property(lengths, lengths, speeds, forms, (width, height, speed, form) => {
        const drag = windDrag(width, height, speed, form);
        expect(windDrag(width, height, 2 * speed, form) / drag).toBeCloseTo(4, 9);
        expect(windDrag(width * 1.01, height * 1.01, speed, form)).toBeGreaterThan(drag);
        expect(drag).toBeLessThanOrEqual(2 * velocityPressure(speed) * width * height * (1 + 1e-12));
      }),
    );
  });
});
