import { afterEach, expect, it } from "vitest";
import type { CellValue } from "../../../src/workbook/model";
import type { EngineFunction } from "../../../src/sheet/engine";
import { UniverEngine } from "../../../src/sheet/univer-engine";
import { errorText, type TestCell, workbookOf } from "../workbook-of";

/** Gives its first argument back as text that says what it was, and the number of rows of the second. */
const telling: EngineFunction = {
  name: "TELLING",
  text: "",
  parameters: [
    { name: "value", text: "", isOptional: true, takesRange: false },
    { name: "list", text: "", isOptional: true, takesRange: true },
  ],
  call: ([value = null, list = null]) => ({
    kind: "value",
    value: `${value === null ? "nothing" : typeof value} ${Array.isArray(list) ? list.length : 0}`,
  }),
};

let engine = new UniverEngine([telling]);
afterEach(() => {
  engine.dispose();
});

/** The values of formulas in column Z, from the top, over the cells of a sheet. */
async function valuesOf(
  formulas: readonly (string | TestCell)[],
  cells: Readonly<Record<string, TestCell>>,
  fast = true,
): Promise<readonly CellValue[]> {
  engine = new UniverEngine([telling], { fast });
  const own = Object.fromEntries(formulas.map((formula, index) => [`Z${index + 1}`, formula]));
  await engine.load(workbookOf({ S: { ...cells, ...own } }));
  await engine.recalculate();
  return formulas.map((_, row) => errorText(engine.value({ sheet: 0, row, column: 25 })));
}

// Sources: Microsoft support, the pages of the functions named, unless a line says otherwise.
const CELLS: Readonly<Record<string, TestCell>> = {
  A1: "apple", A2: "23", A3: 23, A4: "#N/A", A5: { error: "#NUM!" }, A6: true, A7: " x", A8: "a*",
  B1: 5, B2: 10, B3: 20, B4: 40, B6: 1,
  C1: 0.1, C2: 0.2, C3: 1.005, C4: 2.675,
  D1: "TRUE", D2: "50%", D3: "1234567890123456", D4: "1.5", D5: "",
  E1: "x", E2: "X", E3: "y",
  G1: 30, G2: 20, G3: 10,
}; // prettier-ignore

it.each<readonly [string, CellValue]>([
  // A condition finds the text that spells its number too, and leaves out only the number.
  ['COUNTIF(A1:A3,"=23")', 2],
  ['COUNTIF(A1:A3,"<>23")', 2],
  ['SUMIF(A1:A3,"23",B1:B3)', 30],
  // Whole columns have 1,048,576 rows, blank ones too.
  ['COUNTIF(B:B,"")', 1_048_576 - 5],
  ['COUNTIFS(B:B,"",C:C,"<>")', 0],
  ['COUNTIF(B1:B9,"")', 4],
  // Errors in ranges keep their kind; a text that looks like one is text.
  ["SUM(A1:A6)", "#NUM!"],
  ["AVERAGE(A5:B5)", "#NUM!"],
  ["COUNTA(A4:A5)", 2],
  ['A4="#N/A"', true],
  ["COUNT(A1:A6)", 1],
  // Logical values in texts.
  ['OR("TRUE")', true],
  ["OR(D1)", "#VALUE!"],
  ["IF(D1,1,2)", 1],
  ["IF(A1,1,2)", "#VALUE!"],
  ["AND(A6,B1)", true],
  // Text as number.
  ["D4+1", 2.5],
  ["D2+1", 1.5],
  ["D3+0", 1234567890123456],
  ["A1+1", "#VALUE!"],
  ["D5+1", "#VALUE!"],
  // Decimal sums and rounding: 1.005 is 1.01 to two decimals, 0.1+0.2 is 0.3.
  ["C1+C2=0.3", true],
  ["ROUND(C3,2)", 1.01],
  ["ROUND(C4,2)", 2.68],
  ["ROUND(-C3,2)", -1.01],
  ["SUM(C1:C2)=0.3", true],
  ["MOD(-7,3)", 2],
  ["MOD(5,0)", "#DIV/0!"],
  ["CEILING(2.1,0.5)", 2.5],
  ["INT(-2.5)", -3],
  ["ROUNDUP(2.001,2)", 2.01],
  ["ROUNDDOWN(-2.999,2)", -2.99],
  // Blank: 0 at the top, nothing beside text, FALSE beside logical.
  ["F1", 0],
  ['F1&"x"', "x"],
  ['F1=""', true],
  ["F1=0", true],
  ["F1=FALSE", true],
  ['IF(TRUE,F1)&"x"', "x"],
  ["IF(B1>1,,2)", 0],
  // Omitted arguments of ours.
  ["BLN.TELLING()", "nothing 0"],
  ["BLN.TELLING(,B1:B3)", "nothing 3"],
  ["BLN.TELLING(F1,B1)", "nothing 1"],
  ["BLN.TELLING(B1)", "number 0"],
  // Lookups.
  ["MATCH(20,B1:B4,0)", 3],
  ["MATCH(25,B1:B4)", 3],
  ["MATCH(4,B1:B4,1)", "#N/A"],
  ["MATCH(25,B1:B6,1)", 3],
  ["MATCH(15,G1:G3,-1)", 2],
  ['MATCH("app*",A1:A3,0)', 1],
  ['VLOOKUP("X",E1:E3,1,FALSE)', "x"],
  ["VLOOKUP(23,A1:B3,2,FALSE)", 20],
  ['VLOOKUP("23",A1:B3,2,FALSE)', 10],
  ["VLOOKUP(12,B1:C4,2,TRUE)", 0.2],
  ["VLOOKUP(5,B1:C4,3,FALSE)", "#REF!"],
  ["VLOOKUP(5,B1:C4,0,FALSE)", "#VALUE!"],
  ['_xlfn.XLOOKUP("zzz",E1:E3,B1:B3,"none")', "none"],
  ['_xlfn.XLOOKUP("Y",E1:E3,B1:B3)', 20],
  ['INDEX(B1:B4,MATCH("y",E1:E3,0))', 20],
  ["INDEX(B1:B4,9)", "#REF!"],
  ["SUMPRODUCT(B1:B3,C1:C3)", 0.5 + 2 + 20 * 1.005],
  // Precedence: the sign binds closer than the power, the percent sign closest.
  ["-2^2", 4],
  ["2^-1", 0.5],
  ["2*50%", 1],
  ["5%%", 0.0005],
  ["2^3^2", 64],
  ["1&2+3", "15"],
  ["1=1=TRUE", true],
])("=%s is %s", async (formula, value) => {
  const [found = null] = await valuesOf([`=${formula}`], CELLS);
  if (typeof value === "number") expect(found).toBeCloseTo(value, 12);
  else expect(found).toBe(value);
});

it("takes the cell of its row from a range where one value is wanted, whole columns too", async () => {
  expect(await valuesOf(["=B:B", "=B1:B4", "=B1:C1", "=B1:B4*2"], CELLS)).toEqual([5, 10, "#VALUE!", 80]);
});

it("computes a ring that goes through a branch which is not taken", async () => {
  // Excel computes IF branch by branch, and no ring closes: from memory.
  const cells = { A1: true, A2: "=IF(A1,1,A3)", A3: "=A2+1", A4: "=IF(A1,A5,1)", A5: "=A4+1" };
  await valuesOf([], cells);
  const { uncomputed } = await engine.recalculate();
  expect([1, 2].map((row) => engine.value({ sheet: 0, row, column: 0 }))).toEqual([1, 2]);
  expect(uncomputed.map(({ row, why }) => [row, why])).toEqual([
    [3, "it refers to itself, directly or through others"],
    [4, "it refers to itself, directly or through others"],
  ]);
  await engine.setCell({ sheet: 0, row: 0, column: 0 }, false);
  const turned = await engine.recalculate();
  expect(turned.uncomputed.map(({ row }) => row)).toEqual([1, 2]);
  expect([3, 4].map((row) => engine.value({ sheet: 0, row, column: 0 }))).toEqual([1, 2]);
});

it("waits for all that a range lacks at once, however long it grows", { timeout: 60_000 }, async () => {
  const rows = 600;
  const cells = Object.fromEntries(
    Array.from({ length: rows }, (_, index) => index + 1).flatMap((row): [string, TestCell][] => [
      [`A${row}`, row],
      [`B${row}`, row === rows ? `=A${row}` : `=B${row + 1}+A${row}`],
      [`C${row}`, `=SUM(B$1:B${row})`],
    ]),
  );
  let begun = 0;
  engine = new UniverEngine([]);
  await engine.load(workbookOf({ S: cells }));
  await engine.recalculate({ onFormula: () => begun++ });
  expect(engine.value({ sheet: 0, row: 0, column: 1 })).toBe((rows * (rows + 1)) / 2);
  // Each formula begins at most twice: once to find out what it waits for.
  expect(begun).toBeLessThanOrEqual(2 * 2 * rows);
});

it("leaves formulas whose names multiply", async () => {
  const text = (name: string): string => Array.from({ length: 10 }, () => name).join("+");
  const names = [1, 2, 3, 4].map((level) => ({
    name: `N${"x".repeat(level)}`,
    text: level === 1 ? "S!$A$1" : text(`N${"x".repeat(level - 1)}`),
    isHidden: false,
  }));
  engine = new UniverEngine([]);
  await engine.load(workbookOf({ S: { A1: 1, A2: "=Nxxx+1", A3: "=Nxxxx+1" } }, { names }));
  const { uncomputed } = await engine.recalculate();
  expect(engine.value({ sheet: 0, row: 1, column: 0 })).toBe(101);
  expect(uncomputed.map(({ row }) => row)).toEqual([2]);
});

it("is stopped and ended in time within long columns", { timeout: 60_000 }, async () => {
  // More than any machine computes in one slice of time.
  const length = 60_000;
  const cells = Object.fromEntries(
    Array.from({ length }, (_, index): [string, TestCell] => [`A${index + 2}`, `=A${index + 1}+1`]),
  );
  engine = new UniverEngine([]);
  await engine.load(workbookOf({ S: { A1: 1, ...cells } }));
  const stop = new AbortController();
  const run = engine.recalculate({
    signal: stop.signal,
    onProgress: (share) => {
      if (share < 1) stop.abort(new Error("stopped"));
    },
  });
  await expect(run).rejects.toThrow("stopped");
  const { computed } = await engine.recalculate();
  expect(computed.length).toBe(length);
  expect(engine.value({ sheet: 0, row: length, column: 0 })).toBe(length + 1);
});
