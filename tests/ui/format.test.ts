import { describe, expect, it } from "vitest";
import type { Cell, Measure } from "../../src/functions/definition";
import { cellText, valueText } from "../../src/ui/format";
import { readNumber } from "../../src/functions/read-text";

describe("cellText", () => {
  // SI brochure (9th edition, 5.4.4): digits in groups of three parted by a thin space.
  it.each<readonly [Measure, Cell, string]>([
    ["count", 1234567, "1\u202f234\u202f567"],
    ["count", 40, "40"],
    ["money", 1234.5, "1\u202f234.50"],
    ["share", 0.195, "19.5%"],
    ["m", 1.8288, "1.83"],
    ["m", 0.001234, "0.00123"],
    ["L", 13.7, "13.7"],
    ["L", 123456.78, "123\u202f456.8"],
    ["number", 0, "0"],
    ["datetime", 25569, "1970-01-01"],
    ["flag", true, "TRUE"],
    ["text", "gold", "gold"],
    ["money", "no price", "no price"],
  ])("%s %s: %s", (measure, value, text) => {
    expect(cellText(measure, value)).toBe(text);
  });

  it("writes numbers that functions read back", () => {
    expect(readNumber(cellText("money", 1234567.89))).toEqual({ kind: "number", value: 1234567.89 });
  });
});

it("adds the unit and the other half of the world's", () => {
  expect(valueText("m", 1.8288)).toEqual({ text: "1.83 m", other: "6 ft" });
  expect(valueText("m3", 2)).toEqual({ text: "2 m³", other: "70.6 ft3" });
  expect(valueText("count", 40)).toEqual({ text: "40" });
  expect(valueText("m", "none")).toEqual({ text: "none" });
});
