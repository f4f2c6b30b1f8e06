import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import type { CellChange, CellStyle, WorkbookCell } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import type { LayoutChange } from "../../src/workbook/sheet-layout";
import { tinyWorkbook } from "./tiny-package";

// Values, formats, looks, widths, heights and panes that change at once are written in one go.

const bytes = tinyWorkbook({
  before: '<dimension ref="A1:B4"/><cols><col min="3" max="3" width="12" style="1"/></cols>',
  rows:
    '<row r="1" spans="1:2"><c r="A1" s="1"><v>1</v></c><c r="B1"><v>2</v></c></row>' +
    '<row r="2" ht="20"/><row r="4"><c r="A4"><v>4</v></c></row>',
  styles:
    '<numFmts count="1"><numFmt numFmtId="164" formatCode="0.000"/></numFmts>' +
    '<fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts>' +
    '<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>' +
    '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>' +
    '<cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/><xf numFmtId="164" fontId="0" fillId="0" borderId="0"/></cellXfs>',
});
const PLAIN_LOOK = { fontSize: 11, fontName: "Calibri" };
const BOLD = { ...PLAIN_LOOK, bold: true };
const YELLOW = { ...PLAIN_LOOK, fill: "#ffff00" };

interface Written {
  cell(row: number, column: number): (WorkbookCell & { readonly look: CellStyle | undefined }) | undefined;
  readonly sheet: ReturnType<typeof openWorkbook>["model"]["sheets"][number];
  readonly xml: string;
}

function written(changes: readonly CellChange[], layouts: readonly LayoutChange[] = []): Written {
  const file = openWorkbook(bytes).patched(changes, layouts);
  const { model } = openWorkbook(file);
  const [sheet] = model.sheets;
  if (sheet === undefined) throw new Error("there is no sheet");
  return {
    sheet,
    xml: strFromU8(unzipSync(file)["xl/worksheets/sheet1.xml"] ?? new Uint8Array()),
    cell: (row, column) => {
      const found = sheet.cells.find((cell) => cell.row === row && cell.column === column);
      return found && { ...found, look: model.styles[found.style] };
    },
  };
}

describe("changes that are written at once", () => {
  it("give one cell its value, format and look", () => {
    const { cell } = written([
      { sheet: 0, row: 0, column: 1, value: 7, numberFormat: "0.00%" },
      { sheet: 0, row: 0, column: 1, look: BOLD },
      { sheet: 0, row: 3, column: 0, look: YELLOW },
      { sheet: 0, row: 3, column: 1, value: 5, numberFormat: "0.0000", look: BOLD },
    ]);
    expect(cell(0, 1)).toMatchObject({ value: 7, look: { ...BOLD, numberFormat: "0.00%" } });
    expect(cell(3, 0)).toMatchObject({ value: 4, look: { ...YELLOW, numberFormat: "General" } });
    expect(cell(3, 1)).toMatchObject({ value: 5, look: { ...BOLD, numberFormat: "0.0000" } });
    expect(cell(0, 0)).toMatchObject({ value: 1, look: { ...PLAIN_LOOK, numberFormat: "0.000" } });
  });

  it("give looks and formats in any order, each as it is meant", () => {
    const cells = Array.from({ length: 12 }, (_, row): CellChange => {
      const numberFormat = row % 3 === 0 ? `0.${"0".repeat(row + 1)}` : undefined;
      const look = row % 2 === 0 ? { ...PLAIN_LOOK, fontColor: `#0000${String(10 + row)}` } : undefined;
      const place = { sheet: 0, row: row + 10, column: 0, value: row };
      return { ...place, ...(numberFormat !== undefined && { numberFormat }), ...(look && { look }) };
    });
    const { cell } = written(cells);
    for (const { row, numberFormat = "General", look = PLAIN_LOOK } of cells)
      expect(cell(row, 0)?.look).toEqual({ ...look, numberFormat });
  });

  it("give an empty cell the look of its column with what changes, and none where nothing does", () => {
    const { cell } = written([
      { sheet: 0, row: 6, column: 2, look: YELLOW },
      { sheet: 0, row: 7, column: 2, look: PLAIN_LOOK },
    ]);
    expect(cell(6, 2)?.look).toEqual({ ...YELLOW, numberFormat: "0.000" });
    expect(cell(7, 2)).toBeUndefined();
  });

  it("give rows their heights beside the cells that are added to them", () => {
    const { xml, sheet, cell } = written(
      [
        { sheet: 0, row: 0, column: 4, value: "wide" },
        { sheet: 0, row: 1, column: 1, value: 2 },
        { sheet: 0, row: 2, column: 0, value: 3 },
      ],
      [
        {
          sheet: 0,
          rowHeights: new Map([0, 1, 2, 4].map((row) => [row, 30 + row])),
          hiddenRows: new Map([
            [3, true],
            [8, false],
          ]),
          columnWidths: new Map([[0, 21]]),
          frozen: { rows: 1, columns: 1 },
        },
      ],
    );
    expect([...sheet.rowHeights]).toEqual([
      [0, 30],
      [1, 31],
      [2, 32],
      [4, 34],
    ]);
    expect([...sheet.hiddenRows]).toEqual([3]);
    expect([...sheet.columnWidths]).toEqual([
      [0, 21],
      [2, 12],
    ]);
    expect([sheet.frozenRows, sheet.frozenColumns]).toEqual([1, 1]);
    expect([cell(0, 4)?.value, cell(1, 1)?.value, cell(2, 0)?.value]).toEqual(["wide", 2, 3]);
    // Every row once, in order (ECMA-376 part 1, 18.3.1.73).
    expect([...xml.matchAll(/<row [^>]*?r="(\d+)"/g)].map(([, row]) => Number(row))).toEqual([1, 2, 3, 4, 5]);
    expect(xml).toContain('spans="1:5"');
  });

  it("tell how far they are", () => {
    const shares: number[] = [];
    const rows = Array.from(
      { length: 3000 },
      (_, row) => `<row r="${row + 1}"><c r="A${row + 1}"><v>1</v></c></row>`,
    );
    const long = tinyWorkbook({ rows: rows.join("") });
    const onProgress = (share: number): void => void shares.push(share);
    const opened = openWorkbook(long, { onProgress });
    const isRising = (): boolean =>
      shares.every((share, i) => share >= (shares[i - 1] ?? 0) && share <= 1) && shares.length > 3;
    expect(isRising()).toBe(true);
    shares.length = 0;
    opened.patched([{ sheet: 0, row: 5, column: 0, value: 2 }], [], { onProgress });
    expect(isRising()).toBe(true);
  });
});
