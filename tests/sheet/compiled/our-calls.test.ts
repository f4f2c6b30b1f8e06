import { afterEach, expect, it, vi } from "vitest";
import type { EngineFunction } from "../../../src/sheet/engine";
import { LazyUniver } from "../../../src/sheet/lazy-univer";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { type TestCell, workbookOf } from "../workbook-of";
import { LEFT, quickly } from "./quickly";

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

const RAGGED: EngineFunction = {
  name: "RAGGED",
  text: "",
  parameters: [],
  call: () => ({ kind: "table", rows: [[1], [2, 3]] }),
};
/** Gives what it is asked for. */
const GIVE: EngineFunction = {
  name: "GIVE",
  text: "",
  parameters: [parameter("value", false)],
  call: ([value]) => {
    if (value === "throw") throw new Error("it broke");
    if (value === "fail") return { kind: "error", code: "#NUM!", sentence: "there are too many" };
    if (value === "odd") return { kind: "error", code: "#ODD!", sentence: "it is odd" };
    if (value === "infinite") return { kind: "value", value: Infinity };
    if (value === "zero") return { kind: "value", value: -0 };
    // Microsoft support, Excel specifications and limits: 32,767 characters.
    if (value === "longest") return { kind: "value", value: "x".repeat(32_767) };
    if (value === "long") return { kind: "value", value: "x".repeat(32_768) };
    return { kind: "value", value: value as number | string | boolean };
  },
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

// The table's head, and its cells as they were made: ten times the row, and the column.
it.each([
  ["INDEX(BLN_TABLE(3,2),1,2)", "head 2"],
  ["INDEX(BLN_TABLE(3,2),3,1)", 20],
  ["INDEX(BLN_TABLE(3,2),3,2)+1", 22],
  ["INDEX(BLN_TABLE(2,1),2)", 10],
  ["INDEX(BLN_TABLE(1,2),2)", "head 2"],
  ["INDEX(BLN_TABLE(1,2),1,2)", "head 2"],
  ["INDEX(BLN_TABLE(3,2),2,2)", "#N/A"],
  ["IFERROR(INDEX(BLN_TABLE(3,2),2,2),7)", 7],
  ["INDEX(BLN_TABLE(3,2),4,1)", "#REF!"],
  ["INDEX(BLN_TABLE(3,2),1,3)", "#REF!"],
  ["INDEX(BLN_TABLE(1,1),1,1)", LEFT],
  ["INDEX(BLN_TABLE(0,0),1,1)", LEFT],
  ["INDEX(BLN_RAGGED(),1,1)", LEFT],
  ["SUM(BLN_TABLE(3,2))", LEFT],
  ["AND(BLN_TABLE(3,2))", LEFT],
  ["COUNT(BLN_TABLE(3,2))", LEFT],
  ["BLN_TABLE(3,2)", LEFT],
  ["BLN_TABLE(3,2)+1", LEFT],
  ["BLN_TELL(BLN_TABLE(3,2))", LEFT],
  ["BLN_TELL(A1,A1:A3)", LEFT],
  ["BLN_TELL(1,2,3)", LEFT],
  ["BLN_NO_SUCH(1)", LEFT],
  ["BLN_TELL(A1:B2,A1)", '[[[2,null],["x",null]],2]'],
  ["BLN_TELL(A1:A2)", '[[[2],["x"]]]'],
  ["BLN_TELL(A1,)", "[[[2]],null]"],
  ["BLN_TELL(,A2)", '[null,"x"]'],
  ["BLN_TELL(1/0)", '[{"error":"#DIV/0!"}]'],
  ["BLN_TELL(1,1/0)", "#DIV/0!"],
  ["BLN_GIVE(A1)", 2],
  ["BLN_GIVE(A3)", true],
  ['BLN_GIVE("")', ""],
  ['BLN_GIVE("throw")', "#VALUE!"],
  ['BLN_GIVE("infinite")', LEFT],
  ['BLN_GIVE("zero")', 0],
  ['BLN_GIVE("fail")', "#NUM!"],
  ['BLN_GIVE("odd")', "#VALUE!"],
  ['BLN_GIVE(REPT("x",9))', LEFT],
  ['BLN_GIVE("long")', LEFT],
  ['BLN_GIVE("longest")', "x".repeat(32_767)],
])("%s gives %j at once", async (formula, value) => {
  const found = await quickly(formula, { S: { A1: 2, A2: "x", A3: true } }, {}, [TELL, TABLE, RAGGED, GIVE]);
  expect(found).toBe(value);
});

it("fills a table of ours at once", async () => {
  expect(await quickly({ f: "BLN_TABLE(3,2)", kind: "dynamic" }, { S: {} }, {}, [TABLE])).toBe("head 1");
});

it("says in a failing cell why, in a table in each of its cells", async () => {
  const cells: Record<string, TestCell> = {
    A1: '=BLN_GIVE("fail")',
    A2: '=BLN_GIVE("throw")+1',
    A3: "=BLN_TELL(1,1/0)",
    A4: '=IFERROR(BLN_GIVE("fail"),"hidden")',
    A5: "=BLN_GIVE(2)",
    A6: "=SQRT(-1)",
    A7: '=IFERROR(BLN_GIVE("throw"),BLN_GIVE("odd"))',
    // A stored value gives way, as a function of ours says why.
    A8: { f: 'BLN_GIVE("fail")', v: 5 },
    C1: { f: "BLN_TABLE(3,2)", kind: "dynamic" },
    E1: { f: "BLN_RAGGED()", kind: "dynamic" },
    H1: { f: "BLN_TABLE(0,0)", kind: "dynamic" },
    H2: { f: "BLN_TABLE(2,0)", kind: "dynamic" },
    J1: { f: "BLN_TABLE(2,2)", v: "head 1", kind: "dynamic", range: "J1:K2" },
    K1: "head 2",
    J2: 10,
    K2: 11,
  };
  engine.dispose();
  engine = new UniverEngine([TELL, TABLE, RAGGED, GIVE]);
  await engine.load(workbookOf({ S: cells }));
  const { computed } = await engine.recalculate();
  const of = (row: number, column: number) =>
    computed.find((cell) => cell.row === row && cell.column === column);
  expect([0, 1, 2, 3, 4, 5, 6, 7].map((row) => [of(row, 0)?.value, of(row, 0)?.sentence])).toEqual([
    [{ error: "#NUM!" }, "there are too many"],
    [{ error: "#VALUE!" }, "it broke"],
    [{ error: "#DIV/0!" }, "value holds the error #DIV/0!"],
    ["hidden", undefined],
    [2, undefined],
    [{ error: "#NUM!" }, undefined],
    [{ error: "#VALUE!" }, "it is odd"],
    [{ error: "#NUM!" }, "there are too many"],
  ]);
  expect(of(0, 2)?.spilled).toEqual([
    ["head 1", "head 2"],
    [10, { error: "#N/A" }],
    [20, 21],
  ]);
  expect(of(0, 2)?.sentences).toEqual([{ row: 1, column: 3, sentence: "there is none" }]);
  expect(of(0, 4)?.spilled).toEqual([
    [1, { error: "#N/A" }],
    [2, 3],
  ]);
  // Microsoft support, How to correct a #CALC! error: an empty array.
  expect([0, 1].map((row) => of(row, 7)?.value)).toEqual([{ error: "#CALC!" }, { error: "#CALC!" }]);
  // What stands in the file gives way, as a function of ours says why.
  expect(of(0, 9)?.spilled?.[1]).toEqual([10, { error: "#N/A" }]);
});
