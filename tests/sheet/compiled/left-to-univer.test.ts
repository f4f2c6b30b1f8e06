import { expect, it } from "vitest";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { errorText, workbookOf } from "../workbook-of";
import { CONDITIONAL_CASES, LOGICAL_CASES, SUM_CASES } from "./call-cases";
import { LEFT_FORMULAS } from "./left-formulas";
import { LOOKUP_CASES } from "./lookup-cases";
import { SHEETS } from "./quickly";

it("gives what Excel gives where the compiled path leaves a formula", async () => {
  const engine = new UniverEngine([]);
  const cases = Object.values(LEFT_FORMULAS).flat();
  const own = Object.fromEntries(cases.map(([formula], row) => [`Z${row + 1}`, `=${formula}`]));
  await engine.load(workbookOf({ ...SHEETS, S: { ...SHEETS["S"], ...own } }));
  await engine.recalculate();
  const found = cases.map(([formula], row) => [
    formula,
    errorText(engine.value({ sheet: 0, row, column: 25 })),
  ]);
  engine.dispose();
  expect(found).toEqual(cases);
});

/** A value as it is compared: computed in another order, numbers differ in their last digit. */
const shown = (value: unknown): unknown =>
  typeof value === "number" ? Number(value.toPrecision(12)) : value;

it("gives what Excel gives for what the compiled path computes, too", async () => {
  const engine = new UniverEngine([], { fast: false });
  // Of sums beyond all numbers, and of errors as the number of a column, it gives another error.
  const cases = [...SUM_CASES, ...LOGICAL_CASES, ...CONDITIONAL_CASES, ...LOOKUP_CASES].filter(
    ([formula]) => !/^\w+\(L1:|B1:C4,(?:"x"|E2),/.test(formula),
  );
  const own = Object.fromEntries(cases.map(([formula], row) => [`Z${row + 20}`, `=${formula}`]));
  await engine.load(workbookOf({ ...SHEETS, S: { ...SHEETS["S"], ...own } }));
  await engine.recalculate();
  const found = cases.map(([formula], row) => [
    formula,
    shown(errorText(engine.value({ sheet: 0, row: row + 19, column: 25 }))),
  ]);
  engine.dispose();
  expect(found).toEqual(cases.map(([formula, value]) => [formula, shown(value)]));
});
