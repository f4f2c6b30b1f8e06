import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { exportedSpills, healedFileFormula, healedTypedFormula, mayBeDamaged } from "../../src/formula/heal";

// Spellings that other programs wrote: LibreOffice 7.4 and Gnumeric 1.12 (saved and looked into), Excel beside other add-ins
// (office-js issues 2051, 2568, 3872), exports of Google Sheets (public files with __xludf.DUMMYFUNCTION).
describe("formulas of ours that another program damaged", () => {
  it.each([
    ["_xldudf_bln_metres(F5)", "_xldudf_BLN_METRES(F5)"],
    ["_XLDUDF_BLN_METRES(F5)", "_xldudf_BLN_METRES(F5)"],
    ["BLN.METRES(F5)", "_xldudf_BLN_METRES(F5)"],
    ["[1]!_xldudf_BLN_METRES(F5)+1", "_xldudf_BLN_METRES(F5)+1"],
    ["'C:\\Add ins\\it''s.xla'!_xldudf_BLN_METRES(F5)", "_xldudf_BLN_METRES(F5)"],
    ["Some.xla!_xldudf_BLN_METRES(F5)", "_xldudf_BLN_METRES(F5)"],
    ["_xlfn.let(_xlpm.x,_xldudf_bln_metres(1),_xlpm.x)", "_xlfn.LET(_xlpm.x,_xldudf_BLN_METRES(1),_xlpm.x)"],
    ["_xldudf_bln_part_plan(Pieces[#all])", "_xldudf_BLN_PART_PLAN(Pieces[#All])"],
    // Formulas without ours, as LibreOffice 7.4 saves those of a workbook: Excel's later functions and parts of tables.
    ['_xlfn.xlookup("a",Chosen[term],Chosen[value])', '_xlfn.XLOOKUP("a",Chosen[term],Chosen[value])'],
    ["_xlfn._xlws.sort(A1:A3)+_xlfn.stdev.s(B1:B3)", "_xlfn._xlws.SORT(A1:A3)+_xlfn.STDEV.S(B1:B3)"],
    ["SUM(Prices[[#headers],[#this row],[each]])", "SUM(Prices[[#Headers],[#This Row],[each]])"],
    ['IFERROR(__xludf.DUMMYFUNCTION("BLN_METRES(A1)"),106)', "_xldudf_BLN_METRES(A1)"],
    [
      'IFERROR(__xludf.DUMMYFUNCTION("BLN_METRES(""6 ft"")"&"+SORT(A1:A3)"),1.8288)',
      '_xldudf_BLN_METRES("6 ft")+_xlfn._xlws.SORT(A1:A3)',
    ],
  ])("%s", (damaged, stored) => {
    expect(healedFileFormula(damaged)).toBe(stored);
    expect(healedFileFormula(stored)).toBe(stored);
  });

  it.each([
    "[1]!_xldudf_BLN_NO_SUCH(F5)",
    "[1]!_xldudf_OTHER(F5)",
    "[1]Sheet1!A1+'[1]BLN.xlsx'!B2",
    'IF(A1="[1]!_xldudf_bln_metres(1)",1,2)',
    'IFERROR(__xludf.DUMMYFUNCTION("GOOGLEFINANCE(A1)"),106)',
    'IFERROR(__xludf.DUMMYFUNCTION("""COMPUTED_VALUE"""),67)',
    "BLN!A1",
    "_xlfn.LET(_xlpm.bln_x,1,_xlpm.bln_x)",
    "Prices['#all]+Prices[no '#data]",
  ])("%s is left alone", (formula) => {
    expect(healedFileFormula(formula)).toBe(formula);
    expect(healedTypedFormula(formula)).toBe(formula);
  });

  it("are told apart quickly from those that need no mending", () => {
    const pieces = fc.constantFrom(
      "_xldudf_BLN_METRES(", "_xldudf_bln_metres(", "BLN.METRES(", "_xldudf_BLN_NO_SUCH(", "_XLDUDF_BLN_METRES(", "SUM(", "A1", "Sheet1!", "[1]!", "Some.xla! ", "(", ")",
      "+", ",", '"bln_x"', '"', "_xlfn.let(", "_xlfn.LET(", "_xlpm.bln_x", "IFERROR(__xludf.DUMMYFUNCTION(", " ", "1.5", "x", "'",
    ); // prettier-ignore
    const formula = fc.array(pieces, { minLength: 1, maxLength: 8 }).map((parts) => parts.join(""));
    let undamaged = 0;
    fc.assert(
      fc.property(formula, (text) => {
        if (mayBeDamaged(text)) return;
        undamaged++;
        expect(healedFileFormula(text)).toBe(text);
      }),
      { numRuns: 3000 },
    );
    expect(undamaged).toBeGreaterThan(500);
    expect(mayBeDamaged("Sheet2!A1*_xldudf_BLN_COUNT_SPHERE(B1/10+0.5,11)")).toBe(false);
  });

  it("are told to Excel as a person types them", () => {
    expect(healedTypedFormula("'C:\\x.xla'!_xldudf_bln_metres(A1)+[1]!BLN.INCHES(2)")).toBe(
      "BLN.METRES(A1)+BLN.INCHES(2)",
    );
    expect(healedTypedFormula('IFERROR(__xludf.DUMMYFUNCTION("BLN_METRES(A1)"),106)')).toBe("BLN.METRES(A1)");
  });
});

describe("spills of a Google Sheets export", () => {
  const anchor = (row: number, column: number, text = "BLN_BAG_PLAN(A1,B1:B2,C1:C2)") => ({
    row,
    column,
    formula: `IFERROR(__xludf.DUMMYFUNCTION("${text}"),1)`,
  });
  const computed = (row: number, column: number) => anchor(row, column, '""COMPUTED_VALUE""');
  const ranges = (...cells: readonly ReturnType<typeof anchor>[]): unknown =>
    [...exportedSpills(cells)].map(([{ row, column }, { range, filled }]) => ({
      from: [row, column],
      to: [range.lastRow, range.lastColumn],
      filled: filled.length,
    }));

  it("are the computed values to the right and below", () => {
    expect(ranges(anchor(0, 0), computed(0, 1), computed(1, 0), computed(1, 1), computed(3, 0))).toEqual([
      { from: [0, 0], to: [1, 1], filled: 3 },
    ]);
    expect(ranges(anchor(2, 2))).toEqual([{ from: [2, 2], to: [2, 2], filled: 0 }]);
  });

  it("do not take what belongs to another formula", () => {
    const cells = [anchor(0, 1, "SORT(X1:X9)"), computed(1, 1), computed(2, 1), anchor(1, 0), computed(2, 0)];
    expect(ranges(...cells)).toEqual([{ from: [1, 0], to: [2, 0], filled: 1 }]);
  });
});
