import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { calibratedPermeability, earliestFill, floatDuration } from "../../../src/core/gas/float";
import { netLift } from "../../../src/core/gas/lift";
import { BARRER } from "../../../src/core/gas/permeation";
import { FLOAT_RIBBON_GRAMS } from "../../../src/core/practice";
import { fromSi, toSi } from "../../../src/core/units";

const across = (inches: number): number => toSi(inches, "in");
const hours = (inches: number, treated = false, temperature = 293.15): number =>
  fromSi(floatDuration(across(inches), treated, temperature), "h");
const HOUR = 3600;

describe("float time", () => {
  it("is 16 h at 11 in, the calibration (restates the constant)", () => {
    expect(hours(11)).toBeCloseTo(16, 9);
  });

  it.each([
    // Common practice, no source.
    [12, 12, 20],
    [16, 24, 30],
    [24, 44, 54],
    [36, 84, 108],
  ])("of %d in lies from %d to %d h without further constants", (inches, low, high) => {
    expect(hours(inches)).toBeGreaterThan(low);
    expect(hours(inches)).toBeLessThan(high);
  });

  it("is not available for 5 in, which carries no ribbon", () => {
    expect(() => hours(5)).toThrow(
      expect.objectContaining({
        code: "#N/A",
        message: "a balloon of this size does not carry a ribbon with helium",
      }),
    );
  });

  // 28 to 31 barrer unstretched: Cengel, Heat and Mass Transfer; van Amerongen 1946, from memory.
  it("needs a permeability of the published order, less as the rubber is stretched", () => {
    const barrers = calibratedPermeability() / BARRER;
    expect(barrers).toBeGreaterThan(31 / 5);
    expect(barrers).toBeLessThan(31);
  });

  it("grows with size and treatment and shrinks with heat", () => {
    fc.assert(
      fc.property(fc.double({ min: 7, max: 119, noNaN: true }), (inches) => {
        expect(hours(inches * 1.005)).toBeGreaterThan(hours(inches));
        expect(hours(inches, true) / hours(inches)).toBeCloseTo(5, 9);
        expect(hours(inches, false, 303.15)).toBeLessThan(hours(inches));
      }),
    );
  });
});

it("floats shorter higher up: spare helium shrinks with the lift of thin air, the leak by volume does not", () => {
  const at = (altitude: number) => floatDuration(across(11), false, 293.15, undefined, altitude);
  // Lift of a litre goes as the air's density, 0.8234 of sea level by pressure at 1609 m (ISO 2533) at one temperature:
  // spare volume V - m/lift over V - m/lift at sea level, by hand from 13.704 L, 3.2 g and 1.0289 g/L.
  const spare = (lift: number) => 13.704 - 3.2 / lift;
  expect(at(1609) / at(0)).toBeCloseTo(spare(1.0289 * 0.8234) / spare(1.0289), 2);
  expect(() => floatDuration(across(7), false, 293.15, undefined, 4500)).toThrow("does not carry a ribbon");
});

it("asks the lift at the given temperature whether a balloon carries its ribbon", () => {
  // By the ideal gas law lift goes as 1/T: rubber that leaves the ribbon a little at 0 C leaves it nothing at 40 C.
  const size = across(11);
  const ribbon = FLOAT_RIBBON_GRAMS.value / 1000;
  const cold = netLift(size, 0, { temperature: 273.15 });
  const rubber = cold * 0.97 - ribbon;
  expect(floatDuration(size, false, 273.15, rubber)).toBeGreaterThan(0);
  expect(() => floatDuration(size, false, 313.15, rubber)).toThrow("does not carry a ribbon");
});

describe("earliest fill", () => {
  const start = 1e6;

  it("counts back from the end", () => {
    const end = start + 6 * HOUR;
    expect(earliestFill(start, end, across(11))).toBeCloseTo(end - 16 * HOUR, 3);
  });

  it("answers #N/A when filling at the start does not last, and says what to do", () => {
    const late = start + 17 * HOUR;
    expect(() => earliestFill(start, late, across(11))).toThrow(
      expect.objectContaining({
        code: "#N/A",
        message:
          "filled at the start it floats 16.0 h and the event lasts 17.0 h, take a larger or a " +
          "treated balloon",
      }),
    );
    expect(earliestFill(start, late, across(11), true)).toBeLessThan(start);
    expect(earliestFill(start, late, across(16))).toBeLessThan(start);
  });

  it("refuses an event that ends before it starts", () => {
    expect(() => earliestFill(start, start - HOUR, across(11))).toThrow(
      expect.objectContaining({
        code: "#VALUE!",
        message: "event_end must be at or after event_start, found a time 1.0 h before it",
      }),
    );
  });

  it("never lies after the start, and floats exactly to the end", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 7, max: 60 }),
        fc.double({ min: 0, max: 6, noNaN: true }),
        (inches, lasts) => {
          const end = start + lasts * HOUR;
          const fill = earliestFill(start, end, across(inches));
          expect(fill).toBeLessThanOrEqual(start);
          expect(fill + floatDuration(across(inches))).toBeCloseTo(end, 3);
        },
      ),
    );
  });
});
