import { expect, it } from "vitest";
import { LEFT, quickly } from "./quickly";

// Excel takes none of these as typed, but a file of another program may hold them: Microsoft's pages of the functions.
it.each([
  ...["IF()", "IF(TRUE)", "IF(TRUE,1,2,3)", "IFERROR()", "IFERROR(1)", "IFERROR(1,2,3)", "_xlfn.IFNA(1)"],
  ...["NOT()", "NOT(1,2)", "AND()", "OR()", "SUM()", "AVERAGE()", "MIN()", "COUNT()", "COUNTA()", "SUMPRODUCT()"],
  ...["VLOOKUP()", "VLOOKUP(20)", "VLOOKUP(20,B1:C4)", "VLOOKUP(20,B1:C4,2,FALSE,1)", "VLOOKUP(20,B1:C4,)"],
  ...["MATCH()", "MATCH(20)", "MATCH(20,B1:B4,0,1)", "INDEX()", "INDEX(B1:B4)", "INDEX(B1:B4,1,1,1)"],
  ...["_xlfn.XLOOKUP()", "_xlfn.XLOOKUP(20)", "_xlfn.XLOOKUP(20,B1:B4)"],
  ...["COUNTIF()", "COUNTIF(B1:B4)", "COUNTIF(B1:B4,1,B1:B4,1)", "COUNTIFS()", "COUNTIFS(B1:B4)", "COUNTIFS(B1:B4,1,C1:C4)"],
  ...["SUMIF()", "SUMIF(B1:B4)", "SUMIF(B1:B4,1,B1:B4,1)", "AVERAGEIF(B1:B4)", "SUMIFS()", "SUMIFS(B1:B4)"],
  ...["SUMIFS(B1:B4,C1:C4)", "SUMIFS(B1:B4,C1:C4,1,C1:C4)", "_xlfn.MAXIFS(B1:B4,C1:C4)"],
  ...["ROUND()", "ROUND(1)", "ROUND(1,2,3)", "INT()", "INT(1,2)", "MOD(1)", "SQRT()", "ABS(1,2)"],
])("%s, with too few or too many arguments, is left to Univer", async (formula) => {
  expect(await quickly(formula)).toBe(LEFT);
}); // prettier-ignore
