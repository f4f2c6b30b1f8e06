import { describe, expect, it } from "vitest";
import { COMPLEX_FUNCTIONS, COMPLEX_LISTS } from "../../src/sheet/complex-numbers";
import { type PlainArgument, settled } from "../../src/sheet/plain-functions";
import type { CellValue } from "../../src/workbook/model";
import { errorText } from "./workbook-of";

function call(name: string, ...args: readonly PlainArgument[]): string | number | boolean | null {
  const list = COMPLEX_LISTS.get(name);
  const one = COMPLEX_FUNCTIONS.get(name);
  return errorText(settled(() => list?.(...args) ?? one?.(...(args as CellValue[])) ?? null));
}

/** The two parts of a complex number as Excel writes it with both. */
function parts(text: unknown): readonly number[] {
  const [, re, im] = /^(-?[\d.E-]+)([+-][\d.E-]*)[ij]$/.exec(String(text)) ?? [];
  return [Number(re), im === "+" || im === "-" ? Number(`${im}1`) : Number(im)];
}

describe("functions of one complex number", () => {
  // Microsoft support, the page of each function: its example and the value given there.
  it.each([
    ["IMCONJUGATE", "3+4i", 3, -4],
    ["IMCOS", "1+i", 0.833730025131149, -0.988897705762865],
    ["IMCOSH", "4+3i", -27.0349456030742, 3.85115333481178],
    ["IMCOT", "4+3i", 0.00490118239430447, -0.999266927805902],
    ["IMCSC", "4+3i", -0.0754898329158637, 0.0648774713706355],
    ["IMCSCH", "4+3i", -0.036275889628626, -0.0051744731840194],
    ["IMEXP", "1+i", 1.46869393991589, 2.28735528717884],
    ["IMLN", "3+4i", 1.6094379124341, 0.927295218001612],
    ["IMLOG10", "3+4i", 0.698970004336019, 0.402719196273373],
    ["IMLOG2", "3+4i", 2.32192809488736, 1.33780421245098],
    ["IMSEC", "4+3i", -0.0652940278579471, -0.0752249603027732],
    ["IMSECH", "4+3i", -0.0362534969158689, -0.00516434460775318],
    ["IMSIN", "4+3i", -7.61923172032141, -6.548120040911],
    ["IMSINH", "4+3i", -27.0168132580039, 3.85373803791938],
    ["IMSQRT", "1+i", 1.09868411346781, 0.455089860562227],
    ["IMTAN", "4+3i", 0.00490825806749606, 1.00070953606723],
  ])("%s of %s", (name, z, re, im) => {
    const found = parts(call(name, z));
    expect(found[0]).toBeCloseTo(re, 13);
    expect(found[1]).toBeCloseTo(im, 13);
  });

  it.each([
    ["IMABS", "5+12i", 13],
    ["IMAGINARY", "3+4i", 4],
    ["IMAGINARY", "0-j", -1],
    ["IMAGINARY", 4, 0],
    ["IMREAL", "6-9i", 6],
    ["IMCONJUGATE", "3+4i", "3-4i"],
  ])("%s of %s is exact", (name, z, value) => {
    expect(call(name, z)).toBe(value);
  });

  it("IMARGUMENT of 3+4i", () => {
    expect(call("IMARGUMENT", "3+4i")).toBeCloseTo(0.92729522, 8);
    // The angles of points on the axes, by definition of the argument.
    expect(call("IMARGUMENT", "-2i")).toBe(-Math.PI / 2);
    expect(call("IMARGUMENT", -3)).toBe(Math.PI);
  });

  // Undefined there: there is no direction of 0, no logarithm of it, and no division by it.
  it.each([
    ["IMARGUMENT", "#DIV/0!"],
    ["IMLN", "#NUM!"],
    ["IMLOG10", "#NUM!"],
    ["IMLOG2", "#NUM!"],
    ["IMCOT", "#NUM!"],
    ["IMCSC", "#NUM!"],
    ["IMCSCH", "#NUM!"],
  ])("%s of 0 is an error", (name, code) => {
    expect(call(name, "0")).toBe(code);
  });

  it("takes the logarithm of what lies on either axis", () => {
    // ln(i) = i*pi/2, ln(-1) = i*pi.
    expect(call("IMLN", "i")).toBe(`${Number((Math.PI / 2).toPrecision(15))}i`);
    expect(call("IMLN", -1)).toBe(`${Number(Math.PI.toPrecision(15))}i`);
    expect(call("IMLN", 1)).toBe("0");
  });

  it("has 0 as the root of 0", () => {
    expect(call("IMSQRT", 0)).toBe("0");
  });
});

describe("powers", () => {
  // Page IMPOWER: (2+3i) cubed is -46+9i. The others by hand: (1+i) squared is 2i, 1/(2i) is -0.5i.
  it.each([
    ["2+3i", 3, -46, 9],
    ["1+2j", 2, -3, 4],
    ["1+i", -1, 0.5, -0.5],
    ["3+4i", "0.5", 2, 1],
    ["2i", 2, -4, 0],
  ])("%s to the power of %s", (z, exponent, re, im) => {
    const found = parts(call("IMPOWER", z, exponent));
    expect(found[0]).toBeCloseTo(re, 12);
    expect(found[1]).toBeCloseTo(im, 12);
  });

  // 0 to a positive power is 0; Excel has no value for 0 to 0 or below.
  it.each([
    [0, 2, "0"],
    [0, 0, "#NUM!"],
    [0, -1, "#NUM!"],
    ["1+i", 0, "1"],
    [2, 3, "8"],
    ["1+i", "x", "#VALUE!"],
  ])("%s to the power of %s is %s", (z, exponent, value) => {
    expect(call("IMPOWER", z, exponent)).toBe(value);
  });

  it("keeps the letter of the unit", () => {
    expect(call("IMPOWER", "1+2j", 2)).toMatch(/j$/);
  });
});

describe("two and more complex numbers", () => {
  // Pages IMDIV, IMSUB, IMSUM, IMPRODUCT; the rest worked out by hand.
  it.each([
    ["IMDIV", ["-238+240i", "10+24i"], "5+12i"],
    ["IMDIV", ["4+2i", 2], "2+i"],
    ["IMDIV", ["2", "i"], "-2i"],
    ["IMDIV", ["1+i", 0], "#NUM!"],
    ["IMSUB", ["13+4i", "5+3i"], "8+i"],
    ["IMSUB", ["1+5i", "1+2i"], "3i"],
    ["IMSUM", ["3+4i", "5-3i"], "8+i"],
    ["IMSUM", ["3+4i", 2, "i"], "5+5i"],
    [
      "IMSUM",
      [
        [
          ["1+i", null],
          [2, "3i"],
        ],
      ],
      "3+4i",
    ],
    ["IMPRODUCT", ["3+4i", "5-3i"], "27+11i"],
    ["IMPRODUCT", ["1+2i", 30], "30+60i"],
    ["IMPRODUCT", ["1+2j", "j", "j"], "-1-2j"],
    // A blank cell of a range is no number, as in SUM and PRODUCT.
    [
      "IMPRODUCT",
      [
        [
          ["1+i", null],
          [2, null],
        ],
      ],
      "2+2i",
    ],
    ["IMSUM", ["1+i", "1+j"], "#VALUE!"],
    ["IMSUB", ["1+i", "1+j"], "#VALUE!"],
    ["IMSUM", ["1+i", true], "#VALUE!"],
    ["IMSUM", [null], "0"],
    ["IMSUM", ["1+i", { error: "#N/A" }], "#N/A"],
  ] as readonly [string, readonly PlainArgument[], string][])("%s of %j is %s", (name, args, value) => {
    expect(call(name, ...args)).toBe(value);
  });
});

describe("how complex numbers are written", () => {
  // Page COMPLEX; its remarks: a suffix other than "i" and "j" is #VALUE!, in small letters only, and so is no number.
  it.each([
    [[3, 4], "3+4i"],
    [[3, 4, "j"], "3+4j"],
    [[0, 1], "i"],
    [[1, 0], "1"],
    [[0, -1], "-i"],
    [[0, 0], "0"],
    [[-2, -1], "-2-i"],
    [[1, 1], "1+i"],
    [[0, 2.5], "2.5i"],
    [[3, 4, "I"], "#VALUE!"],
    [[3, 4, "k"], "#VALUE!"],
    [["x", 4], "#VALUE!"],
    [[true, 4], "#VALUE!"],
    [[3, false], "#VALUE!"],
    // 15 digits, with an exponent of two digits and in capitals, as Excel writes numbers.
    [[1 / 3, 0], "0.333333333333333"],
    [[1e21, 1e-7], "1E+21+1E-07i"],
    [[1e300, -1e-300], "1E+300-1E-300i"],
  ] as readonly [readonly CellValue[], string][])("COMPLEX of %j is %s", (args, value) => {
    expect(call("COMPLEX", ...args)).toBe(value);
  });

  // The forms x, yi, x+yi with their signs; all else is #NUM! as page IMREAL says, and a logical value #VALUE!.
  it.each([
    ["3", 3, 0],
    ["-2.5", -2.5, 0],
    ["+4", 4, 0],
    [".5", 0.5, 0],
    ["1e3", 1000, 0],
    ["1E-2", 0.01, 0],
    ["i", 0, 1],
    ["+i", 0, 1],
    ["-j", 0, -1],
    ["2i", 0, 2],
    ["-2.5j", 0, -2.5],
    ["1+i", 1, 1],
    ["1-i", 1, -1],
    ["-1.5+2.25i", -1.5, 2.25],
    ["12-34j", 12, -34],
    ["1e2+3e-1i", 100, 0.3],
    ["1.+.5i", 1, 0.5],
    [5, 5, 0],
    [null, 0, 0],
  ])("%s is read as %d and %d", (z, re, im) => {
    expect([call("IMREAL", z), call("IMAGINARY", z)]).toEqual([re, im]);
  });

  it.each([
    ["x", "#NUM!"],
    ["1+I", "#NUM!"],
    ["i2", "#NUM!"],
    ["1 + i", "#NUM!"],
    ["1+2", "#NUM!"],
    ["1+2ij", "#NUM!"],
    ["x1+2i", "#NUM!"],
    ["x1", "#NUM!"],
    ["1x", "#NUM!"],
    ["x2i", "#NUM!"],
    ["2ix", "#NUM!"],
    ["1+2ix", "#NUM!"],
    ["1e", "#NUM!"],
    [true, "#VALUE!"],
  ])("%s is no complex number", (z, code) => {
    expect(call("IMREAL", z)).toBe(code);
  });

  it("has no number that is too large", () => {
    expect(call("IMEXP", 1000)).toBe("#NUM!");
    expect(call("IMPRODUCT", "1E+200i", "1E+200")).toBe("#NUM!");
  });
});
