import { describe, expect, it } from "vitest";
import { formulaFault } from "../../src/desk/formula-fault";

const known = {
  functions: ["SUM", "IF", "VLOOKUP", "SUMIFS", "LET", "XLOOKUP", "BLN.COUNT_SPHERE", "BLN.METRES"],
  names: ["bag_price", "Prices"],
};

describe("a formula that cannot be meant so", () => {
  it.each([
    ["=COUNT_SPHERE(2)", "no function is called COUNT_SPHERE", "=BLN.COUNT_SPHERE(2)"],
    ["=BLN.METERS(2)", "no function is called BLN.METERS", "=BLN.METRES(2)"],
    ["=VLOKUP(A1,B:C,2)", "no function is called VLOKUP", "=VLOOKUP(A1,B:C,2)"],
    ["=bag_prize*2", "this workbook has no name bag_prize", "=bag_price*2"],
    ["=WHATEVERITIS(1)", "no function is called WHATEVERITIS", undefined],
  ])("%s names what is not there", (typed, sentence, suggestion) => {
    expect(formulaFault(typed, known)).toEqual({
      sentence,
      isBroken: false,
      ...(suggestion && { suggestion }),
    });
  });

  it.each([
    ["=SUM(A1;A2)", "commas stand between the arguments of a formula, not semicolons", "=SUM(A1,A2)"],
    [
      "=SUM(1,8;A2)",
      "commas stand between the arguments of a formula, not semicolons",
      // With semicolons between the arguments a comma can only be a decimal mark.
      "=SUM(1.8,A2)",
    ],
    ["=SUM(A1,IF(A2,1)", "a bracket is not closed", "=SUM(A1,IF(A2,1))"],
    ["=A1+", "something is missing after +", undefined],
    ["=*3", "something is missing before *", undefined],
    ["=SUM(A1,", "something is missing after ,", undefined],
    ['="a', "a text has no closing quote", undefined],
    ["=A1 3", "something is missing between A1 and 3", undefined],
    ["=A1)", "a bracket closes that was never opened", undefined],
    ["=", "the formula is empty", undefined],
    ["=A1$$", "the sign $ means nothing in a formula", undefined],
  ])("%s is no formula", (typed, sentence, suggestion) => {
    expect(formulaFault(typed, known)).toEqual({
      sentence,
      isBroken: true,
      ...(suggestion && { suggestion }),
    });
  });

  it.each([
    "=SUM(A1:A3, -B2)*50%",
    '=IF(bag_price>=2,"a;b",{1,2;3,4})',
    "=LET(x,1,x+1)",
    '=BLN_METRES("2 ft")&TRUE',
    "=Prices[@cost]+Prices[[#Totals],[cost]]",
    "='My list'!A1+Quote!B2:C3 B2:B9",
    "=-A1^-2",
    "=XLOOKUP(2,D2:D4,D2:D4)+D2#",
    "=SUM(A:A)+(1)",
  ])("%s is fine", (typed) => {
    expect(formulaFault(typed, known)).toBeUndefined();
  });
});
