import { describe, expect, it } from "vitest";
import { rangeAddress } from "../../src/formula/address";
import { FormulaTranslator } from "../../src/sheet/formula-translation";
import type { SheetRange } from "../../src/sheet/rectangles";
import { MAX_NAME_DEPTH } from "../../src/sheet/reference-reader";
import {
  dateProblem,
  type FormulaContext,
  MAX_CELLS_READ,
  MAX_FORMULA,
  MAX_NAMES,
} from "../../src/sheet/translation";
import type { TableModel } from "../../src/workbook/model";

/** A table in A1:C5 of the second sheet: a header, three rows, totals. */
const SALES: TableModel = {
  name: "Sales",
  sheet: 1,
  range: { firstRow: 0, firstColumn: 0, lastRow: 4, lastColumn: 2 },
  columns: ["Item", "Price", "Pieces"],
  headerRows: 1,
  totalsRows: 1,
};

const NAMES: Readonly<Record<string, string>> = {
  Rate: "Job!$A$1",
  Twice: "Rate*2",
  Left: "Job!A1",
  Loop: "Loop+1",
  Ten: Array.from({ length: 10 }, () => "Rate").join("+"),
  Hundred: Array.from({ length: 10 }, () => "Ten").join("+"),
  Thousand: Array.from({ length: 10 }, () => "Hundred").join("+"),
  Triple: "_xlfn.LAMBDA(_xlpm.x,_xlpm.x*3)",
  Above: "Job!XFD1048576",
  Broken: "Job!#REF!",
  Filled: "Job!$D$1",
  Beyond: "Nowhere!$D$1",
  Sum: "1",
  Ends: "Job!$A:$A",
  Days: "'Job:Price list'!$B$5",
  Neg: "-5",
  Call: "SUM(Job!$A$1)",
  Both: "SUM(Job!$A$1)+SUM(Job!$B$1)",
  Trueness: "Job!$B$9",
  Untrue: "Job!$B$8",
};

const CONTEXT: FormulaContext = {
  sheetNames: ["Job", "Price list", "Sun"],
  names: Object.entries(NAMES).map(([name, text]) => ({ name, text, isHidden: false })),
  tables: [SALES],
  lastRow: 99,
  lastColumn: 19,
  knowsFunction: (name) =>
    ["SUM", "LET", "LAMBDA", "INDEX", "SINGLE", "COUNTBLANK", "BLN_COUNT", "COLUMN", "ROW", "AREAS"].includes(
      name,
    ) || name === "ROWS",
};

const SHEET_NAMES = ["", "Price list!", "Sun!"];

function shown(range: SheetRange): string {
  return `${SHEET_NAMES[range.sheet] ?? ""}${rangeAddress(range)}`;
}

/** A formula in cell C3 of the first sheet, as the engine is given it, with its ranges in the notation of Excel. */
function translated(
  formula: string,
  { context = {} as Partial<FormulaContext>, sheet = 0, row = 2, column = 2 } = {},
): {
  readonly text: string;
  readonly reads: readonly string[];
  readonly why: string | undefined;
  readonly calls: readonly string[];
  readonly isUnknown: boolean;
  readonly shortened: readonly number[];
} {
  const translator = new FormulaTranslator({ ...CONTEXT, ...context });
  const { parts, reads, problem, calls, isUnknown, shortened } = translator.translate(formula, {
    sheet,
    row,
    column,
  });
  const text = parts
    .map((part) =>
      typeof part === "string" ? part : "address" in part ? part.address : `${shown(part.spillOf)}#`,
    )
    .join("");
  return {
    text: text.replaceAll("sheet.0.!", "Job!").replaceAll("sheet.1.!", "Price list!"),
    reads: reads.map(shown),
    why: problem,
    calls: [...calls],
    isUnknown: isUnknown === true,
    shortened: [...(shortened ?? []).values()],
  };
}

describe("what a formula reads", () => {
  // Each formula in words: the cells that its text names, worked out by hand on the names and the table above.
  it.each([
    ["A1+2", "A1+2", ["A1"]],
    ["SUM(A1:B2,1)", "SUM(A1:B2,1)", ["A1:B2"]],
    ["'Price list'!B2*2", "Price list!B2*2", ["Price list!B2"]],
    ["'PRICE LIST'!B2", "Price list!B2", ["Price list!B2"]],
    ["Rate*2", "A1*2", ["A1"]],
    ["rate*2", "A1*2", ["A1"]],
    ["Twice^2", "(A1*2)^2", ["A1"]],
    // A reference without dollars in a name counts from the cell that uses it.
    ["Left", "C3", ["C3"]],
    ["Job!Rate", "A1", ["A1"]],
    ["Sales", "Price list!A2:C4", ["Price list!A2:C4"]],
    ["sales[Price]", "Price list!B2:B4", ["Price list!B2:B4"]],
    ["Sales[[#Totals],[Pieces]]", "Price list!C5", ["Price list!C5"]],
    ["A1#", "A1#", ["A1"]],
    ["_xlfn.ANCHORARRAY(A1)", "A1#", ["A1"]],
    ["'Price list'!A1#", "Price list!A1#", ["Price list!A1"]],
    ["Filled#", "D1#", ["D1"]],
    ["SUM(_xlfn.ANCHORARRAY(Filled))", "SUM(D1#)", ["D1"]],
    ["true", "TRUE", []],
    ["IsTrue", "#NAME?", []],
    ["Nowhere!A1", "#REF!", []],
    ["Nowhere!Rate+A1", "#REF!+A1", ["A1"]],
    ["Nowhere[Price]", "#REF!", []],
    ["Sales[Colour]", "#REF!", []],
    ["A1048577", "#REF!", []],
    ["Job!(A1)", "#REF!A1)", ["A1"]],
    ["Broken", "#REF!", []],
    ["_xlfn.LET(_xlpm.x,A1,_xlpm.x+B1)", "LET(x,A1,x+B1)", ["A1", "B1"]],
    ["_xlfn.LAMBDA(_xlpm.rate,_xlpm.rate+1)(A1)", "LAMBDA(rate,rate+1)(A1)", ["A1"]],
    ["Triple(B1)", "LAMBDA(x,x*3)(B1)", ["B1"]],
    ["SUM(A1)", "SUM(A1)", ["A1"]],
    ["BLN.COUNT(A1)", "BLN_COUNT(A1)", ["A1"]],
    ["_xldudf_BLN_COUNT(A1)", "BLN_COUNT(A1)", ["A1"]],
    ["@A1:A3", "SINGLE(A1:A3)", ["A1:A3"]],
    ['"a"&"b"', '"a"&"b"', []],
    ['"a\nb"', '("a"&CHAR(10)&"b")', []],
    ['{"a\nb",1}', '{"a\nb",1}', []],
    ["SUM( A1 , B1 )", "SUM( A1 , B1 )", ["A1", "B1"]],
    ["SUM((A1,B1))", "SUM(JOINED.AREAS(A1,B1))", ["A1", "B1"]],
    ["A1:B2 B2:C3", "B2", ["B2"]],
    ["A1 B2", "#NULL!", []],
    ["Trueness", "B9", ["B9"]],
    ["Untrue", "B8", ["B8"]],
    ["Neg^2", "(-5)^2", []],
    ["Call*2", "SUM(A1)*2", ["A1"]],
    ["Both*2", "(SUM(A1)+SUM(B1))*2", ["A1", "B1"]],
    [
      "_xlfn.LET(_xlpm.Triple,_xlfn.LAMBDA(_xlpm.y,_xlpm.y),_xlpm.Triple(1))",
      "LET(Triple,LAMBDA(y,y),Triple(1))",
      [],
    ],
    ["{1,2}+A1", "{1,2}+A1", ["A1"]],
    ["[@Price]", "#REF!", []],
    ["SUM(Job:Nowhere!A1)", "SUM(#REF!)", []],
    ["SUM(Nowhere:Job!A1)", "SUM(#REF!)", []],
    ["SUM('Price list:Sun'!B5)", "SUM(JOINED.AREAS(Price list!B5,sheet.2.!B5))", ["Price list!B5", "Sun!B5"]],
    ["SUM(Job!Days)", "SUM(JOINED.AREAS(B5,Price list!B5))", ["B5", "Price list!B5"]],
    ["SUM(Days)", "SUM(JOINED.AREAS(B5,Price list!B5))", ["B5", "Price list!B5"]],
  ])("%s is given as %s", (formula, text, reads) => {
    const found = translated(formula);
    expect([found.text, found.reads]).toEqual([text, reads]);
  });

  it("takes a table's own row from the row of the formula", () => {
    expect(translated("[@Price]*[@Pieces]", { sheet: 1, row: 2 }).text).toBe("B3*C3");
    expect(translated("[@Price]", { sheet: 1, row: 9 }).text).toBe("#REF!");
    expect(translated("Sales[@Price]", { sheet: 1, row: 4, column: 9 }).text).toBe("#VALUE!");
  });

  it("takes a name of the sheet before one of the workbook", () => {
    const names = [
      { name: "Rate", text: "Job!$A$1", isHidden: false },
      { name: "Rate", text: "Job!$B$2", isHidden: false, sheet: 1 },
    ];
    const context = { names };
    expect(translated("Rate", { context }).text).toBe("A1");
    expect(translated("Rate", { context, sheet: 1 }).reads).toEqual(["B2"]);
    expect(translated("'Price list'!Rate", { context }).reads).toEqual(["B2"]);
  });
});

describe("whole columns and rows", () => {
  it("are read up to the last row and column in use, and tell how many cells that leaves out", () => {
    const column = translated("SUM(A:A)");
    expect(column.text).toBe("SUM(A1:A100)");
    expect(column.reads).toEqual(["A1:A100"]);
    expect(column.shortened).toEqual([1_048_576 - 100]);
    const row = translated("SUM(2:3)");
    expect(row.text).toBe("SUM(A2:T3)");
    expect(row.shortened).toEqual([2 * (16_384 - 20)]);
    expect(translated("SUM(Ends)").text).toBe("SUM(A1:A100)");
  });

  it("are not what a range is that lies beyond the part in use", () => {
    const found = translated("SUM(A90:A200)");
    expect([found.text, found.reads, found.shortened]).toEqual(["SUM(A90:A200)", ["A90:A100"], []]);
  });

  it("are not computed where a function must see all of their cells", () => {
    const why = "it looks at all cells of whole columns or rows";
    expect(translated("COUNTBLANK(A:A)").why).toBe(why);
    expect(translated("COUNTBLANK('Price list'!A:A)").why).toBeUndefined();
    expect(translated("COUNTBLANK(A1:A50)").why).toBeUndefined();
    expect(translated("SUM(A:A)").why).toBeUndefined();
  });

  it("are refused where they are more cells than one formula may read", () => {
    const rows = MAX_CELLS_READ / 2;
    const context = { lastRow: rows - 1, lastColumn: 19 };
    expect(translated("SUM(A:B)", { context }).why).toBeUndefined();
    expect(translated("SUM(A:C)", { context }).why).toBe("it reads too many cells");
  });
});

describe("where a reference is, which is known without reading it", () => {
  // Microsoft support, pages ROW, COLUMN, ROWS, COLUMNS and AREAS.
  it.each([
    ["ROW(B7)", "7"],
    ["row(B7)", "7"],
    ["COLUMN(D1)", "4"],
    ["ROWS(B2:C5)", "4"],
    ["COLUMNS(B2:D5)", "3"],
    ["ROWS('Price list'!B2:C5)", "4"],
    ["ROW(7:7)", "7"],
    ["AREAS((A1,B1:B9))", "2"],
    ["AREAS(A1 B1)", "#NULL!"],
    ["1+ROW(A2)*2", "1+2*2"],
    ["ROW(A1)+ROW(B2)", "1+2"],
    ["AREAS((A1,B1))+AREAS((A1,B1,C1))", "2+3"],
  ])("%s is %s", (formula, text) => {
    const found = translated(formula);
    expect([found.text, found.reads, found.why]).toEqual([text, [], undefined]);
  });

  it.each([
    ["ROW(A1:A3)", "ROW(A1:A3)"],
    ["COLUMN(A1:B1)", "COLUMN(A1:B1)"],
    ["ROW(A1+1)", "ROW(A1+1)"],
    ["ROW(A1+B2)", "ROW(A1+B2)"],
    ["ROW(-B2)", "ROW(-B2)"],
    ["ROW(Job!A1+B2)", "ROW(A1+B2)"],
    ["SUM(A5)", "SUM(A5)"],
    ["ROW()", "ROW()"],
  ])("%s is left to the engine", (formula, text) => {
    expect(translated(formula).text).toBe(text);
  });
});

describe("what is not computed", () => {
  it.each([
    ["[1]Other!A1", "it refers to another workbook"],
    ["ROW([1]Other!A1)", "it refers to another workbook"],
    ["Job:Sun!B5*1", "the same cells of several sheets are no whole argument of a function"],
    ["Loop", "the name Loop leads to too many others"],
    ["Thousand", "the name Rate leads to too many others"],
    ["Above", "the name Above leaves the sheet"],
    ["Rates", "the name Rates is not defined"],
    ["NO.SUCH(1)", "the function NO.SUCH is not known here"],
    ["BLN.NONE(1)", "the function BLN_NONE is not known here"],
    ["SUM(A1)#", "# stands behind something that is no cell"],
    ["Twice#", "Twice# is no spill"],
    ["Beyond#", "Beyond# is no spill"],
    ["Nobody#", "Nobody# is no spill"],
    ["({1,2},A1)", "it joins references that are no plain ones"],
    ["SUM((A1,B1):C3)", "it joins references that are no plain ones"],
    ["AREAS((A1,INDEX(A1:A2,1)))", "it joins references that are no plain ones"],
    ["AREAS(Job:Sun!A1)", "AREAS is not computed for the same cells of several sheets"],
    ["SUM((A1,1))", "it joins references that are no plain ones"],
    ["SUM(A1:B1 INDEX(A1:B1,1))", "it meets references that are no plain ones"],
  ])("%s: %s", (formula, why) => {
    expect(translated(formula).why).toBe(why);
  });

  it.each(["Hundred", "Broken", "Sum", "Rate", "INDEX(A1:A3,1):A3"])("but %s is", (formula) => {
    expect(translated(formula).why).toBeUndefined();
  });

  it("tells what is merely unknown, which a later definition may mend, from the rest", () => {
    expect(translated("Rates+1").isUnknown).toBe(true);
    expect(translated("NO.SUCH(1)").isUnknown).toBe(true);
    expect(translated("A1").isUnknown).toBe(false);
    expect(translated("SUM((A1,1))").isUnknown).toBe(false);
    // What stands first is the reason, and a name would not mend that.
    expect(translated("[1]Other!A1+Rates").isUnknown).toBe(false);
    expect(translated("[1]Other!A1+NO.SUCH(1)").isUnknown).toBe(false);
  });

  it("names within more names, or more names, than a person writes", () => {
    const chain = (length: number): string | undefined => {
      const names = Array.from({ length }, (_, at) => ({
        name: `Step.${String(at)}`,
        text: at === length - 1 ? "1" : `Step.${String(at + 1)}+1`,
        isHidden: false,
      }));
      return translated("Step.0", { context: { names } }).why;
    };
    expect([chain(MAX_NAME_DEPTH), chain(MAX_NAME_DEPTH + 1)]).toEqual([
      undefined,
      `the name Step.${String(MAX_NAME_DEPTH)} leads to too many others`,
    ]);
    const many = (count: number): string | undefined =>
      translated(Array.from({ length: count }, () => "Rate").join("+")).why;
    expect([many(MAX_NAMES), many(MAX_NAMES + 1)]).toEqual([
      undefined,
      "the name Rate leads to too many others",
    ]);
  });

  it("a formula longer than a file can hold", () => {
    const fits = "1+".repeat((MAX_FORMULA - 2) / 2);
    expect(translated(`${fits}11`).why).toBeUndefined();
    expect(translated(`${fits}111`).why).toBe("it is longer than Excel allows");
  });
});

it("lists the functions called, in capitals and without marks, but no variables", () => {
  expect(translated("_xlfn.LET(_xlpm.f,_xlfn.LAMBDA(_xlpm.x,1),_xlpm.f(2)+sum(A1))").calls).toEqual([
    "LET",
    "LAMBDA",
    "SUM",
  ]);
  expect(translated("BLN.COUNT(1)").calls).toEqual(["BLN_COUNT"]);
  expect(translated("INDEX(A1:A3,1):A3").calls).toEqual(["INDEX", ":"]);
  expect(translated("ROW(A1)").calls).toEqual([]);
});

// Microsoft support, Date systems in Excel: a workbook that counts from 1904 has other numbers for the same day.
it("names the function of dates that a workbook counting from 1904 cannot have computed", () => {
  expect(dateProblem(new Set(["SUM", "EDATE"]))).toBe(
    "EDATE is not computed in a workbook whose dates count from 1904",
  );
  expect(dateProblem(new Set(["SUM", "ROUND"]))).toBeUndefined();
});
