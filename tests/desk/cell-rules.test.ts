import { describe, expect, it } from "vitest";
import { checkAt, checkFault, choicesOf, formulaFor } from "../../src/desk/cell-rules";
import type { CellCheck } from "../../src/workbook/cell-checks";

const B2_TO_B9 = { firstRow: 1, firstColumn: 1, lastRow: 8, lastColumn: 1 };
const CHECK: CellCheck = {
  ranges: [B2_TO_B9],
  kind: "list",
  comparison: "between",
  formula1: '"air, helium"',
  formula2: "",
  allowsBlank: true,
  strictness: "stop",
  isOffered: true,
};
const nothing = (): undefined => undefined;
const B2 = { row: 1, column: 1 };

describe("the choices of a cell", () => {
  it("reads a list in the check itself, numbers as numbers", () => {
    expect(choicesOf('"air, helium,3"', nothing)).toEqual([
      { text: "air", value: "air" },
      { text: "helium", value: "helium" },
      { text: "3", value: 3 },
    ]);
  });

  it("reads a list in cells and leaves blanks out", () => {
    expect(choicesOf("Lists!A1:A4", () => [["gold"], [null], [11], [true]])).toEqual([
      { text: "gold", value: "gold" },
      { text: "11", value: 11 },
      { text: "TRUE", value: true },
    ]);
    expect(choicesOf("OFFSET(A1,0,0,3)", nothing)).toBeUndefined();
  });

  it("moves references with the cell, from the first cell of the first range", () => {
    expect(formulaFor(CHECK, "D2:D5", 3, 1)).toBe("D4:D7");
    expect(formulaFor(CHECK, "$D$2:$D$5", 3, 1)).toBe("$D$2:$D$5");
  });

  it("finds the check of a cell", () => {
    expect(checkAt([CHECK], 8, 1)).toBe(CHECK);
    expect(checkAt([CHECK], 9, 1)).toBeUndefined();
  });
});

describe("a check of a value", () => {
  it("names the choices, whatever the case of what was typed", () => {
    expect(checkFault(CHECK, B2, "Air", nothing)).toBeUndefined();
    expect(checkFault(CHECK, B2, null, nothing)).toBeUndefined();
    expect(checkFault(CHECK, B2, "argon", nothing)).toBe('B2 must be one of air, helium, found "argon"');
    expect(checkFault({ ...CHECK, fault: "Gas: air or helium" }, B2, "argon", nothing)).toBe(
      "B2: Gas: air or helium",
    );
  });

  // What each operator lets through: ECMA-376 part 1, 18.18.20.
  it.each([
    ["between", 2, 9, [2, 9], [1, 10]],
    ["notBetween", 2, 9, [1, 10], [2, 9]],
    ["equal", 2, 0, [2], [3]],
    ["notEqual", 2, 0, [3], [2]],
    ["lessThan", 2, 0, [1], [2]],
    ["lessThanOrEqual", 2, 0, [2], [3]],
    ["greaterThan", 2, 0, [3], [2]],
    ["greaterThanOrEqual", 2, 0, [2], [1]],
  ] as const)("compares: %s", (comparison, a, b, good, bad) => {
    const check = {
      ...CHECK,
      kind: "decimal" as const,
      comparison,
      formula1: String(a),
      formula2: String(b),
    };
    for (const value of good) expect(checkFault(check, B2, value, nothing)).toBeUndefined();
    for (const value of bad)
      expect(checkFault(check, B2, value, nothing)).toMatch(/^B2 must be a number .*, found \d+$/);
  });

  it("asks the formula of a check, and lets through what it cannot tell", () => {
    const check = { ...CHECK, kind: "custom", formula1: "LEN(B2)=3" } as const;
    const gives = (value: string | number | boolean | null) => () => [[value]];
    expect(checkFault(check, { row: 2, column: 1 }, "abcd", gives(false))).toBe(
      'B3 must be such that =LEN(B3)=3 holds, found "abcd"',
    );
    for (const no of [0, "yes", "#VALUE!"]) expect(checkFault(check, B2, "x", gives(no))).toBeDefined();
    for (const yes of [true, 2, null]) expect(checkFault(check, B2, "x", gives(yes))).toBeUndefined();
    expect(checkFault(check, B2, "x", nothing)).toBeUndefined();
  });

  it("measures texts, wants whole numbers, and looks limits up in cells", () => {
    const long = {
      ...CHECK,
      kind: "textLength" as const,
      comparison: "lessThanOrEqual" as const,
      formula1: "3",
    };
    expect(checkFault(long, B2, "navy", nothing)).toBe(
      'B2 must be a text whose length is 3 or less, found "navy"',
    );
    const whole = { ...long, kind: "whole" as const, formula1: "$A$1" };
    expect(checkFault(whole, B2, 1.5, () => [[4]])).toBe("B2 must be a whole number 4 or less, found 1.5");
    expect(checkFault(whole, B2, 4, () => [[4]])).toBeUndefined();
    expect(checkFault(whole, B2, 5, nothing)).toBeUndefined();
  });
});
