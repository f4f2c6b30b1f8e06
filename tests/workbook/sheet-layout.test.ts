import { strFromU8, unzipSync } from "fflate";
import { expect, it } from "vitest";
import { openWorkbook } from "../../src/workbook/read";
import type { LayoutChange } from "../../src/workbook/sheet-layout";
import { tinyWorkbook } from "./tiny-package";

const bytes = tinyWorkbook({
  before:
    '<dimension ref="A1"/><sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/><selection pane="bottomLeft"/></sheetView></sheetViews><sheetFormatPr defaultRowHeight="15"/><cols><col min="2" max="5" width="20" style="3"/></cols>',
  rows: '<row r="2" spans="1:1"><c r="A2"><v>1</v></c></row><row r="9"/>',
});

const withLayout = (file: Uint8Array, layouts: readonly LayoutChange[]): Uint8Array =>
  openWorkbook(file).patched([], layouts);

it("writes widths, heights, hidden rows and columns, and panes", () => {
  const changed = withLayout(bytes, [
    {
      sheet: 0,
      columnWidths: new Map([
        [0, 11],
        [2, 8.5],
      ]),
      hiddenColumns: new Map([[4, true]]),
      rowHeights: new Map([
        [1, 30],
        [4, 22.5],
      ]),
      hiddenRows: new Map([[8, true]]),
      frozen: { rows: 2, columns: 1 },
    },
  ]);
  const [sheet] = openWorkbook(changed).model.sheets;
  expect([...(sheet?.columnWidths ?? [])]).toEqual([
    [0, 11],
    [1, 20],
    [2, 8.5],
    [3, 20],
    [4, 20],
  ]);
  expect([...(sheet?.hiddenColumns ?? [])]).toEqual([4]);
  expect([...(sheet?.rowHeights ?? [])]).toEqual([
    [1, 30],
    [4, 22.5],
  ]);
  expect([...(sheet?.hiddenRows ?? [])]).toEqual([8]);
  expect([sheet?.frozenRows, sheet?.frozenColumns]).toEqual([2, 1]);
  const xml = strFromU8(unzipSync(changed)["xl/worksheets/sheet1.xml"] ?? new Uint8Array());
  // The order of a worksheet's elements (ECMA-376 part 1, 18.3.1.99); styles of columns stay.
  expect(xml).toMatch(/<dimension.*<sheetViews>.*<sheetFormatPr.*<cols>.*<sheetData>/);
  expect(xml.match(/style="3"/g)).toHaveLength(4);
  expect(xml).not.toContain("<selection");
});

it("takes panes away and shows again", () => {
  const [sheet] = openWorkbook(withLayout(bytes, [{ sheet: 0, frozen: { rows: 0, columns: 0 } }])).model
    .sheets;
  expect([sheet?.frozenRows, sheet?.frozenColumns]).toEqual([0, 0]);
  const hidden = withLayout(bytes, [
    { sheet: 0, hiddenRows: new Map([[1, true]]), hiddenColumns: new Map([[7, true]]) },
  ]);
  const shown = withLayout(hidden, [
    { sheet: 0, hiddenRows: new Map([[1, false]]), hiddenColumns: new Map([[7, false]]) },
  ]);
  expect(openWorkbook(hidden).model.sheets[0]?.hiddenColumns).toEqual(new Set([7]));
  expect(openWorkbook(shown).model.sheets[0]).toMatchObject({
    hiddenRows: new Set(),
    hiddenColumns: new Set(),
  });
});

it("gives a bare sheet its panes and columns, and leaves one without changes alone", () => {
  const bare = tinyWorkbook({ rows: '<row r="1"><c r="A1"><v>1</v></c></row>' });
  const changed = withLayout(bare, [
    { sheet: 0, columnWidths: new Map([[1, 12]]), frozen: { rows: 1, columns: 0 } },
  ]);
  expect(openWorkbook(changed).model.sheets[0]).toMatchObject({
    frozenRows: 1,
    columnWidths: new Map([[1, 12]]),
  });
  expect(withLayout(bare, [])).toEqual(bare);
});
