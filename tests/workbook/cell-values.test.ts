import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isErrorCode, isSameNumber, isSameValue } from "../../src/workbook/cell-values";

describe("values of cells", () => {
  it("are the same where a program wrote 15 digits of a number", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (number) => {
        // The smallest numbers have fewer digits than 15, and the largest round to infinity.
        fc.pre(number === 0 || (Math.abs(number) > 1e-300 && Math.abs(number) < 1e300));
        expect(isSameNumber(number, Number(number.toPrecision(15)))).toBe(true);
        expect(isSameNumber(number, number * (1 + 1e-12))).toBe(number === 0);
      }),
    );
  });

  it("are the same where a file keeps the same", () => {
    expect(isSameValue({ error: "#SPILL!" }, { error: "#VALUE!" })).toBe(true);
    expect(isSameValue({ error: "#N/A" }, { error: "#VALUE!" })).toBe(false);
    expect(isSameValue(null, "")).toBe(false);
    expect(isSameValue(1, true)).toBe(false);
    expect(isSameValue("a", "a")).toBe(true);
    expect(isSameValue(0.1 + 0.2, 0.3)).toBe(true);
    expect(isSameValue(1, 1.000_001)).toBe(false);
    expect(isSameValue("0.30000000000000004", 0.3)).toBe(false);
    expect(isSameValue(0, 1e-300)).toBe(false);
    const error = { error: "#VALUE!" };
    expect([null, "#VALUE!", 1, true].map((value) => isSameValue(error, value))).toEqual(
      Array(4).fill(false),
    );
    expect([null, "#VALUE!", 1, true].map((value) => isSameValue(value, error))).toEqual(
      Array(4).fill(false),
    );
    expect(isSameValue(null, null)).toBe(true);
  });

  it("are errors by their codes", () => {
    expect(["#N/A", "#DIV/0!", "#NAME?", "#SPILL!", "#GETTING_DATA"].every(isErrorCode)).toBe(true);
    expect(["", "#", "# 1", "N/A", 1, null].some(isErrorCode)).toBe(false);
  });
});
