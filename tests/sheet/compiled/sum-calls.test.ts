import { expect, it } from "vitest";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { workbookOf } from "../workbook-of";
import { SUM_CASES } from "./call-cases";
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

it.each(SUM_CASES)("%s is %j", async (formula, value) => {
  const found = await quickly(formula);
  if (typeof value === "number") expect(found).toBeCloseTo(value, 12);
  else expect(found).toBe(value);
});

it.each(LEFT_FORMULAS.sum)("%s is left to Univer", async (formula) => {
  expect(await quickly(formula)).toBe(LEFT);
});
