import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ScalarSpec } from "../../src/functions/param";
import { readScalar } from "../../src/functions/read-scalar";

const HOURS: ScalarSpec = { kind: "duration" };
const MINUTES: ScalarSpec = { kind: "duration", unit: "min" };

// A day of 24 hours: a cell that shows 2:30 holds 2.5 / 24.
describe("durations", () => {
  it("in hours are read as a cell shows them", () => {
    expect(readScalar("hours", HOURS, "2:30")).toBe(2.5 * 3600);
    expect(readScalar("hours", HOURS, "30:00:36")).toBe(30.01 * 3600);
    expect(readScalar("hours", HOURS, 2.5)).toBe(2.5 * 3600);
    expect(() => readScalar("hours", HOURS, "2:75")).toThrow(
      'hours must be a time in hours such as 2.5 or "2 h 30 min", found "2:75"',
    );
  });

  it("in minutes are not taken from a clock, which may be minutes and seconds", () => {
    expect(() => readScalar("travel", MINUTES, "0:25")).toThrow(
      'travel must be a time in minutes such as 25 or "1 h 15 min", found "0:25"',
    );
  });

  it("in minutes are never the share of a day that a cell of 0:25 holds", () => {
    expect(() => readScalar("travel", MINUTES, 25 / 1440)).toThrow(
      'travel must be a time in minutes such as 25 or "1 h 15 min", found 0.0174; a cell that shows 0:25 holds this share of a day: type 25, or "0.0174 min" if that is meant',
    );
    expect(() => readScalar("hours", HOURS, 25 / 1440, "min")).toThrow(/^hours must be a time in minutes/);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 143 }), (minutes) => {
        expect(() => readScalar("travel", MINUTES, minutes / 1440)).toThrow(/share of a day/);
      }),
    );
  });

  it("in minutes stay what they are otherwise", () => {
    for (const minutes of [0.1, 0.25, 0.5, 5 / 12, 1, 25, 90])
      expect(readScalar("travel", MINUTES, minutes)).toBeCloseTo(minutes * 60, 9);
    expect(readScalar("travel", MINUTES, "0.05 min")).toBeCloseTo(3, 9);
    expect(readScalar("travel", MINUTES, "none")).toBe(0);
  });
});
