import { describe, expect, it } from "vitest";
import { createWorkbook } from "../../src/workbook/create";
import { printSetup } from "../../src/workbook/print-setup";
import { openWorkbook } from "../../src/workbook/read";
import { priceSheet, printWorkbook } from "../paper/print-workbook";

// Elements and attributes as ECMA-376 part 1, 18.3.1 and 18.2.5 describe them.
describe("print settings of a sheet", () => {
  it("are read from names, page setup, margins, breaks and heads", () => {
    const bytes = printWorkbook(
      [priceSheet(9)],
      '<printOptions horizontalCentered="1" gridLines="1"/><pageMargins left="0.5" right="0.25" top="1" bottom="1.5" header="0.2" footer="0.3"/>|<headerFooter><oddHeader>&amp;LPrices</oddHeader><oddFooter>&amp;P</oddFooter></headerFooter><rowBreaks count="1" manualBreakCount="1"><brk id="6" max="16383" man="1"/></rowBreaks><colBreaks count="1"><brk id="1" man="1"/></colBreaks>',
    );
    expect(printSetup(openWorkbook(bytes), 0)).toEqual({
      areas: [{ firstRow: 0, firstColumn: 0, lastRow: 10, lastColumn: 1 }],
      repeatedRows: { firstRow: 1, firstColumn: 0, lastRow: 1, lastColumn: 16383 },
      paper: [297, 210],
      scale: 1,
      fit: { wide: 1, tall: 0 },
      leastScale: 0.1,
      margins: { left: 0.5, right: 0.25, top: 1, bottom: 1.5, header: 0.2, footer: 0.3 },
      isCentred: true,
      showGridLines: true,
      isBlackAndWhite: false,
      rowBreaks: [6],
      columnBreaks: [1],
      header: "&LPrices",
      footer: "&P",
    });
  });

  it("keep the columns together on A4 where nobody has set up the page", () => {
    const setup = printSetup(openWorkbook(printWorkbook([{ name: "S", cells: { A1: { value: 1 } } }])), 0);
    expect(setup).toMatchObject({ areas: [], paper: [210, 297], fit: { wide: 1, tall: 0 }, leastScale: 0.4 });
  });

  // ECMA-376 part 1, 18.2.5: built-in names; a sheet's name stands in apostrophes, one of its own is doubled.
  it.each([
    ["'Bob''s, list'!$A:$B,'Bob''s, list'!$12:$14", [11, 13], [0, 1]],
    ["'Bob''s, list'!$12:$14, 'Bob''s, list'!$AA:$AB", [11, 13], [26, 27]],
    ["'Bob''s, list'!1:2", [0, 1], undefined],
    ["'Bob''s, list'!C:C", undefined, [2, 2]],
    ["'Bob''s, list'!$A$1:$B$2", undefined, undefined],
    ["#REF!", undefined, undefined],
  ])("repeats what print titles %s say", (text, rows, columns) => {
    const bytes = createWorkbook({
      author: "test",
      generator: "test",
      date: "2026-01-01T00:00:00Z",
      names: [{ name: "_xlnm.Print_Titles", text, sheet: 0 }],
      sheets: [{ name: "Bob's, list", cells: { A1: { value: 1 } } }],
    });
    const { repeatedRows, repeatedColumns } = printSetup(openWorkbook(bytes), 0);
    expect(repeatedRows && [repeatedRows.firstRow, repeatedRows.lastRow]).toEqual(rows);
    expect(repeatedColumns && [repeatedColumns.firstColumn, repeatedColumns.lastColumn]).toEqual(columns);
  });
});
