import { afterEach, expect, it, vi } from "vitest";
import type { EngineFunction } from "../../../src/sheet/engine";
import { LazyUniver } from "../../../src/sheet/lazy-univer";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { type TestCell, workbookOf } from "../workbook-of";

const brought = vi.spyOn(LazyUniver.prototype, "bring");

const parameter = (name: string, takesRange: boolean) => ({ name, text: "", isOptional: true, takesRange });
/** Tells what it was given. */
const TELL: EngineFunction = {
  name: "TELL",
  text: "",
  parameters: [parameter("cells", true), parameter("value", false)],
  call: (args) => ({ kind: "value", value: JSON.stringify(args) }),
};
const TABLE: EngineFunction = {
  name: "TABLE",
  text: "",
  parameters: [parameter("rows", false), parameter("width", false)],
  call: ([rows, width]) => ({
    kind: "table",
    rows: Array.from({ length: Number(rows) }, (_, row) =>
      Array.from({ length: Number(width) }, (__, column) =>
        row === 1 && column === 1
          ? { error: "#N/A", sentence: "there is none" }
          : row === 0
            ? `head ${column + 1}`
            : 10 * row + column,
      ),
    ),
  }),
};

let engine = new UniverEngine([]);
afterEach(() => {
  engine.dispose();
});

async function outcome(formula: string, fast: boolean): Promise<unknown> {
  engine.dispose();
  engine = new UniverEngine([TELL, TABLE], { fast });
  const cells: Record<string, TestCell> = { A1: 2, A2: "x", A3: true, C1: { f: formula, kind: "normal" } };
  await engine.load(workbookOf({ S: cells }));
  const { computed, uncomputed } = await engine.recalculate();
  return [engine.value({ sheet: 0, row: 0, column: 2 }), computed[0]?.sentences, uncomputed];
}

// An array as an argument, and one cell of a table that a function gives.
it.each([
  ['BLN_TELL({"name","kind";"Tables",11})', true],
  ['BLN_TELL({-1.5,1E3,TRUE,#N/A;"","6 ft","say ""a""",0})', true],
  ["BLN_TELL({5})", true],
  ["BLN_TELL( { 1 , 2 ; 3 , 4 } , 7)", true],
  ["BLN_TELL(A1:A3,A1)", true],
  ["INDEX(BLN_TABLE(3,2),1,2)", true],
  ["INDEX(BLN_TABLE(3,2),3,1)+1", true],
  ["INDEX(BLN_TABLE(3,2),2,2)", true],
  ["IFERROR(INDEX(BLN_TABLE(3,2),2,2),0)", true],
  ["INDEX(BLN_TABLE(3,2),4,1)", true],
  ["INDEX(BLN_TABLE(3,2),1,3)", true],
  ["INDEX(BLN_TABLE(3,1),2)", true],
  ["INDEX(BLN_TABLE(1,3),2)", true],
  ["INDEX(BLN_TABLE(3,A1),A1,1)", true],
  ["INDEX(INDEX(A1:A3,2),1)", true],
  // Not clear, or of another meaning: Univer's.
  ["BLN_TELL(A1,{1,2})", false],
  ["BLN_TELL({1,2;3})", false],
  ["SUM({1,2;3,4})", false],
  ["INDEX({1,2;3,4},2,1)", false],
  ["INDEX(BLN_TABLE(1,1),1,1)", false],
  ["INDEX(BLN_TABLE(3,2),0,1)", false],
  ["INDEX(BLN_TABLE(3,2),2)", false],
  ["SUM(INDEX(BLN_TABLE(3,2),0,1))", false],
])("%s is computed as by Univer", async (formula, isNative) => {
  brought.mockClear();
  const now = await outcome(formula, true);
  expect(brought.mock.calls.length > 0).toBe(!isNative);
  expect(now).toEqual(await outcome(formula, false));
});

// Microsoft support, Guidelines and examples of array formulas: what stands in quotes in an array constant is text. Univer's
// own reading makes numbers of the first three and cuts the others at their signs.
it.each([
  ['{"50%","1 May","17:00"}', [["50%", "1 May", "17:00"]]],
  ['{"a, b";"c;d"}', [["a, b"], ["c;d"]]],
  ['{"{x}","1,000"}', [["{x}", "1,000"]]],
])("a text in the array %s stays that text", async (array, rows) => {
  const [value] = (await outcome(`BLN_TELL(${array})`, true)) as readonly string[];
  expect(JSON.parse(value ?? "")).toEqual([rows]);
});
