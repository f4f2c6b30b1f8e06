import { afterEach, describe, expect, it } from "vitest";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { tokenize } from "../../src/formula/tokens";
import { takerOf } from "../../src/sheet/reference-operators";
import { errorText, type TestSheets, workbookOf } from "./workbook-of";

let engine = new UniverEngine([]);
afterEach(() => {
  engine.dispose();
});

/** Three days of one job, each on its sheet, and a sheet that adds them up. */
const SHEETS: TestSheets = {
  Fri: { B5: 10, B6: "open", C1: 1, C2: true, A1: 7 },
  "Sat day": { B5: 20, B6: 4, C1: 5, A1: "x" },
  Sun: { B5: 30, B6: 6, C2: 9 },
  Total: {},
};

/** Numbers by position: row 1 is 1 2 3 4, row 2 is 5 6 7 8, row 3 is 9 10 11 12; column F has what is no number. */
const GRID: TestSheets[string] = {
  A1: 1,
  B1: 2,
  C1: 3,
  D1: 4,
  A2: 5,
  B2: 6,
  C2: 7,
  D2: 8,
  A3: 9,
  B3: 10,
  C3: 11,
  D3: 12,
  F1: "text",
  F2: true,
  F4: "12",
};

const NAMES = [
  { name: "Blue", text: "Grid!$B$1:$B$3", isHidden: false },
  { name: "Second", text: "Grid!$A$2:$D$2", isHidden: false },
  { name: "Corners", text: "Grid!$A$1,Grid!$D$3", isHidden: false },
  { name: "Days", text: "Fri:Sun!$B$5", isHidden: false },
];

async function calculate(
  formula: string,
  { sheet = "Total", at = "Z9", stored = null as number | null } = {},
): Promise<{ readonly value: unknown; readonly why: string | undefined }> {
  engine = new UniverEngine([]);
  const sheets: Record<string, TestSheets[string]> = { ...SHEETS, Grid: GRID };
  sheets[sheet] = { ...sheets[sheet], [at]: { f: formula, v: stored } };
  const table = {
    name: "Sizes",
    sheet: 4,
    range: { firstRow: 0, firstColumn: 0, lastRow: 2, lastColumn: 3 },
    columns: ["1", "2", "3", "4"],
    headerRows: 1,
    totalsRows: 0,
  };
  await engine.load(
    workbookOf(sheets, {
      names: NAMES.map((name) => ({ ...name, isHidden: false })),
      tables: [table] as never,
    }),
  );
  const { uncomputed } = await engine.recalculate();
  const place = {
    sheet: Object.keys(sheets).indexOf(sheet),
    column: at.charCodeAt(0) - 65,
    row: Number(at.slice(1)) - 1,
  };
  return { value: errorText(engine.value(place)), why: uncomputed[0]?.why };
}

describe("the same cells of several sheets", () => {
  // Microsoft support, Create a reference to the same cell range on multiple worksheets: SUM adds the cell of every
  // sheet from the first to the last; the functions are those that the page lists. Values worked out by hand on SHEETS.
  it.each([
    ["SUM(Fri:Sun!B5)", 60],
    ["SUM('Fri:Sun'!B5)", 60],
    ["SUM('Fri:Sat day'!B5)", 30],
    ["SUM('Sat day:Fri'!B5)", 30],
    ["SUM(Fri:Sun!B5:B6)", 70],
    ["SUM(Fri:Sun!B:B)", 70],
    ["SUM(1,Fri:Sun!B5,A1)", 61],
    ["SUM(Fri:Sun!$B$5)*2", 120],
    ["SUM(Fri:Fri!B5)", 10],
    ["AVERAGE(Fri:Sun!B5)", 20],
    ["COUNT(Fri:Sun!B5:B6)", 5],
    ["COUNTA(Fri:Sun!B5:B6)", 6],
    ["COUNTA(Fri:Sun!A1)", 2],
    ["MAX(Fri:Sun!B5)", 30],
    ["MIN(Fri:Sun!C1:C2)", 1],
    ["PRODUCT(Fri:Sun!C1)", 5],
    ["LARGE(Fri:Sun!B5:B6,2)", 20],
    ["SMALL(Fri:Sun!B5:B6,1)", 4],
    ["MEDIAN(Fri:Sun!B5:B6)", 10],
    ["_xlfn.STDEV.S(Fri:Sun!B5)", 10],
    ["_xlfn.VAR.P(Fri:Sun!B5)", 200 / 3],
    // The mean of 10, 20, 30 and, as AVERAGEA takes text, 0 for "open", 4 and 6.
    ["AVERAGEA(Fri:Sun!B5:B6)", 70 / 6],
    ["MAXA(Fri:Sun!C1:C2)", 9],
    ["QUARTILE(Fri:Sun!B5,2)", 20],
    ["PERCENTILE(Fri:Sun!B5,1)", 30],
    ["SUM(Days)", 60],
    ["MAX(1,(Days))", 30],
    ["SUM(Fri:Nowhere!B5)", "#REF!"],
  ])("%s", async (formula, value) => {
    const found = await calculate(formula);
    expect(found.why).toBeUndefined();
    if (typeof value === "number") expect(found.value).toBeCloseTo(value, 9);
    else expect(found.value).toBe(value);
  });

  it.each([
    ["SUMIF(Fri:Sun!B5,1)", "SUMIF is not computed for the same cells of several sheets"],
    ["ABS(Fri:Sun!B5)", "ABS is not computed for the same cells of several sheets"],
    ["Fri:Sun!B5", "the same cells of several sheets are no whole argument of a function"],
    ["SUM(Fri:Sun!B5*2)", "the same cells of several sheets are no whole argument of a function"],
    ["SUM((Fri:Sun!B5,A1))", "the same cells of several sheets are no whole argument of a function"],
    ["SUM(Fri:Sun!B5 B1:B9)", "it refers to the same cells of several sheets"],
    ["SUM([1]Fri:Sun!B5)", "it refers to another workbook"],
  ])("%s keeps its value and says why", async (formula, why) => {
    expect(await calculate(formula, { stored: 12.5 })).toEqual({ value: 12.5, why });
  });

  it("is computed anew when a cell of a sheet between changes", async () => {
    await calculate("SUM(Fri:Sun!B5)");
    await engine.setCell({ sheet: 1, row: 4, column: 1 }, 100);
    await engine.recalculate();
    expect(engine.value({ sheet: 3, row: 8, column: 25 })).toBe(140);
  });
});

describe("references joined by a comma", () => {
  // ISO/IEC 29500-1, L.2.16.3: the union refers to the cells of both, in brackets inside an argument, and a cell in both
  // counts twice. Microsoft support, AREAS: AREAS((B2:D4,E5,F6:I9)) is 3. Values worked out by hand on GRID.
  it.each([
    ["SUM((A1,C1))", 4],
    ["SUM((A1:A3,C1:C3))", 36],
    ["SUM((A1:A3,A3))", 24],
    ["SUM( ( A1 , C1 ) )", 4],
    ["SUM(((A1,B1),(C1)))", 6],
    ["SUM((A1,C1),D1)", 8],
    ["AVERAGE((A1:D1,D3))", 22 / 5],
    ["COUNT((A1:A3,F1:F4))", 3],
    ["COUNTA((A1:A3,F1:F4))", 6],
    ["LARGE((A1:A3,D1:D3),2)", 9],
    ["SMALL((A1:A3,D1:D3),2)", 4],
    ["MEDIAN((A1,B2,C3))", 6],
    ["SUBTOTAL(9,(A1,C1:C2))", 11],
    ["SUBTOTAL(9,(Corners))", 13],
    ["SUMSQ((A1,B1))", 5],
    ["AND((A1,F2))", true],
    ["AREAS((B2:D4,E5,F6:I9))", 3],
    ["AREAS(B2:D4)", 1],
    ["AREAS(B2:D4 B2)", 1],
    ["SUM(Corners)", 13],
    ["MAX((Corners))", 12],
    ["SUM((Blue,D1))", 22],
    ["SUM((Sizes[1],Sizes[3]))", 32],
    ["SUM((Sizes,D1))", 72],
    ["SUM((Grid!A1,Grid!B1))", 3],
  ])("%s", async (formula, value) => {
    const found = await calculate(formula, { sheet: "Grid" });
    expect(found.why).toBeUndefined();
    if (typeof value === "number") expect(found.value).toBeCloseTo(value, 9);
    else expect(found.value).toBe(value);
  });

  it.each([
    ["COUNTIF((A1,C1),1)", "COUNTIF is not computed for references joined by a comma"],
    ["SUM((A1,C1)*2)", "references joined by a comma are no whole argument of a function"],
    ["Corners", "references joined by a comma are no whole argument of a function"],
    ["SUM((A1,Fri!B5))", "it joins cells of several sheets"],
    ["SUM((A1,OFFSET(A1,1,1)))", "it joins references that are no plain ones"],
    ["SUM((A1,1))", "it joins references that are no plain ones"],
  ])("%s keeps its value and says why", async (formula, why) => {
    expect(await calculate(formula, { sheet: "Grid", stored: 12.5 })).toEqual({ value: 12.5, why });
  });
});

describe("references that meet", () => {
  // ISO/IEC 29500-1, L.2.16.3: the intersection refers to the cells in common, COUNT((B1:C1) (C1:D1)) to C1 and
  // COUNT((B1:D1) (B1,D1)) to B1 and D1; where there are none it is #NULL!. Values worked out by hand on GRID.
  it.each([
    ["COUNT((B1:C1) (C1:D1))", 1],
    ["SUM((B1:C1) (C1:D1))", 3],
    ["COUNT((B1:D1) (B1,D1))", 2],
    ["SUM((B1:D1) (B1,D1))", 6],
    ["SUM(A1:C1 B1:B3)", 2],
    ["SUM(A1:C2 B1:D3)", 18],
    ["A1:C1 B1:B3", 2],
    ["-A1:C1 B1:B3", -2],
    ["SUM(A1:C1 B2:B3)", "#NULL!"],
    ["ISERROR(A1:C1 B2:B3)", true],
    ["IFERROR(SUM(A1:C1 D1),-1)", -1],
    ["Blue Second", 6],
    ["Blue Second*2", 12],
    ["SUM(Blue 3:3)", 10],
    ["SUM(A:B 1:2)", 14],
    ["SUM(A1:D3 B1:C3 A2:D2)", 13],
    ["SUM((A1:C1 B1:B3,D3))", 14],
    ['COUNTIF(A1:D2 B1:C3,">2")', 3],
    ["SUM(Sizes[2] 2:2)", 6],
    ["ROW(Blue Second)", 2],
  ])("%s", async (formula, value) => {
    const found = await calculate(formula, { sheet: "Grid" });
    expect(found.why).toBeUndefined();
    expect(found.value).toBe(value);
  });

  it("does not read what does not meet, so that a total may stand beside it", async () => {
    expect(await calculate("SUM(A1:Z1 A1:D3)", { sheet: "Grid", at: "Z1" })).toEqual({
      value: 10,
      why: undefined,
    });
  });

  it.each([
    ["SUM(A1:C1 Fri!B1:B3)", "it meets references that are no plain ones"],
    ["SUM(A1:C1 OFFSET(A1,0,0))", "it meets references that are no plain ones"],
    ["ROW(A:A A:B)", "it looks at all cells of whole columns or rows"],
    ["SUM(A1:B2:C3 B1:B3)", "it meets references that are no plain ones"],
  ])("%s keeps its value and says why", async (formula, why) => {
    expect(await calculate(formula, { sheet: "Grid", stored: 12.5 })).toEqual({ value: 12.5, why });
  });
});

it.each([
  ["SUM((A1,B1))", 2, 7, "SUM"],
  ["IF(A1,(B1,C1),2)", 4, 9, "IF"],
  ["SUM((A1,B1)*2)", 2, 7, undefined],
  ["SUM(F(1),(A1,B1))", 7, 12, "SUM"],
  ["(A1,B1)", 0, 5, "OUTER"],
  ["((A1,B1))", 1, 6, "OUTER"],
  ["( (A1,B1) )", 2, 7, "OUTER"],
  ["(A1,B1)+1", 0, 5, undefined],
  ["-(A1,B1)", 1, 6, undefined],
  ["SUM(((A1,B1)))", 3, 8, "SUM"],
  ["SUM((A1,(B1,C1)))", 5, 10, undefined],
  ["SUM((A1,B1)+(C1,D1))", 2, 7, undefined],
])("finds who takes the argument in %s", (formula, start, end, taker) => {
  expect(takerOf(tokenize(formula), start, end, "OUTER")).toBe(taker);
});
