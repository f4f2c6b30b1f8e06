import { describe, expect, it } from "vitest";
import {
  isDateFormat,
  isTwoDates,
  proper,
  regexExtract,
  regexReplace,
  regexTest,
  search,
  textSplit,
  valueToText,
} from "../../src/sheet/texts";
import type { CellValue } from "../../src/workbook/model";

const NA = { error: "#N/A" };

describe("texts", () => {
  // Microsoft's page PROPER.
  it.each<readonly [CellValue, string]>([
    ["this is a TITLE", "This Is A Title"],
    ["2-way street", "2-Way Street"],
    ["76BudGet", "76Budget"],
    ["élan ÉTÉ", "Élan Été"],
    [null, ""],
    [true, "True"],
  ])("PROPER(%j) is %j", (text, made) => {
    expect(proper(text)).toBe(made);
  });

  // Microsoft's page VALUETOTEXT; long numbers as a cell of the format General is copied, from memory.
  it.each<readonly [CellValue, CellValue, CellValue]>([
    [true, 0, "TRUE"],
    [1234.01234, 0, "1234.01234"],
    ["Hello", 0, "Hello"],
    ["Hello", 1, '"Hello"'],
    ['5" tall', 1, '"5"" tall"'],
    [1234.01234, 1, "1234.01234"],
    [false, 1, "FALSE"],
    [NA, 0, "#N/A"],
    [NA, 1, "#N/A"],
    [null, 1, ""],
    [1e20, 0, "100000000000000000000"],
    [1.5e20, 0, "150000000000000000000"],
    [1e21, 0, "1E+21"],
    [1e22, 0, "1E+22"],
    [-1e21, 0, "-1E+21"],
    [1e-7, 0, "0.0000001"],
    [-1.25e-7, 0, "-0.000000125"],
    [1e-20, 0, "0.00000000000000000001"],
    [1e-21, 0, "1E-21"],
    [0.1 + 0.2, 0, "0.3"],
    [1, 1.9, "1"],
  ])("VALUETOTEXT(%j,%j) is %j", (value, format, text) => {
    expect(valueToText(value, format)).toBe(text);
  });

  it("VALUETOTEXT has two formats", () => {
    expect(() => valueToText(1, 2)).toThrow("#VALUE!");
    expect(() => valueToText(1, -1)).toThrow("#VALUE!");
    expect(valueToText()).toBe("");
  });

  // Microsoft's page SEARCH.
  it.each<readonly [CellValue, CellValue, CellValue, number]>([
    ["e", "Statements", 6, 7],
    ["margin", "Profit Margin", 1, 8],
    ['"', 'The "boss" is here.', 1, 5],
    ["m*n", "Profit Margin", 1, 8],
    ["?", "abc", 2, 2],
    ["~?", "what?", 1, 5],
    ["~*", "a*b", 1, 2],
    ["~~", "a~b", 1, 2],
    ["~a", "xa", 1, 2],
    ["A", "xaA", 1, 2],
    ["", "abc", 1, 1],
    ["", "abc", 3, 3],
    ["", "", 1, 1],
    [2, 12.5, 1, 2],
    ["a", "ba", 2.9, 2],
  ])("SEARCH(%j,%j,%j) is %i", (wanted, within, start, at) => {
    expect(search(wanted, within, start)).toBe(at);
  });

  it.each<readonly [CellValue, CellValue, CellValue]>([
    ["z", "abc", 1],
    ["a", "abc", 2],
    ["a", "abc", 0],
    ["a", "abc", -3],
    ["", "abc", 4],
    ["a", "abc", 5],
    ["a", "", 2],
    ["z*", "abc", 1],
    ["a*", "abc", 2],
  ])("SEARCH(%j,%j,%j) finds nothing", (wanted, within, start) => {
    expect(() => search(wanted, within, start)).toThrow("#VALUE!");
  });
});

describe("TEXTSPLIT", () => {
  const row = (...cells: readonly CellValue[]): readonly (readonly CellValue[])[] => [cells];

  // Microsoft's page TEXTSPLIT.
  it("cuts into columns and rows", () => {
    expect(textSplit("Dakota Lennon Sanchez", " ")).toEqual(row("Dakota", "Lennon", "Sanchez"));
    expect(textSplit("1,2,3;4,5,6", ",", ";")).toEqual([
      ["1", "2", "3"],
      ["4", "5", "6"],
    ]);
    expect(textSplit("1,2;3", ",", ";")).toEqual([
      ["1", "2"],
      ["3", NA],
    ]);
    expect(textSplit("1,2;3", ",", ";", null, null, "-")[1]).toEqual(["3", "-"]);
    expect(textSplit("1,2;3", ",", ";", null, null, row("-"))[1]).toEqual(["3", "-"]);
    expect(textSplit("a;b", null, ";")).toEqual([["a"], ["b"]]);
  });

  it("knows several delimiters, the longer before the shorter, and signs of expressions", () => {
    expect(textSplit("a-b--c.d", row("-", "--", "."))).toEqual(row("a", "b", "c", "d"));
    expect(textSplit("a--b", row("-", "--"))).toEqual(row("a", "b"));
    expect(textSplit("a.b", ".")).toEqual(row("a", "b"));
    expect(textSplit("a+b|c", row("+", "|"))).toEqual(row("a", "b", "c"));
  });

  it("keeps empty pieces, or not, and letters by their case, or not", () => {
    expect(textSplit("a,,b", ",")).toEqual(row("a", "", "b"));
    expect(textSplit("a,,b", ",", undefined, false)).toEqual(row("a", "", "b"));
    expect(textSplit("a,,b", ",", undefined, true)).toEqual(row("a", "b"));
    expect(textSplit("a,b;;c,d", ",", ";", true)).toEqual([
      ["a", "b"],
      ["c", "d"],
    ]);
    expect(textSplit("1x2X3", "x")).toEqual(row("1", "2X3"));
    expect(textSplit("1x2X3", "x", undefined, false, 1)).toEqual(row("1", "2", "3"));
    expect(textSplit("1x2X3", "x", undefined, false, 0)).toEqual(row("1", "2X3"));
  });

  it("takes the first piece of each of several texts", () => {
    expect(textSplit([["a,b"], ["c,d"]], ",")).toEqual([["a"], ["c"]]);
    expect(textSplit([["a,b"]], ",")).toEqual(row("a", "b"));
    expect(textSplit(12.5, ".")).toEqual(row("12", "5"));
  });

  it("wants a delimiter", () => {
    expect(() => textSplit("a,b")).toThrow("#VALUE!");
    expect(() => textSplit("a,b", null)).toThrow("#VALUE!");
    expect(() => textSplit("a,b", "")).toThrow("#VALUE!");
    expect(() => textSplit(NA, ",")).toThrow("#N/A");
  });
});

describe("regular expressions", () => {
  // Microsoft's pages REGEXTEST, REGEXEXTRACT and REGEXREPLACE.
  it("are tested in either case", () => {
    expect(regexTest("alfalfa", "a")).toBe(true);
    expect(regexTest("alfalfa", "[0-9]")).toBe(false);
    expect(regexTest("alfalfa", "A")).toBe(false);
    expect(regexTest("alfalfa", "A", 1)).toBe(true);
    expect(regexTest("alfalfa", "A", 0)).toBe(false);
    expect(() => regexTest("a", "(")).toThrow("#VALUE!");
  });

  it("extract the first match, all or the groups", () => {
    const names = "DylanWilliams";
    expect(regexExtract(names, "[A-Z][a-z]+")).toEqual([["Dylan"]]);
    expect(regexExtract(names, "[A-Z][a-z]+", 0)).toEqual([["Dylan"]]);
    expect(regexExtract(names, "[A-Z][a-z]+", 1.9)).toEqual([["Dylan", "Williams"]]);
    expect(regexExtract(names, "([A-Z])([a-z]+)", 2)).toEqual([["D", "ylan"]]);
    expect(regexExtract([["abc"]], [["B"]], [[0]], [[1]])).toEqual([["b"]]);
    expect(() => regexExtract(names, "[0-9]")).toThrow("#N/A");
    expect(() => regexExtract(names, "B")).toThrow("#N/A");
    expect(() => regexExtract(names, "D", 3)).toThrow("#VALUE!");
    expect(() => regexExtract(names, "D", -1)).toThrow("#VALUE!");
  });

  it("replace all matches or one of them", () => {
    expect(regexReplace("a1b2c3", "[0-9]", "#")).toBe("a#b#c#");
    expect(regexReplace("a1b2c3", "[0-9]", "#", 0)).toBe("a#b#c#");
    expect(regexReplace("a1b2c3", "[0-9]", "#", 1)).toBe("a#b2c3");
    expect(regexReplace("a1b2c3", "[0-9]", "#", 2)).toBe("a1b#c3");
    expect(regexReplace("a1b2c3", "[0-9]", "#", -1)).toBe("a1b2c#");
    expect(regexReplace("a1b2c3", "[0-9]", "#", -3)).toBe("a#b2c3");
    expect(regexReplace("a1b2c3", "[0-9]", "#", 4)).toBe("a1b2c3");
    expect(regexReplace("SoniaBrown", "([A-Z][a-z]+)([A-Z][a-z]+)", "$2, $1")).toBe("Brown, Sonia");
    expect(regexReplace("SoniaBrown", "([A-Z])([a-z]+)", "$2$1", 2)).toBe("SoniarownB");
    expect(regexReplace("abc", "B", "x", 0, 1)).toBe("axc");
    expect(regexReplace("abc", "B", "x")).toBe("abc");
  });
});

describe("dates", () => {
  it.each([
    ["yyyy-mm-dd", true],
    ["h:mm", true],
    ["[h]:mm", true],
    ["0.00", false],
    ["General", false],
    ['0 "days"', false],
    ["0\\d", false],
    ["[Red]0", false],
    ["S", true],
  ])("the format %s writes one: %s", (format, isDate) => {
    expect(isDateFormat(format)).toBe(isDate);
  });

  it.each([
    ["1/2/2026", true],
    ["01.02.26", true],
    [" 12-11-2026 ", true],
    ["2/2/2026", false],
    ["13/2/2026", false],
    ["2/13/2026", false],
    ["12/13/2026", false],
    ["12/1/2026", true],
    ["1/12/2026", true],
    ["2026-01-02", false],
    ["1/2", false],
    ["x1/2/2026", false],
    ["1/2/2026x", false],
    ["111/2/2026", false],
    ["1/2/20261", false],
  ])("%s is two: %s", (text, isTwo) => {
    expect(isTwoDates(text)).toBe(isTwo);
  });
});
