import { expect, it } from "vitest";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { workbookOf } from "../workbook-of";
import { LEFT_FORMULAS } from "./left-formulas";
import { LEFT, quickly } from "./quickly";

// Microsoft's page SUM: text in references is left out; page IF: a branch that is a reference gives the reference.
it.each([
  ["SUM(IF(TRUE,A1))", 0],
  ["SUM(IF(TRUE,A1),1)", 1],
  ["MAX(IF(A2>0,A1,A2),2)", 2],
  ["SUM(IF(A2>0,A2,A1))", 3],
  ["SUM(IFERROR(A1,0))", 0],
  ["IF(TRUE,A3)", 0],
  ['IF(TRUE,A3)&""', ""],
  ["IF(TRUE,A1)+1", 6],
  ["SUM(A1,A2)", 3],
])("%s over a text that spells a number is %j", async (formula, value) => {
  const engine = new UniverEngine([]);
  await engine.load(workbookOf({ S: { A1: "5", A2: 3, C1: `=${formula}` } }));
  await engine.recalculate();
  expect(engine.value({ sheet: 0, row: 0, column: 2 })).toBe(value);
  engine.dispose();
});

// Microsoft's pages of the functions: in references only numbers count and errors go on, typed logical values are 1 and 0.
it.each([
  ["SUM(B1:B4)", 100],
  ["SUM(B1:B4,C1:C4,4)", 120],
  ["SUM(B1:B2,TRUE)", 31],
  ["SUM(D1:D5)", 2],
  ["SUM(A1:A8)", 0],
  ["SUM(E1:E3)", "#DIV/0!"],
  ["SUM(E2:E3,E1)", "#N/A"],
  ["SUM(B1,#N/A,1/0)", "#N/A"],
  ["SUM(E3,1/0)", "#DIV/0!"],
  ["SUM(L1:L2)", "#NUM!"],
  ["SUM(L1:L4)", "#NUM!"],
  ["SUM(L1,L3)", 0],
  ["SUM(B:B)", 100],
  ["SUM('Price list'!1:2)", 7.3],
  ["SUM('Price list'!B1:C2)", 7.3],
  ["AVERAGE(B1:B4)", 25],
  ["AVERAGE(B1:B2,30)", 20],
  ["AVERAGE(TRUE,2)", 1.5],
  ["AVERAGE(D1:D5)", 2],
  ["AVERAGE(A1:A4)", "#DIV/0!"],
  ["AVERAGE(E2:E3)", "#N/A"],
  ["AVERAGE(L1:L2)", "#NUM!"],
  ["MIN(B1:B4)", 10],
  ["MIN(F1:F3)", 10],
  ["MIN(G1:G4)", 1],
  ["MIN(-1,-5,B1)", -5],
  ["MIN(A1:A4)", 0],
  ["MIN(E1:E3)", "#DIV/0!"],
  ["MAX(B1:B4)", 40],
  ["MAX(F1:F3)", 30],
  ["MAX(-1,-5)", -1],
  ["MAX(A1:A4)", 0],
  ["MAX(D1:D5,TRUE)", 2],
  ["COUNT(B1:B5)", 4],
  ["COUNT(B1:B4,C2:C4)", 7],
  ["COUNT(D1:D5)", 1],
  ["COUNT(E1:E3)", 1],
  ["COUNT(A1:A8)", 0],
  ["COUNTA(A1:A8)", 7],
  ["COUNTA(D1:D5,E1:E3)", 7],
  ["COUNTA(M1:M4)", 4],
  // Page SUMPRODUCT: what is no number counts as 0. 10 + 60 + 150 + 280.
  ["SUMPRODUCT(B1:B4,C1:C4)", 500],
  ["SUMPRODUCT(D1:D5,B1:B5)", 80],
  ["SUMPRODUCT(B1:B4,D1:D4)", 80],
  ["SUMPRODUCT(B1:C2,B1:C2)", 510],
  ["SUMPRODUCT(H2:K2,H2:K2)", 30],
  ["SUMPRODUCT(B1:B4,C1:C4,C1:C4)", 10 + 180 + 750 + 1960],
  ["SUMPRODUCT(E1:E3,B1:B3)", "#DIV/0!"],
  ["SUMPRODUCT(B1:B3,E1:E3)", "#DIV/0!"],
  ["SUMPRODUCT(B2:B3,E2:E3)", "#N/A"],
  // Page SUMPRODUCT: arrays of other dimensions are #VALUE!.
  ["SUMPRODUCT(B1:B4,C1:C3)", "#VALUE!"],
  ["SUMPRODUCT(B1:B2,B1:C2)", "#VALUE!"],
  ["SUMPRODUCT(B1:B4,H2:K2)", "#VALUE!"],
  ["SUMPRODUCT(B1:B4,C1:C4,C1:C3)", "#VALUE!"],
  ["SUMPRODUCT(B1:B4,C1)", "#VALUE!"],
  // An error beside a blank cell is an error too.
  ["SUMPRODUCT(M8:M9,E1:E2)", "#DIV/0!"],
  ["SUMPRODUCT(B4:B7,O4:O7)", "#N/A"],
  // The errors of the first area come before those of the others: as Univer gives it.
  ["SUMPRODUCT(P1:P2,Q1:Q2)", "#N/A"],
  ["SUMPRODUCT(L1:L2,B1:B2)", "#NUM!"],
])("%s is %j", async (formula, value) => {
  const found = await quickly(formula);
  if (typeof value === "number") expect(found).toBeCloseTo(value, 12);
  else expect(found).toBe(value);
});

it.each(LEFT_FORMULAS.sum)("%s is left to Univer", async (formula) => {
  expect(await quickly(formula)).toBe(LEFT);
});
