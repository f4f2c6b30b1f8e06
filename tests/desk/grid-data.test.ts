import { BorderStyleTypes, CellValueType } from "@univerjs/core";
import { describe, expect, it } from "vitest";
import { fileFormat, gridValue, gridWorkbook, sheetId, sheetOf } from "../../src/desk/grid-data";
import { typedFormula } from "../../src/formula/names";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { PLAIN, quoteWorkbook } from "./desk-page";

describe("a workbook in the grid", () => {
  const grid = gridWorkbook(openWorkbook(quoteWorkbook()).model, "book", "Quote", typedFormula);
  const sheet = grid.sheets["sheet-0"];

  it("has the sheets in order, with merges and frozen rows", () => {
    expect(grid.sheetOrder.map((id) => grid.sheets[id]?.name)).toEqual(["Quote", "Prices"]);
    expect(sheet?.mergeData).toEqual([{ startRow: 0, endRow: 0, startColumn: 0, endColumn: 2 }]);
    expect(sheet?.freeze).toEqual({ xSplit: 0, ySplit: 1, startRow: 1, startColumn: -1 });
    // 22 characters of 7 pixels (ECMA-376 part 1, 18.3.1.13).
    expect(sheet?.columnData?.[0]).toEqual({ w: 154 });
  });

  it("shows formulas as a person types them, and leaves out what a spill filled", () => {
    expect(sheet?.cellData?.[4]?.[1]).toMatchObject({ f: '=BLN.METRES("10 ft")' });
    expect(sheet?.cellData?.[1]?.[3]).toMatchObject({ f: "=SEQUENCE(B6)", v: 1 });
    expect(sheet?.cellData?.[2]?.[3]).not.toHaveProperty("v");
  });

  it("offers the names", () => {
    const [names] = grid.resources ?? [];
    expect(JSON.parse(names?.data ?? "{}")).toMatchObject({
      "name-0": { name: "price_each", formulaOrRefString: "Prices!$B$2" },
    });
  });

  it("keeps looks, draws the header of a table, and fits rows to large fonts", () => {
    const bytes = createWorkbook({
      ...PLAIN,
      sheets: [
        {
          name: "S",
          cells: {
            A1: { value: "name" },
            A2: {
              value: true,
              style: { bold: true, fontSize: 22, borders: { top: { style: "double", color: "#112233" } } },
            },
          },
          tables: [{ name: "T", range: "A1:A2" }],
        },
      ],
    });
    const { sheets, styles } = gridWorkbook(openWorkbook(bytes).model, "b", "S", typedFormula);
    const cells = sheets["sheet-0"]?.cellData;
    expect(styles[String(cells?.[0]?.[0]?.s)]).toMatchObject({
      bl: 1,
      bg: { rgb: "rgba(223, 231, 240, 1)" },
    });
    expect(styles[String(cells?.[1]?.[0]?.s)]).toMatchObject({
      bl: 1,
      fs: 22,
      bd: { t: { s: BorderStyleTypes.DOUBLE, cl: { rgb: "#112233" } } },
    });
    expect(sheets["sheet-0"]?.rowData?.[1]?.h).toBeGreaterThanOrEqual(29);
    expect(sheets["sheet-0"]?.rowData?.[0]).toBeUndefined();
  });
});

it("shows a new cell in the font of the file's cells without a look", () => {
  const bytes = createWorkbook({ ...PLAIN, sheets: [{ name: "S", cells: {} }] });
  const { model } = openWorkbook(bytes);
  const [style] = model.styles;
  expect(style?.fontName).toBeDefined();
  const { sheets, styles } = gridWorkbook(model, "b", "S", typedFormula);
  const defaultStyle = sheets["sheet-0"]?.defaultStyle;
  expect(defaultStyle).toMatchObject({
    ff: expect.stringContaining(style?.fontName ?? ""),
    fs: style?.fontSize,
  });
  expect(defaultStyle).toEqual(styles["0"]);
});

describe("values and formats", () => {
  it("says errors by their code and truth by number", () => {
    expect(gridValue({ error: "#N/A" })).toEqual({ v: "#N/A", t: CellValueType.STRING });
    expect(gridValue(true)).toEqual({ v: 1, t: CellValueType.BOOLEAN });
    expect(gridValue(null)).toEqual({ v: null, t: null });
  });

  it.each([
    ["yyyy-MM-dd", "yyyy-mm-dd"],
    ["h:mm AM/PM", "h:mm AM/PM"],
    ['0 "M"', '0 "M"'],
    ["[h]:mm", "[h]:mm"],
  ])("writes %s as %s", (pattern, stored) => {
    expect(fileFormat(pattern)).toBe(stored);
  });

  it("finds a sheet's position again", () => {
    expect(sheetOf(sheetId(12))).toBe(12);
  });
});
