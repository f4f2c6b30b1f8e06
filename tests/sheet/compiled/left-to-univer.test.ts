import { expect, it } from "vitest";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { errorText, workbookOf } from "../workbook-of";
import { LEFT_FORMULAS } from "./left-formulas";
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
