import { describe, expect, it } from "vitest";
import { functionNamed } from "../../src/functions/catalogue";

/**
 * A 0 that was typed or computed is never replaced without a word, and a blank cell, which Excel's desktop sends as 0 and its
 * web version as nothing, never gives two numbers. Values and sentences: check values of the event model, worked by hand.
 */
const call = (name: string, ...args: readonly unknown[]): unknown => {
  const outcome = functionNamed(name)?.call(args);
  if (outcome?.kind === "value") return outcome.value;
  return outcome?.kind === "error" ? `${outcome.code} ${outcome.sentence}` : outcome;
};

describe("a number 0", () => {
  it.each<[string, string, readonly unknown[], unknown]>([
    ["no balloons hold no air", "AIR_LITRES", [11, 0], 0],
    ["no balloons hold no helium", "HELIUM_LITRES", [11, 0], 0],
    ["nothing breaks, so 100 are enough", "COUNT_WITH_SPARES", [100, "none"], 100],
    ["no balloon carries a ribbon", "RIBBON_METRES", [50, 2, "none"], 0],
    [
      "0 people lie outside the limits",
      "START_BY",
      ["2027-06-19 18:00", 10, 0],
      "#VALUE! crew must be from 1 to 1000, found 0",
    ],
    [
      "0 degrees and a blank cell look alike",
      "LIFT_GRAMS",
      [36, 20, 0],
      '#VALUE! temperature is 0 or a blank cell: type "0 C" for zero, or leave it out',
    ],
    ["a spacing of 0 cannot be", "COUNT_COVER", [12, 10, 11, 0], 45],
    [
      "nothing breaks, or nobody said",
      "COUNT_WITH_SPARES",
      [100, 0],
      "#VALUE! breakage is 0 or a blank cell: type none for zero, or leave it out",
    ],
    [
      "no ribbons, or nobody said",
      "RIBBON_METRES",
      [50, 2, 0],
      "#VALUE! share is 0 or a blank cell: type none for zero, or leave it out",
    ],
    [
      "freezing, or nobody said",
      "INFLATE_INCHES",
      [11, 0, 20],
      '#VALUE! fill_c is 0 or a blank cell: type "0 C" for zero, or leave it out',
    ],
  ])("%s", (_, name, args, expected) => {
    expect(call(name, ...args)).toBe(expected);
  });

  it("is zero loss where none is typed: 13.7044 L x 1.025 overpressure", () => {
    expect(Math.abs(Number(call("HELIUM_LITRES", 11, 1, "none")) - 14.047)).toBeLessThanOrEqual(0.002);
  });
});
