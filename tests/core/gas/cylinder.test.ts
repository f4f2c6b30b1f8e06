import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  countCylinders,
  countFromCylinder,
  cylinderVolume,
  usableVolume,
} from "../../../src/core/gas/cylinder";
import { heliumVolume } from "../../../src/core/gas/fill";
import { toSi } from "../../../src/core/units";

const bar = (value: number): number => toSi(value, "bar");
const LITRES_50 = 0.05;

describe("cylinders", () => {
  // Z = 1.09698 at 200 bar, 15 C: NISTIR 8474.
  it("holds 9.00 m3 in 50 L at 200 bar absolute, not the 9.87 of an ideal gas", () => {
    expect(cylinderVolume(LITRES_50, bar(200) - 101325)).toBeCloseTo(9, 2);
  });

  it("reads the gauge: 200 bar on it are 201 bar absolute", () => {
    const ratio = cylinderVolume(LITRES_50, bar(200)) / cylinderVolume(LITRES_50, bar(200) - 101325);
    expect(ratio).toBeGreaterThan(1.004);
    expect(ratio).toBeLessThan(1.0051);
  });

  it("at 0 bar still holds its own volume of gas", () => {
    expect(cylinderVolume(LITRES_50, 0)).toBeCloseTo(LITRES_50, 12);
  });

  it("holds less gas at the same pressure when warm", () => {
    expect(cylinderVolume(LITRES_50, bar(200), 303.15)).toBeLessThan(
      cylinderVolume(LITRES_50, bar(200), 288.15) * 1.06,
    );
    const amount = (temperature: number) => cylinderVolume(LITRES_50, bar(200), temperature) / temperature;
    expect(amount(303.15)).toBeLessThan(amount(288.15));
  });

  it("does not count what stays in the cylinder", () => {
    const left = cylinderVolume(LITRES_50, bar(5));
    expect(usableVolume(LITRES_50, bar(200))).toBeCloseTo(cylinderVolume(LITRES_50, bar(200)) - left, 12);
    expect(countCylinders(8.9, LITRES_50, bar(200))).toBe(2);
    expect(countCylinders(8.7, LITRES_50, bar(200))).toBe(1);
    expect(countCylinders(0, LITRES_50, bar(200))).toBe(0);
  });

  it("takes the fewest cylinders", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 500, noNaN: true }),
        fc.integer({ min: 20, max: 300 }),
        (volume, gauge) => {
          const count = countCylinders(volume, LITRES_50, bar(gauge));
          const each = usableVolume(LITRES_50, bar(gauge));
          expect(count * each).toBeGreaterThanOrEqual(volume * (1 - 1e-11));
          expect((count - 1) * each).toBeLessThan(volume);
        },
      ),
    );
  });

  it("fills as many balloons as fit, one at a time", () => {
    const across = toSi(11, "in");
    let left = usableVolume(LITRES_50, bar(200));
    let filled = 0;
    while (left >= heliumVolume(across)) {
      left -= heliumVolume(across);
      filled++;
    }
    expect(countFromCylinder(LITRES_50, bar(200), across)).toBe(filled);
    // Common practice, no source: a 50 L cylinder of 9 m3 fills 500 to 600 balloons of 11 in.
    expect(filled).toBeGreaterThan(500);
    expect(filled).toBeLessThan(600);
  });

  it("fills fewer with more loss, more left behind or larger balloons", () => {
    const base = countFromCylinder(LITRES_50, bar(200), toSi(11, "in"));
    expect(countFromCylinder(LITRES_50, bar(200), toSi(11, "in"), bar(5), 0.2)).toBeLessThan(base);
    expect(countFromCylinder(LITRES_50, bar(200), toSi(11, "in"), bar(20))).toBeLessThan(base);
    expect(countFromCylinder(LITRES_50, bar(200), toSi(12, "in"))).toBeLessThan(base);
  });

  it("says when nothing can be taken", () => {
    expect(() => countCylinders(1, LITRES_50, bar(3))).toThrow(
      expect.objectContaining({
        code: "#N/A",
        message: "nothing can be taken from a cylinder at 3 bar when 5 bar stay in it",
      }),
    );
    expect(() => countFromCylinder(0, bar(200), 0.28)).toThrow(expect.objectContaining({ code: "#N/A" }));
  });

  it("overflows instead of counting past 1e9", () => {
    expect(() => countCylinders(1e12, 0.001, bar(10))).toThrow(expect.objectContaining({ code: "#NUM!" }));
    expect(() => countFromCylinder(1e9, bar(300), 0.0254)).toThrow(
      expect.objectContaining({ code: "#NUM!" }),
    );
  });
});
