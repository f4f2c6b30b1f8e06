import { afterEach, describe, expect, it } from "vitest";
import type { EngineFunction, Recalculation, RecalculateOptions } from "../../src/sheet/engine";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { cellAddress, parseCell, rangeAddress } from "../../src/formula/address";
import type { CellValue, WorkbookModel } from "../../src/workbook/model";
import { type TestSheets, workbookOf } from "./workbook-of";

const scalar = { text: "", isOptional: false, takesRange: false };
const range = { text: "", isOptional: true, takesRange: true };

const seen: unknown[] = [];
/** Functions of the add-in as far as the engine can tell: one of each shape. */
const functions: readonly EngineFunction[] = [
  {
    name: "DOUBLE",
    text: "Twice a number.",
    parameters: [
      { ...scalar, name: "number" },
      { ...scalar, name: "factor", isOptional: true },
    ],
    call(args) {
      seen.push(args);
      const [number, factor] = args;
      if (typeof number !== "number") {
        return { kind: "error", code: "#VALUE!", sentence: "number must be a number" };
      }
      return { kind: "value", value: number * (typeof factor === "number" ? factor : 2) };
    },
  },
  {
    name: "STAIRS",
    text: "Rows 1 to n, with their squares.",
    parameters: [{ ...scalar, name: "rows" }],
    call: ([rows]) => ({
      kind: "table",
      rows: Array.from({ length: Number(rows) }, (_, row) => [row + 1, (row + 1) ** 2]),
    }),
  },
  {
    name: "SEEN",
    text: "What a range argument looks like.",
    parameters: [
      { ...range, name: "first" },
      { ...range, name: "second" },
    ],
    call: (args) => ({ kind: "value", value: JSON.stringify(args) }),
  },
  {
    name: "BREAK",
    text: "Has a fault.",
    parameters: [],
    call() {
      throw new Error("something broke");
    },
  },
  {
    name: "MISSING",
    text: "Finds nothing.",
    parameters: [],
    call: () => ({ kind: "error", code: "#N/A", sentence: "price_list has no such row" }),
  },
];

let engine = new UniverEngine(functions);
afterEach(() => {
  engine.dispose();
});

interface Results extends Recalculation {
  /** Value of a cell, errors as their text. */
  at(address: string, sheet?: number): number | string | boolean | null;
  why(address: string): string | undefined;
  sentence(address: string): string | undefined;
  spill(address: string): string | undefined;
}

async function run(options: RecalculateOptions = {}): Promise<Results> {
  const result = await engine.recalculate(options);
  const where = (cell: { readonly row: number; readonly column: number }): string =>
    cellAddress(cell.row, cell.column);
  return {
    ...result,
    at(address, sheet = 0) {
      const place = parseCell(address) ?? { row: -1, column: -1 };
      const value: CellValue = engine.value({ sheet, ...place });
      return typeof value === "object" ? (value?.error ?? null) : value;
    },
    why: (address) => result.uncomputed.find((cell) => where(cell) === address)?.why,
    sentence: (address) => result.computed.find((cell) => where(cell) === address)?.sentence,
    spill(address) {
      const spill = result.computed.find((cell) => where(cell) === address)?.spill;
      return spill && rangeAddress(spill);
    },
  };
}

async function open(workbook: WorkbookModel, options: RecalculateOptions = {}): Promise<Results> {
  engine = new UniverEngine(functions);
  await engine.load(workbook);
  return run(options);
}

function calculate(cells: TestSheets[string], options: RecalculateOptions = {}): Promise<Results> {
  return open(workbookOf({ Sheet1: cells }), options);
}

function edit(address: string, input: CellValue | { readonly formula: string }): Promise<void> {
  return engine.setCell({ sheet: 0, ...(parseCell(address) ?? { row: -1, column: -1 }) }, input);
}

describe("our functions", () => {
  it("answers to its three spellings in any letter case", async () => {
    const result = await calculate({
      A1: "=BLN.DOUBLE(4)",
      A2: "=BLN_DOUBLE(4)",
      A3: "=_xldudf_BLN_DOUBLE(4)",
      A4: "=_xldudf_bln_double(4)",
    });
    expect(["A1", "A2", "A3", "A4"].map((cell) => result.at(cell))).toEqual([8, 8, 8, 8]);
    expect(result.uncomputed).toEqual([]);
  });

  it("gives #NAME? for a misspelled one, with a sentence, and lets IFERROR handle it", async () => {
    const result = await calculate({ A1: "=BLN.DUOBLE(4)", A2: "=A1+1", A3: "=IFERROR(BLN.DUOBLE(4),7)" });
    expect(result.at("A1")).toBe("#NAME?");
    expect(result.sentence("A1")).toBe("there is no function BLN.DUOBLE");
    expect(result.at("A2")).toBe("#NAME?");
    expect(result.at("A3")).toBe(7);
    expect(result.uncomputed).toEqual([]);
  });

  it("receives blank cells and omitted arguments as null", async () => {
    const result = await calculate({
      A1: 1,
      A3: "x",
      A4: false,
      B1: "=BLN.SEEN(A1:B4)",
      B2: "=BLN.SEEN(,C1)",
    });
    // A circular reference if B1 were read: the range below leaves it out.
    expect(result.at("B2")).toBe("[null,[[null]]]");
    await edit("B1", { formula: "=BLN.SEEN(A1:A4)" });
    expect((await run()).at("B1")).toBe('[[[1],[null],["x"],[false]]]');
  });

  it("passes on an error of a single cell without being called, and leaves one in a range to the function", async () => {
    seen.length = 0;
    const result = await calculate({
      A1: "=1/0",
      A2: { f: "NA()" },
      B1: "=BLN.DOUBLE(A1)",
      B2: "=BLN.SEEN(A2:A3,A1)",
      B3: "=BLN.DOUBLE(3,#REF!)",
    });
    expect([result.at("B1"), result.at("B3")]).toEqual(["#DIV/0!", "#REF!"]);
    expect(result.sentence("B1")).toMatch(/ holds the error #DIV\/0!$/);
    expect(result.at("B2")).toBe('[[[{"error":"#N/A"}],[null]],[[{"error":"#DIV/0!"}]]]');
    expect(seen).toEqual([]);
  });

  it("keeps the sentence of a failure in its own cell", async () => {
    const result = await calculate({
      A1: '=BLN.DOUBLE("x")',
      A2: "=A1",
      A3: "=IFERROR(A1,0)",
      A4: "=BLN.MISSING()",
      A5: "=IFERROR(BLN.MISSING(),1/0)",
    });
    expect(result.sentence("A1")).toBe("number must be a number");
    expect(result.at("A2")).toBe("#VALUE!");
    expect(result.sentence("A2")).toBeUndefined();
    expect([result.at("A3"), result.sentence("A3")]).toEqual([0, undefined]);
    expect([result.at("A4"), result.sentence("A4")]).toEqual(["#N/A", "price_list has no such row"]);
    expect([result.at("A5"), result.sentence("A5")]).toEqual(["#DIV/0!", undefined]);
  });

  it("is an error in its own cell when it breaks, and the rest goes on", async () => {
    const result = await calculate({ A1: "=BLN.BREAK()", A2: "=1+1", A3: "=BLN.DOUBLE(1,2,3)" });
    expect([result.at("A1"), result.at("A2"), result.at("A3")]).toEqual(["#VALUE!", 2, "#VALUE!"]);
    expect(result.sentence("A1")).toBe("something broke");
  });

  it("is called for each cell of a range where it takes one cell", async () => {
    const result = await calculate({
      A1: 1,
      A2: 2,
      A3: "=1/0",
      B1: { f: "BLN.DOUBLE(A1:A3,{10,100})", kind: "dynamic" },
      E2: "=BLN.DOUBLE(A1:A3)",
    });
    expect(result.spill("B1")).toBe("B1:C3");
    expect([result.at("B1"), result.at("C1"), result.at("B2"), result.at("C2")]).toEqual([10, 100, 20, 200]);
    expect(result.at("C3")).toBe("#DIV/0!");
    // A formula that does not spill takes the cell of its own row.
    expect(result.at("E2")).toBe(4);
  });
});

describe("guards", () => {
  it("leaves a range in order when SORT has read it", async () => {
    const cells = {
      A1: 3,
      A2: 1,
      A3: 2,
      B1: 10,
      B2: 20,
      B3: 30,
      C1: { f: "_xlfn._xlws.SORT(A1:A3)", kind: "dynamic", range: "C1:C3" },
      D1: "=SUMPRODUCT(A1:A3,B1:B3)",
      E1: "=INDEX(A1:A3,1)",
    } as const;
    const result = await calculate(cells);
    expect([result.at("C1"), result.at("C2"), result.at("C3")]).toEqual([1, 2, 3]);
    // 3*10 + 1*20 + 2*30, and the first cell as it stands.
    expect([result.at("D1"), result.at("E1")]).toEqual([110, 3]);
  });

  it("lets the rest be computed when the engine fails on a formula", async () => {
    const result = await calculate({
      A1: { f: "LET(x,1,y,x+1,LET(x,5,x+y))", v: 7 },
      A2: "=A1+1",
      A3: "=2*3",
    });
    expect(result.why("A1")).toBe("the engine cannot follow this formula");
    expect([result.at("A1"), result.at("A2"), result.at("A3")]).toEqual([7, 8, 6]);
  });

  it("finds nothing in a column's cells that only an intermediate result held", async () => {
    const result = await calculate({
      A1: 1,
      A2: 2,
      A3: 3,
      B1: 4,
      B2: 5,
      B3: 6,
      D1: "=SUMPRODUCT((A1:B3*100>200)*1)",
      D2: "=COUNTIF(A1:A3,500)",
      D3: "=SUMPRODUCT((A1:A3=500)*1)",
      D4: "=SUMPRODUCT((A1:A3=3)*1)",
    });
    // 300, 400, 500 and 600 lie above 200.
    expect(["D1", "D2", "D3", "D4"].map((cell) => result.at(cell))).toEqual([4, 0, 0, 1]);
  });

  it("looks up exactly by type, in any letter case, with wildcards", async () => {
    const result = await calculate({
      A1: "5",
      A2: 5,
      A3: "Red",
      A4: true,
      A5: "blue",
      B1: "text",
      B2: "number",
      B3: "colour",
      B4: "logical",
      D1: "=VLOOKUP(5,A1:B5,2,FALSE)",
      D2: '=VLOOKUP("5",A1:B5,2,FALSE)',
      D3: '=VLOOKUP("RED",A1:B5,2,FALSE)',
      D4: "=VLOOKUP(TRUE,A1:B5,2,FALSE)",
      D5: '=VLOOKUP("r*",A1:B5,2,FALSE)',
      D6: '=VLOOKUP("green",A1:B5,2,FALSE)',
      D7: '=_xlfn.XLOOKUP("red",A1:A5,B1:B5)',
      D8: '=_xlfn.XLOOKUP("green",A1:A5,B1:B5,"none")',
      D9: '=VLOOKUP("blue",A1:B5,2,FALSE)',
    });
    expect(["D1", "D2", "D3", "D4", "D5", "D6", "D7", "D8", "D9"].map((cell) => result.at(cell))).toEqual([
      "number",
      "text",
      "colour",
      "logical",
      "colour",
      "#N/A",
      "colour",
      "none",
      0,
    ]);
  });
});

describe("corrections", () => {
  it.each([
    // Towards zero: Microsoft support, TRUNC.
    ["TRUNC(-8.9)", -8],
    ["TRUNC(-7)", -7],
    ["TRUNC(-2.59,1)", -2.5],
    ["TRUNC(2.3,1)", 2.3],
    ["TRUNC(1234,-2)", 1200],
    // Months have the days they have: 31 January and one month is the last of February.
    ["EDATE(DATE(2026,1,31),1)-DATE(2026,2,28)", 0],
    ["EDATE(DATE(2024,2,29),12)-DATE(2025,2,28)", 0],
    ["EDATE(DATE(2026,1,15),-1.9)-DATE(2025,12,15)", 0],
    ["EOMONTH(DATE(2026,1,15),-1.9)-DATE(2025,12,31)", 0],
    // ISO 8601: week 1 holds the first Thursday, so that of 2000 begins on 3 January and 28 February is 8 weeks later.
    ["_xlfn.ISOWEEKNUM(DATE(2000,2,28))", 9],
    ["WEEKNUM(DATE(2000,2,28),21)", 9],
    ["_xlfn.ISOWEEKNUM(DATE(2021,1,3))", 53],
    ["SUM(TRUNC(A1:A2))", -3],
    // Microsoft support, MAXIFS: 0 where nothing matches.
    ['_xlfn.MAXIFS(A1:A2,A1:A2,">5")', 0],
    ['IF("x",1,2)', "#VALUE!"],
    ["IF(B1,1,2)", "#VALUE!"],
    ['IF("TRUE",1,2)', 1],
    ['AND(TRUE,"x")', "#VALUE!"],
    ["AND(TRUE,B1:B1)", true],
    // The scales meet at -40 degrees, and 212 F is 100 C.
    ['CONVERT(-40,"F","C")', -40],
    ['CONVERT(212,"F","C")', 100],
    ['CONVERT(100,"C","K")', 373.15],
    ['LEN("50%")', 3],
    ['"18:30"&" h"', "18:30 h"],
    ['UPPER("2026-06-19")', "2026-06-19"],
    ["ISNUMBER(1.50)", true],
    ["1.50", 1.5],
    ["1E3", 1000],
    ["-0", 0],
    ['VALUE("50%")', 0.5],
    ['YEAR("2026-06-19")', 2026],
  ])("%s", async (formula, value) => {
    const result = await calculate({ A1: -1.5, A2: -2.5, B1: "x", C1: `=${formula}` });
    const found = result.at("C1");
    if (typeof value === "number") expect(found).toBeCloseTo(value, 9);
    else expect(found).toBe(value);
    expect(result.uncomputed).toEqual([]);
  });

  it("keeps what Excel converted between units that are missing here", async () => {
    const result = await calculate({ A1: { f: 'CONVERT(1,"psi","Pa")', v: 6894.757 } });
    expect([result.at("A1"), result.why("A1")]).toEqual([6894.757, "CONVERT does not know these units here"]);
  });

  // The second formula reads two million cells before it is refused, within the budget that it is given.
  it("refuses what would take all memory", { timeout: 60_000 }, async () => {
    const result = await calculate(
      {
        A1: { f: "_xlfn.SEQUENCE(1000000,1000)", v: 1 },
        A2: { f: 'SUM(INDIRECT("B1:Z1000000"))', v: 2 },
        A3: { f: "B1:B2", v: 3, kind: "array", range: "A3:XFD1048576" },
      },
      { budget: 60_000 },
    );
    expect([result.why("A1"), result.why("A2"), result.why("A3")]).toEqual([
      "its result has too many cells",
      "it reads too many cells",
      "it fills too many cells",
    ]);
  });
});

describe("what the engine does not compute", () => {
  it.each([
    ["an unknown function", "CUBEVALUE(A9)", "the function CUBEVALUE is not known here"],
    ["an add-in of others", "_xldudf_OTHER_THING(A9)", "the function OTHER_THING is not known here"],
    ["another workbook", "[1]Prices!B2*2", "it refers to another workbook"],
    ["an unknown name", "markup*2", "the name markup is not defined"],
  ])("keeps the stored value of %s and says why", async (_, formula, why) => {
    const result = await calculate({ A1: { f: formula, v: 12.5 }, A2: "=A1*2", A9: 1 });
    expect(result.uncomputed).toEqual([{ sheet: 0, row: 0, column: 0, formula, why }]);
    expect([result.at("A1"), result.at("A2")]).toEqual([12.5, 25]);
    expect(result.computed).toHaveLength(1);
  });

  it("keeps a what-if table", async () => {
    const table = { f: "TABLE(,A1)", v: 5, kind: "dataTable", range: "B2:B3" } as const;
    const result = await calculate({ B2: table, B3: 6, C2: "=SUM(B2:B3)" });
    expect(result.why("B2")).toBe("it is a what-if table");
    expect(result.at("C2")).toBe(11);
  });

  it("keeps what a formula without result spilled when it was stored", async () => {
    const result = await calculate({
      A1: { f: "_xlfn.FUTURE(B1)", v: 1, kind: "dynamic", range: "A1:A3" },
      A2: 2,
      A3: 3,
      C1: "=SUM(A1:A3)",
      C2: "=SUM(_xlfn.ANCHORARRAY(A1))",
    });
    expect(result.why("A1")).toBe("the function FUTURE is not known here");
    expect([result.at("A3"), result.at("C1"), result.at("C2")]).toEqual([3, 6, 6]);
  });

  it("keeps #NAME? where the file has it and passes it on", async () => {
    const result = await calculate({ A1: { f: "CUBEVALUE(1)", v: { error: "#NAME?" } }, A2: "=A1&A1" });
    expect(result.at("A2")).toBe("#NAME?");
    expect(result.why("A2")).toBeUndefined();
  });

  it("names a formula that refers to itself, directly or through others", async () => {
    const result = await calculate({
      A1: { f: "A2+1", v: 4 },
      A2: { f: "A3+1", v: 3 },
      A3: { f: "A1", v: 2 },
      B1: { f: "B1", v: 0 },
      C1: "=A1*2",
    });
    const why = "it refers to itself, directly or through others";
    expect(["A1", "A2", "A3", "B1", "C1"].map((cell) => result.why(cell))).toEqual([
      why,
      why,
      why,
      why,
      undefined,
    ]);
    expect(result.at("C1")).toBe(8);
  });

  it("leaves dates alone that count from 1904", async () => {
    const cells = { A1: { f: "DATE(2026,6,19)", v: 44730 }, A2: "=A1+1", A3: { f: "YEAR(A1)", v: 2026 } };
    const result = await open(workbookOf({ Sheet1: cells }, { date1904: true }));
    expect([result.at("A1"), result.at("A2"), result.at("A3")]).toEqual([44730, 44731, 2026]);
    expect(result.uncomputed.map(({ formula }) => formula)).toEqual(["DATE(2026,6,19)", "YEAR(A1)"]);
  });
});

describe("spills", () => {
  it("fills as many cells as the result has, and A1# means all of them", async () => {
    const result = await calculate({
      A1: 3,
      B1: { f: "BLN.STAIRS(A1)", kind: "dynamic", range: "B1:C2" },
      C1: 1,
      B2: 2,
      C2: 4,
      E1: "=SUM(_xlfn.ANCHORARRAY(B1))",
      E2: "=ROWS(B1#)",
      F1: { f: "B1#*10", kind: "dynamic" },
      E3: "=SUM(A1#)",
    });
    expect(result.spill("B1")).toBe("B1:C3");
    // 1+2+3 and 1+4+9.
    expect([result.at("E1"), result.at("E2"), result.at("C3"), result.at("G3")]).toEqual([20, 3, 9, 90]);
    expect(result.at("E3")).toBe("#REF!");
    await edit("A1", 1);
    const smaller = await run();
    expect(smaller.spill("B1")).toBe("B1:C1");
    expect([smaller.at("E1"), smaller.at("E2"), smaller.at("C3"), smaller.at("G3")]).toEqual([
      2,
      1,
      null,
      null,
    ]);
    await edit("A1", 4);
    const larger = await run();
    // 1+2+3+4 and 1+4+9+16.
    expect([larger.at("E1"), larger.at("E2"), larger.at("G4")]).toEqual([40, 4, 160]);
  });

  it("computes again what read cells that a spill came to fill", async () => {
    const result = await calculate({
      A1: "=SUM(B2:C9)",
      B2: { f: "BLN.STAIRS(A9)", kind: "dynamic", range: "B2:C2" },
      C2: 0,
      A9: 3,
      D1: "=A1*2",
    });
    expect([result.at("A1"), result.at("D1")]).toEqual([20, 40]);
  });

  it("chains", async () => {
    const result = await calculate({
      A1: 3,
      A2: 1,
      A3: 2,
      A4: 1,
      B1: { f: "_xlfn.UNIQUE(A1:A4)", kind: "dynamic" },
      C1: { f: "_xlfn._xlws.SORT(B1#)", kind: "dynamic" },
      D1: { f: "C1#*2", kind: "dynamic" },
      E1: "=SUM(D1#)",
    });
    expect([result.at("D1"), result.at("D2"), result.at("D3"), result.at("D4")]).toEqual([2, 4, 6, null]);
    expect(result.at("E1")).toBe(12);
  });

  it("is #SPILL! where something stands in the way, until it is gone", async () => {
    const result = await calculate({ A1: { f: "BLN.STAIRS(2)", kind: "dynamic" }, B2: "here", D1: "=A2" });
    expect([result.at("A1"), result.at("A2"), result.at("B2"), result.at("D1")]).toEqual([
      "#SPILL!",
      null,
      "here",
      0,
    ]);
    await edit("B2", null);
    const free = await run();
    expect([free.at("A1"), free.at("B2"), free.at("D1")]).toEqual([1, 4, 2]);
    await edit("B2", 5);
    const blocked = await run();
    expect([blocked.at("A1"), blocked.at("B2"), blocked.at("D1")]).toEqual(["#SPILL!", 5, 0]);
  });

  it("keeps an array formula in its range", async () => {
    const result = await calculate({
      A1: 1,
      A2: 2,
      B1: { f: "A1:A2*10", kind: "array", range: "B1:C3" },
      B2: 0,
      C1: 0,
    });
    expect(result.spill("B1")).toBe("B1:C3");
    // Single columns repeat, missing rows are #N/A.
    expect(["B1", "C1", "B2", "C2", "B3"].map((cell) => result.at(cell))).toEqual([10, 10, 20, 20, "#N/A"]);
  });

  it("gives one value where a formula may not spill: that of its row or column, or the first", async () => {
    const result = await calculate({
      A1: 1,
      A2: 2,
      A3: 3,
      C2: "=A1:A3",
      C3: "=A1:A3*10",
      C9: "=A1:A3",
      D2: "=BLN.STAIRS(3)",
      D3: "=_xlfn._xlws.SORT(A1:A3,1,-1)",
      E2: { f: "SUM(@A1:A3,10)", kind: "dynamic" },
    });
    expect(["C2", "C3", "C9", "D2", "D3", "E2"].map((cell) => result.at(cell))).toEqual([
      2,
      30,
      "#VALUE!",
      1,
      3,
      12,
    ]);
  });
});

describe("names, tables, sheets", () => {
  it("follows names of the workbook and of a sheet", async () => {
    const names = [
      { name: "Markup", text: "Prices!$A$1", isHidden: false },
      { name: "rate", text: "0.05", isHidden: false },
      { name: "rate", text: "0.2", sheet: 1, isHidden: false },
      { name: "net", text: "Markup*(1-rate)", isHidden: false },
      { name: "left_of", text: "Prices!A1", isHidden: false },
      { name: "twice", text: "_xlfn.LAMBDA(_xlpm.x,_xlpm.x*2)", isHidden: false },
      { name: "far", text: "[2]Sheet1!$A$1", isHidden: false },
    ];
    const sheets = {
      Prices: { A1: 40, B1: "=MARKUP*rate", B2: "=100-net", B3: "=twice(21)", B4: { f: "far", v: 3 } },
      "It's here": {
        A1: "=Markup*rate",
        A2: "=SUM(Prices!A1:A2)",
        A3: "='It''s here'!A2+Prices!rate",
        A4: "=SUM(Prices!A:A)",
      },
    };
    const result = await open(workbookOf(sheets, { names }));
    expect([result.at("B1"), result.at("B2"), result.at("B3")]).toEqual([2, 62, 42]);
    expect(result.why("B4")).toBe("it refers to another workbook");
    expect([result.at("A1", 1), result.at("A2", 1), result.at("A3", 1), result.at("A4", 1)]).toEqual([
      8, 40, 40.05, 40,
    ]);
  });

  it("reads names relative to the cell that uses them", async () => {
    // A file keeps such a name as cell A1 would see it: this one means the cell below.
    const names = [{ name: "below", text: "Sheet1!A2", isHidden: false }];
    const result = await open(
      workbookOf({ Sheet1: { A1: "=below", A2: 7, C8: "=below*2", C9: 4 } }, { names }),
    );
    expect([result.at("A1"), result.at("C8")]).toEqual([7, 8]);
  });

  it("does not hang on names that multiply", async () => {
    const names = Array.from({ length: 12 }, (_, at) => ({
      name: `n${String(at)}_`,
      text: at === 0 ? "1" : Array.from({ length: 12 }, () => `n${String(at - 1)}_`).join("+"),
      isHidden: false,
    }));
    const result = await open(
      workbookOf(
        { Sheet1: { A1: { f: "n11_", v: 3 }, A2: "=n1_" } },
        { names: [...names, { name: "ring", text: "ring", isHidden: false }] },
      ),
    );
    expect([result.at("A1"), result.at("A2")]).toEqual([3, 12]);
    expect(result.why("A1")).toMatch(/leads to too many others$/);
  });

  it("reads tables", async () => {
    const tables = [
      {
        name: "Prices",
        sheet: 0,
        range: { firstRow: 0, firstColumn: 0, lastRow: 3, lastColumn: 2 },
        columns: ["Colour", "Bag price", "Each"],
        headerRows: 1,
        totalsRows: 1,
      },
    ];
    const cells = {
      A1: "Colour",
      B1: "Bag price",
      C1: "Each",
      A2: "red",
      B2: 10,
      C2: "=[@[Bag price]]/100",
      A3: "blue",
      B3: 20,
      C3: "=Prices[[#This Row],[Bag price]]/100",
      A4: "Total",
      B4: "=SUBTOTAL(109,Prices[Bag price])",
      E1: "=SUM(prices[bag price])",
      E2: '=_xlfn.XLOOKUP("blue",Prices[Colour],Prices[Each])',
      E3: "=Prices[[#Totals],[Bag price]]",
      E4: "=Prices[[#Headers],[Each]]",
      E5: "=COUNTA(Prices[#All])",
      E6: "=ROWS(Prices)",
    };
    const result = await open(workbookOf({ Sheet1: cells }, { tables }));
    expect(result.uncomputed).toEqual([]);
    expect(["C2", "C3", "B4", "E1", "E2", "E3", "E4", "E6"].map((cell) => result.at(cell))).toEqual([
      0.1,
      0.2,
      30,
      30,
      0.2,
      30,
      "Each",
      2,
    ]);
    expect(result.at("E5")).toBe(11);
  });

  it("knows where cells are without reading them", async () => {
    const result = await calculate({
      A3: "=ROW(A3)+ROWS(A$1:A3)",
      B3: "=COLUMN(B3)",
      C1: "=ROWS(C:C)",
      D1: "=COLUMN()",
    });
    expect([result.at("A3"), result.at("B3"), result.at("C1"), result.at("D1")]).toEqual([6, 2, 1048576, 4]);
  });

  it("tells an empty text from a blank cell", async () => {
    const result = await calculate({
      A1: '=""',
      B1: "=ISBLANK(A1)",
      B2: "=ISBLANK(C1)",
      B3: "=C1",
      B4: "=COUNTA(A1:A2)",
    });
    expect(["B1", "B2", "B3", "B4"].map((cell) => result.at(cell))).toEqual([false, true, 0, 1]);
  });
});

describe("running", () => {
  it("computes only what a change reaches", async () => {
    await calculate({ A1: 1, A2: "=A1+1", A3: "=A2+1", B1: 5, B2: "=B1+1" });
    await edit("A1", 10);
    const result = await run();
    expect(result.computed.map(({ row, column, value }) => [cellAddress(row, column), value]).sort()).toEqual(
      [
        ["A2", 11],
        ["A3", 12],
      ],
    );
    await edit("A2", { formula: "=B2*2" });
    expect((await run()).at("A3")).toBe(13);
    await edit("B1", { formula: "=2*3" });
    expect((await run()).at("A3")).toBe(15);
  });

  it("sees cells far below those of the file", async () => {
    await calculate({ A1: 1, B1: "=SUM(A:A)", C1: "=SUM(1:1)-B1-A1" });
    await edit("A5000", 4);
    const result = await run();
    expect(result.at("B1")).toBe(5);
  });

  it("follows OFFSET and INDIRECT to cells that change", async () => {
    const result = await calculate({
      A1: 1,
      A2: "=A1*2",
      B1: "=OFFSET(A1,1,0)+1",
      B2: '=INDIRECT("A"&2)',
      B3: "=SUM(A1:INDEX(A1:A9,2))",
    });
    expect([result.at("B1"), result.at("B2"), result.at("B3")]).toEqual([3, 2, 3]);
    await edit("A1", 10);
    const changed = await run();
    expect([changed.at("B1"), changed.at("B2"), changed.at("B3")]).toEqual([21, 20, 30]);
  });

  it("gives volatile formulas fresh values, or keeps them where asked", async () => {
    const workbook = workbookOf({ Sheet1: { A1: { f: "TODAY()", v: 40000 }, A2: { f: "A1+1", v: 0 } } });
    const kept = await open(workbook, { volatile: "keep" });
    expect([kept.at("A1"), kept.at("A2")]).toEqual([40000, 40001]);
    const fresh = await run();
    // Days from 1899-12-30, which is day 0, to 2020-01-01 are 43831.
    expect(Number(fresh.at("A1"))).toBeGreaterThan(43831);
    expect(Number(fresh.at("A2"))).toBe(Number(fresh.at("A1")) + 1);
  });

  it("follows a long chain written backwards", async () => {
    const length = 5000;
    const cells: Record<string, string | number> = { [`A${String(length)}`]: 1 };
    for (let row = 1; row < length; row++) cells[`A${String(row)}`] = `=A${String(row + 1)}+1`;
    expect((await calculate(cells)).at("A1")).toBe(length);
  });

  it("reports progress, stops when told to and goes on from there, each formula once", async () => {
    // More than any machine computes in the first slice of time.
    const rows = 30_000;
    const cells: Record<string, string | number> = {};
    for (let row = 1; row <= rows; row++)
      cells[`A${String(row)}`] = `=SUM(B$1:B$200)+BLN.DOUBLE(${String(row)})`;
    const stop = new AbortController();
    const shares: number[] = [];
    seen.length = 0;
    engine = new UniverEngine(functions);
    await engine.load(workbookOf({ Sheet1: cells }));
    const stopped = engine.recalculate({
      signal: stop.signal,
      onProgress(share) {
        shares.push(share);
        stop.abort(new Error("enough"));
      },
    });
    await expect(stopped).rejects.toThrow("enough");
    expect(shares).toHaveLength(1);
    expect(seen.length).toBeLessThan(rows);
    const result = await run({ onProgress: (share) => shares.push(share) });
    expect(result.at(`A${String(rows)}`)).toBe(2 * rows);
    expect(result.computed).toHaveLength(rows);
    expect(seen).toHaveLength(rows);
    expect(shares.at(-1)).toBe(1);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
  });

  it("computes first what is asked for first, with what it reads, and each formula once", async () => {
    const cells: Record<string, string | number> = { C1: "=SUM(A1:A400)" };
    for (let row = 1; row <= 400; row++) {
      cells[`A${String(row)}`] = `=BLN.DOUBLE(${String(row)})`;
      cells[`B${String(row)}`] = `=BLN.DOUBLE(${String(-row)})`;
    }
    seen.length = 0;
    engine = new UniverEngine(functions);
    await engine.load(workbookOf({ Sheet1: cells }));
    engine.prepare();
    const early: unknown[] = [];
    const cell = { sheet: 0, firstRow: 0, lastRow: 9, firstColumn: 2, lastColumn: 2 };
    const done = (): void =>
      void early.push(
        engine.value({ sheet: 0, row: 0, column: 2 }),
        seen.length,
        seen.flat().some((n) => Number(n) < 0),
      );
    const { computed } = await engine.recalculate({ first: { ranges: [cell], done } });
    // Twice 1 + 2 + ... + 400 = 400 * 401; none of column B is computed by then.
    expect(early).toEqual([160_400, 400, false]);
    expect(computed).toHaveLength(801);
    expect(seen).toHaveLength(800);
  });

  it("needs a workbook", async () => {
    engine = new UniverEngine(functions);
    await expect(engine.recalculate()).rejects.toThrow("no workbook is loaded");
  });
});
