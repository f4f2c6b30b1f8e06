import { expect, it } from "vitest";
import { LEFT_FORMULAS } from "./left-formulas";
import { LEFT, quickly } from "./quickly";

// Microsoft's pages of the functions, over the cells of `SHEETS`.
it.each([
  ["IF(TRUE,1,2)", 1],
  ["IF(FALSE,1,2)", 2],
  ['IF(B1>5,"more","less")', "more"],
  ["IF(FALSE,1)", false],
  ["IF(TRUE,,2)", 0],
  ["IF(FALSE,1,)", 0],
  ["IF(0,1,2)", 2],
  ["IF(-0.5,1,2)", 1],
  ["IF(A5,1,2)", 2],
  ["IF(D5,1,2)", 2],
  ["IF(M1,1,2)", 1],
  ["IF(M2,1,2)", 2],
  ["IF(A1,1,2)", "#VALUE!"],
  ['IF("xtrue",1,2)', "#VALUE!"],
  ['IF("truex",1,2)', "#VALUE!"],
  ['IF("xfalse",1,2)', "#VALUE!"],
  ['IF("falsex",1,2)', "#VALUE!"],
  ["IF(E1,1,2)", "#DIV/0!"],
  ["IF(TRUE,E2,1)", "#N/A"],
  ["IF(TRUE,1,1/0)", 1],
  ["SUM(IF(TRUE,B1:B4,C1:C4))", 100],
  ["SUM(IF(FALSE,B1:B4,C1:C4))", 16],
  ["IFERROR(1/0,7)", 7],
  ["IFERROR(E2,A1)", "red"],
  ["IFERROR(A1,0)", "red"],
  ["IFERROR(E1,E2)", "#N/A"],
  ["IFERROR(0,5)", 0],
  ["_xlfn.IFNA(E2,1)", 1],
  ["_xlfn.IFNA(E1,1)", "#DIV/0!"],
  ["_xlfn.IFNA(3,1)", 3],
  ["AND(TRUE,TRUE)", true],
  ["AND(TRUE,FALSE)", false],
  ["AND(FALSE,TRUE)", false],
  ["AND(1,0.5)", true],
  ["AND(1,0)", false],
  ["OR(TRUE,FALSE)", true],
  ["OR(FALSE,TRUE)", true],
  ["OR(FALSE,0)", false],
  ["AND(B1:B4)", true],
  ["AND(D1:D4)", true],
  ["AND(D1:D5)", false],
  ["OR(D1:D5)", true],
  ["OR(A1:A4,D5)", false],
  ["AND(A1:A4,TRUE)", true],
  // No logical value at all: page AND.
  ["OR(A1:A4)", "#VALUE!"],
  ["AND(M1:M2)", "#VALUE!"],
  ["AND(A5)", "#VALUE!"],
  ['AND("TRUE",1)', true],
  ['OR("false")', false],
  ['AND("x")', "#VALUE!"],
  ["AND(E1:E3)", "#DIV/0!"],
  ["OR(E2:E3,E1)", "#N/A"],
  ["OR(TRUE,E2)", "#N/A"],
  ["AND(FALSE,1/0)", "#DIV/0!"],
  ["AND(#N/A,1/0)", "#N/A"],
  ["NOT(TRUE)", false],
  ["NOT(0)", true],
  ["NOT(B1)", false],
  ["NOT(A5)", true],
  ["NOT(E1)", "#DIV/0!"],
])("%s is %j", async (formula, value) => {
  expect(await quickly(formula)).toBe(value);
});

it.each(LEFT_FORMULAS.logical)("%s is left to Univer", async (formula) => {
  expect(await quickly(formula)).toBe(LEFT);
});
