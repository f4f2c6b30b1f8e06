import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fileFormula, ourFunction, typedFormula } from "../../src/formula/names";
import { tokenize, variablePositions } from "../../src/formula/tokens";

// How files spell formulas: [MS-XLSX] 2.2.2 (future functions), and formulas that Excel itself wrote.
const PAIRS: readonly (readonly [typed: string, file: string])[] = [
  ["BLN.COUNT_SPHERE(A1,11)", "_xldudf_BLN_COUNT_SPHERE(A1,11)"],
  ["XLOOKUP(B2,B5:B14,C5:D14)", "_xlfn.XLOOKUP(B2,B5:B14,C5:D14)"],
  ["SORT(FILTER(A1:A9,B1:B9>2))", "_xlfn._xlws.SORT(_xlfn._xlws.FILTER(A1:A9,B1:B9>2))"],
  ["LET(x,A1,y,x+1,x*y)", "_xlfn.LET(_xlpm.x,A1,_xlpm.y,_xlpm.x+1,_xlpm.x*_xlpm.y)"],
  ["MAP(A1:A3,LAMBDA(v,v*2))", "_xlfn.MAP(A1:A3,_xlfn.LAMBDA(_xlpm.v,_xlpm.v*2))"],
  ["SUM(A1#)", "SUM(_xlfn.ANCHORARRAY(A1))"],
  ["SUM('Price list'!B2#)", "SUM(_xlfn.ANCHORARRAY('Price list'!B2))"],
  ["@A1:A9", "_xlfn.SINGLE(A1:A9)"],
  ["SUM(VLOOKUP(A1,B:C,2,0),1)", "SUM(VLOOKUP(A1,B:C,2,0),1)"],
  ['"_xlfn.XLOOKUP("&A1', '"_xlfn.XLOOKUP("&A1'],
  ["'_xlfn.odd'!A1+STDEV.S(B1:B4)", "'_xlfn.odd'!A1+_xlfn.STDEV.S(B1:B4)"],
  ["Table1[[#This Row],[_xlfn.x]]", "Table1[[#This Row],[_xlfn.x]]"],
];

describe("formula names", () => {
  it.each(PAIRS)("writes %s for a file", (typed, file) => {
    expect(fileFormula(typed)).toBe(file);
  });

  it.each(PAIRS)("reads %s back", (typed, file) => {
    expect(typedFormula(file)).toBe(typed);
  });

  it("leaves a formula in file form as it is", () => {
    for (const [, file] of PAIRS) expect(fileFormula(file)).toBe(file);
  });

  it("writes the current row of a table as files do", () => {
    expect(fileFormula("Prices[@Price]*2")).toBe("Prices[[#This Row],[Price]]*2");
    expect(fileFormula("Prices[@[Bag price]]")).toBe("Prices[[#This Row],[Bag price]]");
  });

  it("knows our functions in every spelling and letter case", () => {
    for (const name of [
      "BLN.COUNT_SPHERE",
      "BLN_COUNT_SPHERE",
      "_xldudf_BLN_COUNT_SPHERE",
      "_xldudf_bln_count_sphere",
    ]) {
      expect(ourFunction(name)).toBe("COUNT_SPHERE");
    }
    expect(ourFunction("BLNX")).toBeUndefined();
    expect(ourFunction("SUM")).toBeUndefined();
    expect(typedFormula("_xldudf_bln_count_sphere(a1)")).toBe("BLN.COUNT_SPHERE(a1)");
  });

  it("keeps a variable apart from the same word outside its LET", () => {
    const tokens = tokenize("LET(x,1,x+LAMBDA(y,y)(2))+x+y");
    const variables = [...variablePositions(tokens)].map((at) => tokens[at]?.text);
    expect(variables).toEqual(["x", "x", "y", "y"]);
  });

  it("cuts any text so that the pieces give it back", () => {
    const piece = fc.constantFrom(
      "A1",
      "$B$2:C9",
      "'a b'!",
      '"x""y"',
      "SUM",
      "(",
      ")",
      ",",
      " ",
      "#",
      "#N/A",
      "[@x]",
      "1.5E3",
      "é",
      "'",
      '"',
      "[",
      "{",
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.array(piece).map((pieces) => pieces.join("")),
        ),
        (text) => {
          expect(
            tokenize(text)
              .map((token) => token.text)
              .join(""),
          ).toBe(text);
        },
      ),
    );
  });
});
