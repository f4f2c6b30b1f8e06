import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { latexVolume } from "../../../src/core/gas/balloon-shape";
import { acrossOfVolume, fillDiameter } from "../../../src/core/gas/inflate";
import { fromSi, kelvinFromCelsius, toSi } from "../../../src/core/units";

describe("size to inflate to", () => {
  it("inverts the volume at every size", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 130, noNaN: true }), (size) => {
        const across = toSi(size, "in");
        expect(acrossOfVolume(latexVolume(across)) / across).toBeCloseTo(1, 12);
      }),
    );
  });

  it("is the wanted size where nothing changes", () => {
    expect(fillDiameter(toSi(11, "in"))).toBe(toSi(11, "in"));
  });

  it("follows Charles's law: 15 C to 35 C expands by 1.0694", () => {
    const wanted = toSi(11, "in");
    const fill = fillDiameter(wanted, kelvinFromCelsius(15), kelvinFromCelsius(35));
    expect(latexVolume(wanted) / latexVolume(fill)).toBeCloseTo(1.0694082942911678, 10);
  });

  it("is smaller for a warmer or higher venue", () => {
    const wanted = toSi(16, "in");
    expect(fillDiameter(wanted, 293.15, 303.15)).toBeLessThan(wanted);
    expect(fillDiameter(wanted, 293.15, 293.15, 0, 1500)).toBeLessThan(wanted);
    expect(fillDiameter(wanted, 293.15, 293.15, 1500, 0)).toBeGreaterThan(wanted);
  });

  it("comes back on the way back", () => {
    const there = fillDiameter(toSi(24, "in"), 290, 305, 100, 1200);
    expect(fromSi(fillDiameter(there, 305, 290, 1200, 100), "in")).toBeCloseTo(24, 9);
  });

  it("answers #N/A outside 1 to 120 in", () => {
    const tooSmall = () => fillDiameter(toSi(1, "in"), 293.15, 313.15);
    const tooLarge = () => fillDiameter(toSi(120, "in"), 313.15, 293.15);
    for (const call of [tooSmall, tooLarge])
      expect(call).toThrow(
        expect.objectContaining({ code: "#N/A", message: expect.stringContaining("1 to 120 in") }),
      );
  });
});
