import { describe, expect, it } from "vitest";
import { openWorkbook } from "../../src/workbook/read";
import type { ListFilter } from "../../src/workbook/row-filters";
import { readFeatures } from "../../src/workbook/sheet-features";
import { tinyWorkbook } from "./tiny-package";

function filterOf(columns: string): ListFilter | undefined {
  const behind = `<autoFilter ref="B2:D9">${columns}</autoFilter>`;
  const { parts, model } = openWorkbook(tinyWorkbook({ behind }));
  return readFeatures(parts, model.sheets)[0]?.filters[0];
}

// ECMA-376 part 1, 18.3.2.7 to 18.3.2.10.
describe("the filter of a list", () => {
  it("reads the texts that each column shows, blanks among them", () => {
    const columns =
      '<filterColumn colId="0"><filters blank="1"><filter val="Gold &amp; sand"/></filters></filterColumn><filterColumn colId="2"><filters><filter val="2"/><filter val="3"/></filters></filterColumn>';
    expect(filterOf(columns)).toEqual({
      range: { firstRow: 1, firstColumn: 1, lastRow: 8, lastColumn: 3 },
      columns: [
        { column: 1, shown: ["Gold & sand", ""] },
        { column: 3, shown: ["2", "3"] },
      ],
      hasOthers: false,
    });
  });

  it.each([
    '<customFilters><customFilter operator="greaterThan" val="3"/></customFilters>',
    '<top10 val="5"/>',
    '<filters><dateGroupItem year="2027" dateTimeGrouping="year"/></filters>',
  ])("says that a column filters otherwise: %s", (markup) => {
    expect(filterOf(`<filterColumn colId="1">${markup}</filterColumn>`)).toMatchObject({
      columns: [],
      hasOthers: true,
    });
  });
});
