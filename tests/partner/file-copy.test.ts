import { describe, expect, it } from "vitest";
import { createWorkbook } from "../../src/workbook/create";
import { KEPT_SHEET } from "../../src/partner/kept-sheet";
import { partnerCopy, putFormulasBack } from "../../src/partner/file-copy";
import { openWorkbook } from "../../src/workbook/read";

const TAKEN = "2026-06-20T12:00:00.000Z";
const range = { firstRow: 0, firstColumn: 1, lastRow: 1, lastColumn: 2 };

const workbook = createWorkbook({
  author: "test",
  generator: "test",
  date: "2026-01-01T00:00:00Z",
  names: [
    { name: "rope", text: '_xldudf_BLN_METRES("2 ft")' },
    { name: "local", text: "Back!$A$1", sheet: 1 },
  ],
  sheets: [
    {
      name: "Front",
      merges: ["E1:F1"],
      cells: {
        A1: { value: 3.048, formula: '_xldudf_BLN_METRES("10 ft")', style: { numberFormat: "0.00" } },
        A2: { value: 6.096, formula: "A1*2" },
        A3: { value: 0.6096, formula: "rope" },
        A4: { value: "says BLN.METRES(1)", formula: '"says BLN.METRES(1)"' },
        A5: { value: { error: "#VALUE!" }, formula: '_xldudf_BLN_METRES("x")' },
        B1: { value: "row", formula: { text: "_xldudf_BLN_COLUMN_PLAN(1,10)", kind: "dynamic", range } },
        C1: { value: "height" },
        B2: { value: 1 },
        C2: { value: 0.5 },
        D5: { value: 2, formula: "ROWS(_xlfn.ANCHORARRAY(B1))" },
        D6: { value: 2, formula: "ROWS(_xlfn.ANCHORARRAY(A9))" },
      },
    },
    {
      name: "Back",
      state: "hidden",
      cells: { A1: { value: 1, formula: "ROWS(_xlfn.ANCHORARRAY(Front!$B$1))" } },
    },
  ],
});

function formulas(bytes: Uint8Array): Record<string, string> {
  return Object.fromEntries(
    openWorkbook(bytes).model.sheets.flatMap((sheet) =>
      sheet.cells.flatMap(({ row, column, formula }) =>
        formula === undefined ? [] : [[`${sheet.name} ${row} ${column}`, `${formula.kind} ${formula.text}`]],
      ),
    ),
  );
}

describe("a partner's copy", () => {
  const copy = partnerCopy(workbook, TAKEN);

  it("has values for our formulas, for names that hold one and for what takes their spill, and no others", () => {
    expect(formulas(copy.bytes)).toEqual({
      "Front 1 0": "normal A1*2",
      "Front 3 0": 'normal "says BLN.METRES(1)"',
      "Front 5 3": "normal ROWS(_xlfn.ANCHORARRAY(A9))",
    });
    // A1, A3, A5, B1, D5 and the hidden sheet's A1.
    expect(copy.formulas).toBe(6);
    const before = openWorkbook(workbook).model.sheets;
    const after = openWorkbook(copy.bytes).model.sheets;
    for (const [position, sheet] of before.entries()) {
      const values = sheet.cells.map(({ row, column, value, style }) => ({ row, column, value, style }));
      expect(after[position]?.cells).toMatchObject(values);
      expect(after[position]).toMatchObject({ state: sheet.state, merges: sheet.merges });
    }
  });

  it("keeps each formula where a person can read it", () => {
    const sheet = openWorkbook(copy.bytes).model.sheets.find(({ name }) => name === KEPT_SHEET);
    const texts = sheet?.cells.map(({ value }) => value);
    expect(texts).toContain('=BLN.METRES("10 ft")');
    expect(texts).toContain("=BLN.COLUMN_PLAN(1,10)");
    expect(texts).toContain("B1:C2");
    expect(texts).toContain("=ROWS(B1#)");
  });

  it("gives the workbook back as it was", () => {
    const back = putFormulasBack(copy.bytes);
    expect(back.left).toEqual([]);
    expect(back.formulas).toBe(6);
    expect(openWorkbook(back.bytes).model).toEqual(openWorkbook(workbook).model);
    const parts = openWorkbook(back.bytes).parts.names;
    expect([...parts].sort()).toEqual([...openWorkbook(workbook).parts.names].sort());
  });

  it("leaves what the partner changed, and keeps its formula for later", () => {
    const changed = openWorkbook(copy.bytes).patched([{ sheet: 0, row: 1, column: 2, value: 9 }]);
    const back = putFormulasBack(changed);
    expect(back.left.map(({ row, column }) => [row, column])).toEqual([[0, 1]]);
    expect(formulas(back.bytes)["Front 0 0"]).toBe('normal _xldudf_BLN_METRES("10 ft")');
    expect(formulas(back.bytes)["Front 0 1"]).toBeUndefined();
    const undone = openWorkbook(back.bytes).patched([{ sheet: 0, row: 1, column: 2, value: 0.5 }]);
    expect(formulas(putFormulasBack(undone).bytes)).toEqual(formulas(workbook));
  });

  it("is refused of itself, and putting back is refused of any other file", () => {
    expect(() => partnerCopy(copy.bytes, TAKEN)).toThrow("a partner's copy already");
    expect(() => putFormulasBack(workbook)).toThrow("it keeps no formulas");
  });

  it("of a workbook without our functions is that workbook", () => {
    const plain = createWorkbook({
      author: "test",
      generator: "test",
      date: "2026-01-01T00:00:00Z",
      sheets: [{ name: "S", cells: { A1: { value: 2, formula: "1+1" } } }],
    });
    expect(partnerCopy(plain, TAKEN)).toEqual({ bytes: plain, formulas: 0, left: [] });
  });

  it("clears errors that another program wrote as formulas inside a spill, which would block it for good", () => {
    const plan = createWorkbook({
      author: "test",
      generator: "test",
      date: "2026-01-01T00:00:00Z",
      sheets: [
        {
          name: "Plan",
          cells: {
            B1: { value: "row", formula: { text: "_xldudf_BLN_COLUMN_PLAN(1,10)", kind: "dynamic", range } },
            C1: { value: "height" },
            B2: { value: 1 },
            C2: { value: { error: "#N/A" } },
          },
        },
      ],
    });
    const sent = partnerCopy(plan, TAKEN);
    // LibreOffice writes an error in a cell as the formula #N/A.
    const saved = openWorkbook(sent.bytes).patched([
      { sheet: 0, row: 1, column: 2, value: { error: "#N/A" }, formula: { text: "#N/A", kind: "normal" } },
    ]);
    expect(formulas(saved)["Plan 1 2"]).toBe("normal #N/A");
    const back = putFormulasBack(saved);
    expect(back.left).toEqual([]);
    expect(formulas(back.bytes)).toEqual({ "Plan 0 1": "dynamic _xldudf_BLN_COLUMN_PLAN(1,10)" });
  });
});
