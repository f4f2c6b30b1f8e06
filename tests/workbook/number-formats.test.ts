import { describe, expect, it } from "vitest";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";

const bytes = createWorkbook({
  author: "test",
  generator: "test",
  date: "2026-01-01T00:00:00Z",
  sheets: [
    {
      name: "S",
      cells: {
        A1: { value: 0.5, style: { bold: true, fill: "#ffeecc", numberFormat: "0.00" } },
        A2: { value: 1 },
        A3: { value: 2, formula: "1+1" },
      },
    },
  ],
});

function lookOf(file: Uint8Array, row: number, column = 0): unknown {
  const { sheets, styles } = openWorkbook(file).model;
  return styles[sheets[0]?.cells.find((cell) => cell.row === row && cell.column === column)?.style ?? -1];
}

describe("the number format of a changed cell", () => {
  const before = openWorkbook(bytes);

  it("comes with a changed look in one new style for all cells that get both", () => {
    const file = before.patched(
      Array.from({ length: 20 }, (_, row) => ({
        sheet: 0,
        row: row + 10,
        column: 0,
        value: row,
        numberFormat: "0.00",
        look: { italic: true },
      })),
    );
    expect(lookOf(file, 29)).toMatchObject({ italic: true, numberFormat: "0.00" });
    // What the number format alone looks like, and italic on top of it.
    expect(openWorkbook(file).model.styles.length).toBe(before.model.styles.length + 2);
  });

  it("changes with all else of its look kept, one new style for all that need it", () => {
    const file = before.patched([
      { sheet: 0, row: 0, column: 0, numberFormat: "0.0%" },
      { sheet: 0, row: 1, column: 0, numberFormat: "0.0%" },
      { sheet: 0, row: 2, column: 0, numberFormat: "0.0%" },
      { sheet: 0, row: 5, column: 3, value: 7, numberFormat: "yyyy-mm-dd" },
    ]);
    expect(lookOf(file, 0)).toMatchObject({ bold: true, fill: "#ffeecc", numberFormat: "0.0%" });
    expect(lookOf(file, 1)).toMatchObject({ numberFormat: "0.0%" });
    expect(lookOf(file, 5, 3)).toMatchObject({ numberFormat: "yyyy-mm-dd" });
    const { styles, sheets } = openWorkbook(file).model;
    // Bold and plain as percentages, plain as a date.
    expect(styles).toHaveLength(before.model.styles.length + 3);
    expect(styles.slice(0, before.model.styles.length)).toEqual(before.model.styles);
    expect(sheets[0]?.cells.map(({ value }) => value)).toEqual([0.5, 1, 2, 7]);
    expect(openWorkbook(file).parts.readText("xl/styles.xml")).toMatch(/<cellXfs count="(\d+)"/);
  });

  it("is written by Excel's own number where it has one, and not at all where the cell has it", () => {
    expect(before.patched([{ sheet: 0, row: 0, column: 0, numberFormat: "0.00" }])).toEqual(bytes);
    const file = before.patched([{ sheet: 0, row: 1, column: 0, numberFormat: "0%" }]);
    // 0% is format 9 (ECMA-376 part 1, 18.8.30).
    expect(openWorkbook(file).parts.readText("xl/styles.xml")).toContain('numFmtId="9"');
  });
});
