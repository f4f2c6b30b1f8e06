import { describe, expect, it } from "vitest";
import { formulaValues } from "../../src/desk/formula-values";
import { makeEngine } from "../../src/desk/make-engine";
import { workbookOf } from "../sheet/workbook-of";

const engine = makeEngine();
await engine.load(
  workbookOf(
    { Job: { A1: "Colours" }, Lists: { A1: "gold", A2: "navy", A3: "ivory", B1: 11, C1: 5, C2: 12 } },
    {
      names: [
        { name: "Colours", text: "Lists!$A$1:$A$3", isHidden: false },
        { name: "Filled", text: "OFFSET(Lists!$A$1,0,0,COUNTA(Lists!$A:$A),1)", isHidden: false },
      ],
    },
  ),
);
await engine.recalculate();
const at = { sheet: 0, row: 0, column: 1 };

describe("the values of a formula", () => {
  it.each([
    ["INDIRECT(A1)", ["gold", "navy", "ivory"]],
    ["INDIRECT($A$1)", ["gold", "navy", "ivory"]],
    ["Filled", ["gold", "navy", "ivory"]],
    ["OFFSET(Lists!$A$1,0,0,2)", ["gold", "navy"]],
    ["OFFSET(Lists!$A$1,0,0,1,2)", ["gold", 11]],
    ["IF(TRUE,Lists!$C$1:$C$2,Colours)", [5, 12]],
    ["MAX(Lists!$C$1:$C$2)", [12]],
    ['LEN("four")=4', [true]],
    ["1/0", [{ error: "#DIV/0!" }]],
  ])("are told: %s", async (formula, values) => {
    expect(await formulaValues(engine, at, formula)).toEqual(values);
  });
});
