import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { contrast, readableInk } from "../../src/paper/ink";

const color = fc.integer({ min: 0, max: 0xffffff }).map((rgb) => `#${rgb.toString(16).padStart(6, "0")}`);

describe("ink on paper", () => {
  // WCAG 2.2: black on white is 21:1; #767676 is known as the lightest grey with 4.5:1 on white.
  it("has the contrast of WCAG", () => {
    expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 10);
    expect(contrast("#767676", "#ffffff")).toBeGreaterThanOrEqual(4.5);
    expect(contrast("#777777", "#ffffff")).toBeLessThan(4.5);
  });

  it("stays where a grey print can be read, and where it hides a text on purpose", () => {
    expect(readableInk("#ffffff", "#1f4e79")).toBe("#ffffff");
    expect(readableInk("#ffffff", "#ffffff")).toBe("#ffffff");
    expect(readableInk("#ffffff", "#fff2cc")).toBe("#000000");
    expect(readableInk("#ff0000", "#0000ff")).toBe("#ffffff");
  });

  it("can be read on every fill", () => {
    fc.assert(
      fc.property(color, color, (ink, fill) => {
        fc.pre(ink !== fill);
        expect(contrast(readableInk(ink, fill), fill)).toBeGreaterThanOrEqual(3);
      }),
    );
  });
});
