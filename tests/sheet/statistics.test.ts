import { describe, expect, it } from "vitest";
import { frequencies, STATISTICS } from "../../src/sheet/statistics";
import type { PlainArgument } from "../../src/sheet/plain-functions";

function of(name: string, ...args: PlainArgument[]): unknown {
  return STATISTICS.get(name)?.(...args);
}
function row(...cells: readonly (number | string | boolean | null)[]): PlainArgument {
  return [cells];
}
const STRENGTHS = row(1345, 1301, 1368, 1322, 1310, 1370, 1318, 1350, 1303, 1299);

/** Data and result of Microsoft's page on each function. */
const DOCUMENTED: readonly (readonly [name: string, args: readonly PlainArgument[], value: number])[] = [
  ["AVEDEV", [row(4, 5, 6, 7, 5, 4, 3)], 1.020408],
  ["DEVSQ", [row(4, 5, 8, 7, 11, 4, 3)], 48],
  ["GEOMEAN", [row(4, 5, 8, 7, 11, 4, 3)], 5.476987],
  ["HARMEAN", [row(4, 5, 8, 7, 11, 4, 3)], 5.028376],
  ["KURT", [row(3, 4, 5, 2, 3, 4, 5, 6, 4, 7)], -0.1518],
  ["SKEW", [row(3, 4, 5, 2, 3, 4, 5, 6, 4, 7)], 0.359543],
  ["SKEW.P", [row(3, 4, 5, 2, 3, 4, 5, 6, 4, 7)], 0.303193],
  ["STDEV", [STRENGTHS], 27.46391572],
  ["STDEV.S", [STRENGTHS], 27.46391572],
  ["STDEVP", [STRENGTHS], 26.05455814],
  ["STDEV.P", [STRENGTHS], 26.05455814],
  ["VAR", [STRENGTHS], 754.2666667],
  ["VAR.S", [STRENGTHS], 754.2666667],
  ["VARP", [STRENGTHS], 678.84],
  ["VAR.P", [STRENGTHS], 678.84],
  ["STDEVA", [STRENGTHS], 27.46391572],
  ["STDEVPA", [STRENGTHS], 26.05455814],
  ["VARA", [STRENGTHS], 754.2666667],
  ["VARPA", [STRENGTHS], 678.84],
  ["AVERAGEA", [row(10, 7, 9, 2, "Not available")], 5.6],
  ["CORREL", [row(3, 2, 4, 5, 6), row(9, 7, 12, 15, 17)], 0.997054],
  ["PEARSON", [row(9, 7, 5, 3, 1), row(10, 6, 1, 5, 3)], 0.699379],
  ["RSQ", [row(2, 3, 9, 1, 8, 7, 5), row(6, 5, 11, 7, 5, 4, 4)], 0.05795],
  ["SLOPE", [row(2, 3, 9, 1, 8, 7, 5), row(6, 5, 11, 7, 5, 4, 4)], 0.305556],
  ["INTERCEPT", [row(2, 3, 9, 1, 8), row(6, 5, 11, 7, 5)], 0.048387],
  ["STEYX", [row(2, 3, 9, 1, 8, 7, 5), row(6, 5, 11, 7, 5, 4, 4)], 3.305719],
  ["COVAR", [row(3, 2, 4, 5, 6), row(9, 7, 12, 15, 17)], 5.2],
  ["COVARIANCE.P", [row(3, 2, 4, 5, 6), row(9, 7, 12, 15, 17)], 5.2],
  ["COVARIANCE.S", [row(2, 4, 8), row(5, 11, 12)], 9.666666667],
];

describe("statistics", () => {
  it.each(DOCUMENTED)("%s gives what its page says", (name, args, value) => {
    // Pages give at least five digits.
    expect(of(name, ...args)).toBeCloseTo(value, Math.abs(value) > 1 ? 4 : 6);
  });

  it("leaves text, logical values and blanks of ranges out, and takes typed ones", () => {
    const mixed = row(4, "9", true, null, 6);
    expect(of("DEVSQ", mixed)).toBe(2);
    expect(of("DEVSQ", mixed, "5")).toBe(2);
    expect(of("DEVSQ", 1, true, "1", null)).toBe(0.75);
    expect(of("VARP", mixed)).toBe(1);
    // Text of ranges is 0, logical values 0 and 1.
    expect(of("AVERAGEA", row(4, "9", true, null, false))).toBe(1.25);
    expect(of("VARPA", row("x", 4))).toBe(4);
  });

  it("leaves a pair without two numbers out", () => {
    expect(of("SLOPE", row(1, 2, "x", 4, null), row(2, 4, 6, 8, 10))).toBe(0.5);
    expect(of("CORREL", row(1, 2, 3), row(2, true, 6))).toBeCloseTo(1, 12);
  });

  // Microsoft's pages on the errors of each function.
  it.each<readonly [string, readonly PlainArgument[], string]>([
    ["GEOMEAN", [row(4, 0)], "#NUM!"],
    ["GEOMEAN", [row(4, -1)], "#NUM!"],
    ["GEOMEAN", [row("x")], "#NUM!"],
    ["HARMEAN", [row("x")], "#N/A"],
    ["HARMEAN", [row(1, 0)], "#NUM!"],
    ["HARMEAN", [row(1, -2)], "#NUM!"],
    ["AVEDEV", [row(null)], "#NUM!"],
    ["DEVSQ", [row(null)], "#NUM!"],
    ["KURT", [row(1, 2, 3)], "#DIV/0!"],
    ["KURT", [row(2, 2, 2, 2)], "#DIV/0!"],
    ["SKEW", [row(1, 2)], "#DIV/0!"],
    ["SKEW", [row(2, 2, 2)], "#DIV/0!"],
    ["SKEW.P", [row(1, 2)], "#DIV/0!"],
    ["SKEW.P", [row(2, 2, 2)], "#DIV/0!"],
    ["STDEV", [row(1)], "#DIV/0!"],
    ["VAR.S", [row(1)], "#DIV/0!"],
    ["VARP", [row(null)], "#DIV/0!"],
    ["AVERAGEA", [row(null)], "#DIV/0!"],
    ["VARA", [row(5)], "#DIV/0!"],
    ["CORREL", [row(1, 2), row(1, 2, 3)], "#N/A"],
    ["CORREL", [row(1, 2), row(3, 3)], "#DIV/0!"],
    ["CORREL", [row("x"), row(1)], "#DIV/0!"],
    ["RSQ", [row(1, 1), row(3, 4)], "#DIV/0!"],
    ["SLOPE", [row(1, 2), row(3, 3)], "#DIV/0!"],
    ["INTERCEPT", [row(1, 2), row(3, 3)], "#DIV/0!"],
    ["STEYX", [row(1, 2), row(3, 4)], "#DIV/0!"],
    ["STEYX", [row(1, 2, 3), row(3, 3, 3)], "#DIV/0!"],
    ["COVARIANCE.S", [row(1), row(3)], "#DIV/0!"],
    ["COVARIANCE.P", [row(), row()], "#DIV/0!"],
    ["DEVSQ", [[[1, { error: "#REF!" }]]], "#REF!"],
    ["VARPA", [[[1, { error: "#REF!" }]]], "#REF!"],
    ["SLOPE", [[[{ error: "#NUM!" }, 1]], row(1, 2)], "#NUM!"],
    ["SLOPE", [row(1, 2), [[{ error: "#NUM!" }, 1]]], "#NUM!"],
    ["DEVSQ", ["x"], "#VALUE!"],
  ])("%s ends with an error: case %#", (name, args, code) => {
    expect(() => of(name, ...args)).toThrow(code);
  });

  it("is defined for the fewest numbers that it takes", () => {
    // By the definitions: 1, 2, 3, 5 and 1, 2, 4.
    expect(of("KURT", row(1, 2, 3, 5))).toBeCloseTo(0.342857, 6);
    expect(of("SKEW", row(1, 2, 4))).toBeCloseTo(0.93522, 5);
    expect(of("SKEW.P", row(1, 2, 4))).toBeCloseTo(0.381802, 6);
    expect(of("STDEV", row(1, 3))).toBeCloseTo(Math.SQRT2, 12);
    expect(of("VARP", row(7))).toBe(0);
    expect(of("STEYX", row(1, 2, 4), row(1, 2, 3))).toBeCloseTo(Math.sqrt(1 / 6), 12);
    expect(of("COVARIANCE.S", row(1, 2), row(3, 5))).toBe(1);
    expect(of("COVAR", 1, 2)).toBe(0);
  });
});

describe("frequencies", () => {
  it("count up to each bound, equal bounds once, and what lies above", () => {
    // Microsoft's page FREQUENCY.
    const scores = row(79, 85, 78, 85, 50, 81, 95, 88, 97);
    expect(frequencies(scores, row(70, 79, 89))).toEqual([[1], [2], [4], [2]]);
    expect(frequencies(scores, row(89, 70, 79))).toEqual([[4], [1], [2], [2]]);
    expect(frequencies(scores, row(79, 79))).toEqual([[3], [0], [6]]);
    expect(frequencies(row("79", true, null, 5), row(5))).toEqual([[1], [0]]);
    expect(frequencies(row(1, 2), row("x"))).toEqual([[2]]);
  });
});
