import { expect, it } from "vitest";
import { parseRange } from "../../../src/formula/address";
import type { EngineFunction } from "../../../src/sheet/engine";
import type { DefinedName, TableModel } from "../../../src/workbook/model";
import { LEFT, quickly } from "./quickly";

const SHEETS = {
  S: {
    A1: "Item", B1: "Price", C1: "Qty", A2: "red", B2: 10, C2: 1, A3: "blue", B3: 20, C3: 2, A4: "gold", B4: 30, C4: 4,
    A5: "Total", B5: 60, C5: 7, Y3: 5, Y4: 6, D1: true, D2: 11,
  },
  "Price list": { A10: "Val", A11: 3, A12: 4, B1: 0.1, B2: 0.2 },
}; // prettier-ignore

function table(name: string, sheet: number, range: string, columns: string[], totalsRows = 0): TableModel {
  const area = parseRange(range);
  if (area === undefined) throw new Error(range);
  return { name, sheet, range: area, columns, headerRows: 1, totalsRows };
}

const name = (text: string, means: string, sheet?: number): DefinedName => ({
  name: text,
  text: means,
  isHidden: false,
  ...(sheet === undefined ? {} : { sheet }),
});

const EXTRA = {
  tables: [
    table("Prices", 0, "A1:C5", ["Item", "Price", "Qty"], 1),
    table("Far", 1, "A10:A12", ["Val"]),
    table("Own", 0, "Y1:Z4", ["P", "Q"]),
    table("One", 0, "D1:D2", ["Only"]),
  ],
  names: [
    name("Rate", "S!$B$2"),
    name("Half", "0.5"),
    name("Area", "S!$B$2:$B$4"),
    name("Twice", "Rate*2"),
    name("Both", "Rate+Half"),
    name("Moving", "S!B2"),
    name("Mixed", "S!$B$2+S!B2"),
    name("Local", "1"),
    name("Local", "2", 1),
    name("truex", "5"),
    name("xtrue", "6"),
    name("Column_of", "Prices[Price]"),
    name("Bad_column", "Prices[Nope]"),
    name("This_row", "Prices[@Price]"),
    name("Deep_0", "7"),
    ...Array.from({ length: 20 }, (_, depth) => name(`Deep_${depth + 1}`, `Deep_${depth}`)),
  ],
};

const TELL: EngineFunction = {
  name: "TELL",
  text: "",
  parameters: [{ name: "cells", text: "", isOptional: true, takesRange: true }],
  call: (args) => ({ kind: "value", value: JSON.stringify(args) }),
};

// Microsoft support: "Using structured references with Excel tables", "Define and use names in formulas", "Guidelines and
// examples of array formulas". Formulas stand in Z3.
it.each([
  ["TRUE", true],
  ["false", false],
  ["#N/A", "#N/A"],
  ["#DIV/0!", "#DIV/0!"],
  ["#REF!", "#REF!"],
  ["#num!", "#NUM!"],
  ['"say ""a"""', 'say "a"'],
  ["1.5E3", 1500],
  [" 1 + 2 ", 3],
  ["SUM( B2 , B3 )", 30],
  ["( ( B2 ) )", 10],
  ["$B$2+B$2+$B2", 30],
  ["SUM(B4:B2)", 60],
  ["SUM(C4:B2)", 67],
  ["SUM($B2:B$4)", 60],
  ["SUM(B:B)", 120],
  ["SUM(2:2)", 22],
  ["'Price list'!B1", 0.1],
  ["SUM('Price list'!B1:B2)", 0.3],
  ["sum(B2,B3)", 30],
  ["_xlfn.IFNA(#N/A,3)", 3],
  // Names.
  ["Rate*2", 20],
  ["rate*Half", 5],
  ["SUM(Area)", 60],
  ["Twice+1", 21],
  ["Both*2", 21],
  ["Twice+Twice+Twice", 60],
  ["Local", 1],
  ["'Price list'!Local", 2],
  ["truex", 5],
  ["xtrue", 6],
  ["SUM(Column_of)", 60],
  ["Deep_15", 7],
  // Tables.
  ["SUM(Prices[Price])", 60],
  ["SUM(prices[price])", 60],
  ["Prices[@Price]", 20],
  ["Prices[@Price]*Prices[@Qty]", 40],
  ["Prices[[#This Row],[Price]]", 20],
  ["SUM(Prices[@])", 22],
  ["SUM(Prices)", 67],
  ["SUM(Prices[])", 67],
  ["SUM(Prices[#Data])", 67],
  ["SUM(Prices[#All])", 134],
  ["SUM(Prices[#Totals])", 67],
  ["SUM(Prices[[Price]:[Qty]])", 67],
  ['MATCH("Qty",Prices[#Headers],0)', 3],
  ["Prices[Nope]", "#REF!"],
  ["Far[@Val]", "#VALUE!"],
  ["SUM(Far[Val])", 7],
  ["SUM(Far)", 7],
  ["[@P]*2", 10],
  ["SUM([P])", 11],
  // Arrays and calls of ours in all their spellings.
  ["BLN_TELL()", "[]"],
  ["BLN.TELL(B2)", "[[[10]]]"],
  ["_xldudf_BLN_TELL(B2)", "[[[10]]]"],
  ["BLN_TELL({5})", "[[[5]]]"],
  ["BLN_TELL({1,2;3,4})", "[[[1,2],[3,4]]]"],
  ["BLN_TELL( { 1 , 2 ; 3 , 4 } )", "[[[1,2],[3,4]]]"],
  ["BLN_TELL({-1.5,1E3;-0,0})", "[[[-1.5,1000],[0,0]]]"],
  ['BLN_TELL({TRUE,false;"true","false"})', '[[[true,false],["true","false"]]]'],
  ['BLN_TELL({#N/A,"#N/A"})', '[[[{"error":"#N/A"},"#N/A"]]]'],
  ['BLN_TELL({"","a, b";"say ""a""","{x}"})', '[[["","a, b"],["say \\"a\\"","{x}"]]]'],
])("%s is %j", async (formula, value) => {
  const found = await quickly(formula, SHEETS, EXTRA, [TELL]);
  if (typeof value === "number") expect(found).toBeCloseTo(value, 12);
  else expect(found).toBe(value);
});

// Broken, unknown, or meaning another thing in each cell.
it.each([
  "(1",
  "1)",
  "SUM(B2",
  "SUM(B2 B3",
  "1+",
  "*1",
  "SUM(1 2)",
  "SUM(1}",
  "B2 B3",
  "Nope",
  "Nope[Price]",
  "Nope!A1",
  "'[1]S'!A1",
  "[1]S!A1",
  "S!",
  "S!5",
  "SUM('S:Price list'!B2)",
  "XFE1",
  "A1048577",
  "A0",
  "SUM(B0:B2)",
  "_xlfn.ANCHORARRAY(B2)",
  "SUM(_xlfn.ANCHORARRAY(B2))",
  "SUM(_xlfn.ANCHORARRAY(Rate))",
  "#SPILL!",
  "#NAME?",
  "FOO(1)",
  "Moving",
  "Mixed",
  "Bad_column",
  "This_row",
  "Deep_16",
  "One[Only]+1",
  "Prices[Price]+1",
  "SUM(B2:INDEX(B2:B4,2))",
  "SUM((B2,B3))",
  "BLN_TELL({1,2;3})",
  "BLN_TELL({1;2,3})",
  'BLN_TELL({-"a"})',
  "BLN_TELL({-TRUE})",
  "BLN_TELL({B2})",
  "BLN_TELL({truex})",
  "BLN_TELL({xtrue})",
  "BLN_TELL({#NAME?})",
  "BLN_TELL({1 2})",
  "BLN_TELL({1,2)",
  "BLN_TELL({})",
  "BLN_TELL({1,})",
])("%s is left to Univer", async (formula) => {
  expect(await quickly(formula, SHEETS, EXTRA, [TELL])).toBe(LEFT);
});

it("takes as many signs, names and characters as a formula may have, and no more", async () => {
  const of = (formula: string): Promise<unknown> => quickly(formula, SHEETS, EXTRA);
  expect(await of(`1${"+1".repeat(300)}`)).toBe(301);
  expect(await of(`${"-".repeat(198)}1`)).toBe(1);
  expect(await of(`${"-".repeat(200)}1`)).toBe(LEFT);
  expect(await of(`${"(".repeat(199)}1${")".repeat(199)}`)).toBe(1);
  expect(await of(`${"(".repeat(200)}1${")".repeat(200)}`)).toBe(LEFT);
  expect(await of(`SUM(Half${",Half".repeat(199)})+SUM(Half${",Half".repeat(299)})`)).toBe(LEFT);
  expect(await of(`Half${"+Half".repeat(499)}`)).toBe(250);
  expect(await of(`Half${"+Half".repeat(500)}`)).toBe(LEFT);
  expect(await of(`1${" ".repeat(2 ** 15 - 1)}`)).toBe(1);
  expect(await of(`1${" ".repeat(2 ** 15)}`)).toBe(LEFT);
});
