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

  it("takes a wall that is not wider than high, or hangs free, as a signboard: 1.8 (EN 1991-1-4, 7.4.3)", () => {
    expect(windExposure(1, 1, "wall").coefficient).toBe(1.8);
    expect(windExposure(1, 5, "wall").coefficient).toBe(1.8);
    // 4 x 2 m with 0.6 m, more than a quarter of its height, free below it.
    expect(windExposure(4, 2, "wall", undefined, 1.6).coefficient).toBe(1.8);
    expect(windExposure(4, 2, "wall", undefined, 1.4).coefficient).toBeLessThan(1.8);
  });

  // EN 1991-1-4, 7.4.1, table 7.9, from memory; means over the zones by hand.
  it.each([
    [2, 1, (0.3 * 2.3 + 1.7 * 1.4) / 2],
    [3, 1, (0.3 * 2.3 + 1.7 * 1.4 + 1.2) / 3],
    [5, 1, (0.3 * 2.9 + 1.7 * 1.8 + 2 * 1.4 + 1.2) / 5],
    [10, 1, (0.3 * 3.4 + 1.7 * 2.1 + 2 * 1.7 + 6 * 1.2) / 10],
    [40, 2, (0.3 * 3.4 + 1.7 * 2.1 + 2 * 1.7 + 16 * 1.2) / 20],
  ])("takes a wall %d x %d m by its zones", (width, height, mean) => {
    expect(windExposure(width, height, "wall").coefficient).toBeCloseTo(mean, 12);
  });

  it("keeps walls from 1.2 to above 2, as the standard does", () => {
    fc.assert(
      fc.property(lengths, lengths, (width, height) => {
        const { coefficient } = windExposure(width, height, "wall");
        expect(coefficient).toBeGreaterThan(1.2);
        expect(coefficient).toBeLessThan(2.1);
      }),
    );
  });

  it("takes an arch as its length x thickness, with the pull at the middle of its line", () => {
    // Half a circle of 2 m radius: length 2 pi m, middle at 2/pi of the radius (Pappus).
    const half = windExposure(4, 2, "arch", 0.3);
    expect(half.area).toBeCloseTo(2 * Math.PI * 0.3, 9);
    expect(half.centre).toBeCloseTo(4 / Math.PI, 5);
    // 9 in balloons in fours: 0.8 x 9/sin 45 + 9 = 19.18 in.
    expect(windExposure(4, 2, "arch").area).toBeCloseTo(2 * Math.PI * 19.182 * 0.0254, 3);
  });

  it("adds up pole and ball by moments", () => {
    // Ball of 1 m on a pole of 1.5 x 0.05 m, by hand: drag areas 0.47 x 0.785 = 0.3691 at 2 m, 1.2 x 0.075 = 0.09 at 0.75 m.
    const { area, coefficient, centre } = windExposure(1, 2.5, "pole and ball");
    expect(area * coefficient).toBeCloseTo(0.3691 + 0.09, 4);
    expect(centre).toBeCloseTo((0.3691 * 2 + 0.09 * 0.75) / 0.4591, 3);
    expect(windExposure(1, 1, "pole and ball").centre).toBe(0.5);
    expect(windExposure(1, 1, "pole and ball").coefficient).toBeCloseTo(0.64, 12);
    expect(windExposure(1, 1, "pole and ball").lift).toBeCloseTo(0.6, 12);
    expect(windExposure(1, 2.5, "pole and ball", 0.1).area).toBeGreaterThan(area);
    expect(() => windExposure(1, 0.9, "pole and ball")).toThrow(
      "height must be at least the ball's 1 m, pole and ball together, found 0.9 m",
    );
  });

  it("pushes a ball 1.6 times as hard and lifts it within half its size of the ground (EN 1991-1-4, 7.9.3, from memory)", () => {
    expect(windExposure(1, 1, "ball")).toMatchObject({ coefficient: 1.6 * 0.4, lift: 0.6 });
    expect(windExposure(1, 1, "ball", undefined, 1)).toMatchObject({ coefficient: 1.6 * 0.4, lift: 0.6 });
    expect(windExposure(1, 1, "ball", undefined, 2)).toMatchObject({ coefficient: 0.47, lift: 0 });
    const { coefficient } = windExposure(1, 1, "ball", undefined, 1.3);
    expect(coefficient).toBeGreaterThan(0.47);
    expect(coefficient).toBeLessThan(0.64);
  });

  it("never pushes less on a wider or a higher wall", () => {
    for (let width = 0.5; width < 25; width += 0.05) {
      expect(windDrag(width + 0.05, 2, 8, "wall")).toBeGreaterThanOrEqual(
        windDrag(width, 2, 8, "wall") - 1e-9,
      );
      expect(windDrag(2, width + 0.05, 8, "wall")).toBeGreaterThanOrEqual(
        windDrag(2, width, 8, "wall") - 1e-9,
      );
    }
  });

  it("takes the typed height of the push", () => {
    for (const form of WIND_FORMS) expect(windExposure(1, 2, form, 0.3, 3.3).centre).toBe(3.3);
    expect(() => windExposure(1, 2, "ball", undefined, 0)).toThrow("centre must be above 0 m, found 0");
    expect(() => windExposure(1, 2, "arch", 0)).toThrow("thickness must be above 0 m, found 0");
  });

  it("reads forms in any case and refuses others by name", () => {
    expect(windDrag(1, 2, 5, " Wall ")).toBe(windDrag(1, 2, 5, "wall"));
    expect(() => windDrag(1, 2, 5, "tree")).toThrow(
      'form must be one of column, wall, ball, arch, garland, pole and ball, found "tree"',
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
        fc.pre(form !== "pole and ball" || height >= width);
        const drag = windDrag(width, height, speed, form);
        expect(windDrag(width, height, 2 * speed, form) / drag).toBeCloseTo(4, 9);
        expect(windDrag(width * 1.01, height * 1.01, speed, form)).toBeGreaterThan(drag);
        const { area } = windExposure(width, height, form);
        expect(drag).toBeLessThanOrEqual(2.1 * velocityPressure(speed) * area);
      }),
    );
  });
});
