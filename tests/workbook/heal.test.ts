import { describe, expect, it } from "vitest";
import { healWorkbook } from "../../src/workbook/heal";
import { workbookOf } from "../sheet/workbook-of";

const exported = (text: string, value: string): string =>
  `IFERROR(__xludf.DUMMYFUNCTION("${text}"),${value})`;

describe("healing a file", () => {
  it("mends names and makes spills of fixed arrays, and leaves all else", () => {
    const workbook = workbookOf({
      S: {
        A1: { f: "_xldudf_bln_metres(2)", v: 2 },
        A2: { f: "[1]!_xldudf_BLN_METRES(2)", v: 2 },
        A3: { f: "_xldudf_BLN_METRES(2)", v: 2 },
        B1: { f: "_xldudf_bln_bag_plan(200,{50,100},{8,14})", v: "#NAME?", kind: "array", range: "B1:F3" },
        H1: { f: "TRANSPOSE(A1:A3)", v: 2, kind: "array", range: "H1:J1" },
        K1: { f: "_xldudf_BLN_METRES(2)+A1:A3", v: 4, kind: "array", range: "K1:K3" },
      },
    });
    const { model, changes, healed } = healWorkbook(workbook);
    expect(healed).toBe(3);
    expect(changes).toEqual([
      { sheet: 0, row: 0, column: 0, formula: { text: "_xldudf_BLN_METRES(2)", kind: "normal" } },
      { sheet: 0, row: 1, column: 0, formula: { text: "_xldudf_BLN_METRES(2)", kind: "normal" } },
      {
        sheet: 0,
        row: 0,
        column: 1,
        formula: {
          text: "_xldudf_BLN_BAG_PLAN(200,{50,100},{8,14})",
          kind: "dynamic",
          range: { firstRow: 0, firstColumn: 1, lastRow: 2, lastColumn: 5 },
        },
      },
    ]);
    expect(healWorkbook(model)).toEqual({ model, changes: [], healed: 0 });
  });

  it("unwraps an export of Google Sheets, with the cells that a spill filled", () => {
    const workbook = workbookOf({
      S: {
        A1: { f: exported("BLN_METRES(B1)", "106"), v: 106 },
        C1: { f: exported("BLN_BAG_PLAN(200,A5:A6,B5:B6)", "100"), v: 100 },
        D1: { f: exported('""COMPUTED_VALUE""', "2"), v: 2 },
        F1: { f: exported("GOOGLEFINANCE(A1)", "7"), v: 7 },
        G1: { f: exported('""COMPUTED_VALUE""', "8"), v: 8 },
      },
    });
    const { model, healed } = healWorkbook(workbook);
    expect(healed).toBe(2);
    const after = model.sheets[0]?.cells.map(({ column, formula, value }) => [
      column,
      value,
      formula?.text,
      formula?.kind,
    ]);
    expect(after).toEqual([
      [0, 106, "_xldudf_BLN_METRES(B1)", "normal"],
      [2, 100, "_xldudf_BLN_BAG_PLAN(200,A5:A6,B5:B6)", "dynamic"],
      [3, 2, undefined, undefined],
      [5, 7, exported("GOOGLEFINANCE(A1)", "7"), "normal"],
      [6, 8, exported('""COMPUTED_VALUE""', "8"), "normal"],
    ]);
  });

  it("leaves what is no formula of ours, or no formula, as the same objects", () => {
    const workbook = workbookOf({
      S: {
        A1: 7,
        A2: { f: "SUM(A1)", v: 7 },
        A3: { f: '"bln_metres"&A1', v: "bln_metres7" },
        A4: { f: "_xldudf_bln_metres(A1)", v: 7, kind: "dataTable", range: "A4:A5" },
        A5: { f: "TRANSPOSE(C1:C3)", v: 1, kind: "array", range: "A5:C5" },
      },
      T: { A1: { f: "_xldudf_bln_metres(2)", v: 2 }, A2: 5 },
    });
    const { model, changes, healed } = healWorkbook(workbook);
    expect(healed).toBe(1);
    expect(changes.map(({ sheet, row }) => [sheet, row])).toEqual([[1, 0]]);
    expect(model.sheets[0]).toBe(workbook.sheets[0]);
    expect(model.sheets[1]?.cells[1]).toBe(workbook.sheets[1]?.cells[1]);
    const [untouched] = [workbookOf({ S: { A1: { f: "SUM(1,2)", v: 3 } } })];
    expect(healWorkbook(untouched).model).toBe(untouched);
  });

  it("keeps the kind of a formula of ours that fills one cell, or has a kind of its own", () => {
    const workbook = workbookOf({
      S: {
        A1: { f: "_xldudf_bln_bag_plan(200,{50,100},{8,14})", v: 1, kind: "dynamic", range: "A1:E3" },
        G1: { f: "_xldudf_bln_bag_plan(200,{50,100},{8,14})", v: 1 },
      },
    });
    expect(healWorkbook(workbook).model.sheets[0]?.cells.map(({ formula }) => formula?.kind)).toEqual([
      "dynamic",
      "normal",
    ]);
  });
});
