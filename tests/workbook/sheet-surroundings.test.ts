import fc from "fast-check";
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import type { AxisShift } from "../../src/formula/axis-shift";
import { shiftSheet } from "../../src/workbook/shift-sheet";
import { insert, move, remove } from "./shifts";
import { tinyParts, tinyWorkbook, zipParts } from "./tiny-package";

// What Excel does to everything around the cells when rows or columns come, go and move. Elements and attributes are those of
// ECMA-376 part 1, 18.3.1; the expected places are counted by hand.

const PART = "xl/worksheets/sheet1.xml";
const ROWS = '<row r="9"><c r="A9"><v>1</v></c></row>';

/** The markup before and behind the cells of a sheet after a shift. */
function around({ before = "", behind = "" }, shift: AxisShift): { before: string; behind: string } {
  const bytes = shiftSheet(tinyWorkbook({ rows: ROWS, before, behind }), 0, shift);
  const xml = strFromU8(unzipSync(bytes)[PART] ?? new Uint8Array());
  const [, head = "", tail = ""] =
    /<worksheet[^>]*>(.*)<sheetData>.*<\/sheetData>(.*)<\/worksheet>/.exec(xml) ?? [];
  return { before: head, behind: tail };
}
const behindAfter = (behind: string, shift: AxisShift): string => around({ behind }, shift).behind;
const beforeAfter = (before: string, shift: AxisShift): string => around({ before }, shift).before;

describe("merged cells", () => {
  const merges = '<mergeCells count="2"><mergeCell ref="A1:A2"/><mergeCell ref="C4:D6"/></mergeCells>';
  it.each<[string, AxisShift, string]>([
    [
      "move and grow",
      insert("row", 4, 2),
      '<mergeCells count="2"><mergeCell ref="A1:A2"/><mergeCell ref="C4:D8"/></mergeCells>',
    ],
    [
      "are no more where one cell is left",
      remove("row", 1),
      '<mergeCells count="1"><mergeCell ref="C3:D5"/></mergeCells>',
    ],
    [
      "are no more where none is left",
      remove("row", 3, 3),
      '<mergeCells count="1"><mergeCell ref="A1:A2"/></mergeCells>',
    ],
    ["go with their list", remove("row", 0, 6), ""],
    [
      "move sideways",
      insert("column", 1),
      '<mergeCells count="2"><mergeCell ref="A1:A2"/><mergeCell ref="D4:E6"/></mergeCells>',
    ],
  ])("%s", (_what, shift, after) => {
    expect(behindAfter(merges, shift)).toBe(after);
  });

  it("stay as they are written where nothing of them moves", () => {
    const written = "<mergeCells  count='1' ><mergeCell   ref='A1:A2' /></mergeCells>";
    expect(behindAfter(written, insert("row", 3))).toBe(written);
  });
});

describe("what is bound to cells", () => {
  it.each<[string, string, AxisShift, string]>([
    [
      "links",
      '<hyperlinks><hyperlink ref="A2" r:id="rId7"/><hyperlink ref="B5" location="A9"/><hyperlink ref="B6"/></hyperlinks>',
      remove("row", 1),
      '<hyperlinks><hyperlink ref="B4" location="A8"/><hyperlink ref="B5"/></hyperlinks>',
    ],
    [
      "ranges that others may write to",
      '<protectedRanges><protectedRange sqref="A2 C5:C6" name="in"/><protectedRange sqref="A2" name="out"/></protectedRanges>',
      remove("row", 1),
      '<protectedRanges><protectedRange sqref="C4:C5" name="in"/></protectedRanges>',
    ],
    [
      "errors that are not marked",
      '<ignoredErrors><ignoredError sqref="B2:B3" numberStoredAsText="1"/></ignoredErrors>',
      insert("column", 0),
      '<ignoredErrors><ignoredError sqref="C2:C3" numberStoredAsText="1"/></ignoredErrors>',
    ],
    ["none of these", '<ignoredErrors><ignoredError sqref="B2"/></ignoredErrors>', remove("column", 1), ""],
    [
      "watched cells",
      '<cellWatches><cellWatch r="A3"/><cellWatch r="A2"/></cellWatches>',
      remove("row", 1),
      '<cellWatches><cellWatch r="A2"/></cellWatches>',
    ],
    ["no watched cell", '<cellWatches><cellWatch r="A2"/></cellWatches>', remove("row", 1), ""],
    [
      "a filter with its order",
      '<autoFilter ref="A2:C9"><sortState ref="A3:C9"><sortCondition ref="B3:B9"/></sortState></autoFilter>',
      insert("row", 4, 3),
      '<autoFilter ref="A2:C12"><sortState ref="A3:C12"><sortCondition ref="B3:B12"/></sortState></autoFilter>',
    ],
    [
      "an order whose column goes",
      '<sortState ref="A3:C9"><sortCondition ref="B3:B9"/><sortCondition ref="C3:C9"/></sortState>',
      remove("column", 1),
      '<sortState ref="A3:B9"><sortCondition ref="B3:B9"/></sortState>',
    ],
    ["no filter", '<autoFilter ref="A2:C9"/>', remove("row", 0, 20), ""],
    [
      "what a scenario puts in and what comes out of it (18.3.1.51, 18.3.1.76)",
      '<scenarios sqref="D9"><scenario name="low" count="2"><inputCells r="B2" val="3"/><inputCells r="B5" val="4"/></scenario></scenarios>',
      remove("row", 1),
      '<scenarios sqref="D8"><scenario name="low" count="2"><inputCells r="B2" val="3" deleted="1"/><inputCells r="B4" val="4"/></scenario></scenarios>',
    ],
    [
      "no result of a scenario",
      '<scenarios sqref="D9"><scenario name="low"/></scenarios>',
      remove("column", 3),
      '<scenarios><scenario name="low"/></scenarios>',
    ],
    [
      "a background that no cell is part of",
      '<picture r:id="rId9"/>',
      insert("row", 0),
      '<picture r:id="rId9"/>',
    ],
  ])("moves or goes: %s", (_what, markup, shift, after) => {
    expect(behindAfter(markup, shift)).toBe(after);
  });

  it("says the columns of a filter as they are counted from its first one", () => {
    const filter = (ref: string, ...columns: readonly number[]): string => {
      const each = columns.map(
        (id) => `<filterColumn colId="${String(id)}"><filters><filter val="x"/></filters></filterColumn>`,
      );
      return `<autoFilter ref="${ref}">${each.join("")}</autoFilter>`;
    };
    const filtered = filter("B2:E9", 0, 2);
    expect(behindAfter(filtered, insert("row", 4))).toBe(filter("B2:E10", 0, 2));
    expect(behindAfter(filtered, insert("row", 0))).toBe(filter("B3:E10", 0, 2));
    // What a filter shows is a text, whatever it looks like.
    expect(behindAfter(filtered.replaceAll('"x"', '"A9"'), insert("row", 0))).toContain('<filter val="A9"/>');
    expect(behindAfter(filtered, insert("column", 0))).toBe(filter("C2:F9", 0, 2));
    expect(behindAfter(filtered, insert("column", 2))).toBe(filter("B2:F9", 0, 3));
    expect(behindAfter(filtered, remove("column", 2))).toBe(filter("B2:D9", 0, 1));
    expect(behindAfter(filtered, remove("column", 3))).toBe(filter("B2:D9", 0));
    expect(behindAfter(filtered, move("column", 3, 1, 2))).toBe(filter("B2:E9", 0, 1));
  });
});

describe("what a window shows of a sheet", () => {
  const view = (content: string, more = ""): string => {
    return `<sheetViews><sheetView${more} workbookViewId="0">${content}</sheetView></sheetViews>`;
  };
  it.each<[string, string, AxisShift, string]>([
    [
      "the chosen cells",
      view('<selection activeCell="B3" sqref="B3:C4 E9"/>'),
      insert("row", 3),
      view('<selection activeCell="B3" sqref="B3:C5 E10"/>'),
    ],
    [
      "the first cell where the chosen one is gone",
      view('<selection activeCell="B3" sqref="B3"/>'),
      remove("row", 2),
      view('<selection activeCell="A1" sqref="A1"/>'),
    ],
    ["the corner", view("", ' topLeftCell="A20"'), remove("row", 4, 3), view("", ' topLeftCell="A17"')],
    ["no corner where it is gone", view("", ' topLeftCell="A20"'), remove("row", 19), view("")],
    [
      "one row more where one comes among frozen ones",
      view('<pane ySplit="2" topLeftCell="A3" state="frozen"/>'),
      insert("row", 1),
      view('<pane ySplit="3" topLeftCell="A4" state="frozen"/>'),
    ],
    [
      "rows in front of frozen ones frozen with them",
      view('<pane ySplit="2" topLeftCell="A3" state="frozen"/>'),
      insert("row", 0, 2),
      view('<pane ySplit="4" topLeftCell="A5" state="frozen"/>'),
    ],
    [
      "no row more where one comes behind them",
      view('<pane ySplit="2" topLeftCell="A3" state="frozen"/>'),
      insert("row", 2),
      view('<pane ySplit="2" topLeftCell="A4" state="frozen"/>'),
    ],
    [
      "a row less where one goes",
      view('<pane ySplit="2" topLeftCell="A3" state="frozen"/>'),
      remove("row", 0),
      view('<pane ySplit="1" topLeftCell="A2" state="frozen"/>'),
    ],
    [
      "one at least where all go",
      view('<pane ySplit="2" topLeftCell="A9" state="frozen"/>'),
      remove("row", 0, 2),
      view('<pane ySplit="1" topLeftCell="A7" state="frozen"/>'),
    ],
    [
      "as many as before where they move",
      view('<pane ySplit="2" state="frozen"/>'),
      move("row", 0, 1, 5),
      view('<pane ySplit="2" state="frozen"/>'),
    ],
    [
      "frozen columns",
      view('<pane xSplit="1" ySplit="2" state="frozenSplit"/>'),
      insert("column", 0),
      view('<pane xSplit="2" ySplit="2" state="frozenSplit"/>'),
    ],
    [
      "frozen rows however the columns move",
      view('<pane ySplit="2" topLeftCell="A3" state="frozen"/>'),
      insert("column", 0),
      view('<pane ySplit="2" topLeftCell="B3" state="frozen"/>'),
    ],
    // Without freezing, ySplit is in twentieths of a point (18.3.1.66).
    [
      "a movable bar where it was",
      view('<pane ySplit="2000" topLeftCell="A9"/>'),
      insert("row", 1),
      view('<pane ySplit="2000" topLeftCell="A10"/>'),
    ],
  ])("is %s", (_what, before, shift, after) => {
    expect(beforeAfter(before, shift)).toBe(after);
  });
});

it("breaks pages before the rows and columns before which it broke them", () => {
  const breaks = (row: number, column: number): string =>
    `<rowBreaks count="1" manualBreakCount="1"><brk id="${String(row)}" max="16383" man="1"/></rowBreaks>` +
    `<colBreaks count="1" manualBreakCount="1"><brk id="${String(column)}" max="1048575" man="1"/></colBreaks>`;
  expect(behindAfter(breaks(5, 3), insert("row", 2))).toBe(breaks(6, 3));
  expect(behindAfter(breaks(5, 3), insert("row", 6))).toBe(breaks(5, 3));
  expect(behindAfter(breaks(5, 3), remove("row", 4, 3))).toBe(breaks(4, 3));
  expect(behindAfter(breaks(5, 3), insert("column", 2))).toBe(breaks(5, 4));
  expect(behindAfter(breaks(5, 3), move("column", 3, 1, 1))).toBe(breaks(5, 1));
});

describe("widths of columns", () => {
  const cols = (...each: readonly (readonly [number, number, number])[]): string => {
    const text = each.map(
      ([min, max, width]) => `<col min="${String(min)}" max="${String(max)}" width="${String(width)}"/>`,
    );
    return `<cols>${text.join("")}</cols>`;
  };
  it.each<[string, string, AxisShift, string]>([
    [
      "go with their columns",
      cols([2, 2, 20], [4, 4, 40]),
      remove("column", 0),
      cols([1, 1, 20], [3, 3, 40]),
    ],
    ["stay where rows come", cols([2, 2, 20]), insert("row", 0), cols([2, 2, 20])],
    ["are gone with a column", cols([2, 2, 20], [4, 4, 40]), remove("column", 1), cols([3, 3, 40])],
    ["are gone with all", cols([2, 3, 20]), remove("column", 1, 2), ""],
    [
      "of several are cut by what is between",
      cols([2, 5, 20]),
      insert("column", 3, 2),
      cols([2, 3, 20], [4, 5, 20], [6, 7, 20]),
    ],
    ["of several lose one", cols([2, 5, 20]), remove("column", 2), cols([2, 2, 20], [3, 4, 20])],
    [
      "of a new column are those on its left",
      cols([2, 2, 20], [3, 3, 30]),
      insert("column", 2),
      cols([2, 2, 20], [3, 3, 20], [4, 4, 30]),
    ],
    ["of a new first column are usual", cols([1, 1, 20]), insert("column", 0), cols([2, 2, 20])],
    ["are not taken from further left", cols([2, 2, 20]), insert("column", 4), cols([2, 2, 20])],
    ["are not taken from the right", cols([4, 4, 40]), insert("column", 2), cols([5, 5, 40])],
    [
      "move with a column",
      cols([2, 2, 20], [4, 4, 40]),
      move("column", 3, 1, 0),
      cols([1, 1, 40], [3, 3, 20]),
    ],
    [
      "of several are cut by what moves among them",
      cols([2, 3, 20], [5, 5, 50]),
      move("column", 4, 1, 2),
      cols([2, 2, 20], [3, 3, 50], [4, 4, 20]),
    ],
    [
      "of several are cut where one of them moves",
      cols([1, 5, 20]),
      move("column", 3, 1, 1),
      cols([1, 1, 20], [2, 2, 20], [3, 4, 20], [5, 5, 20]),
    ],
    // A sheet has 16,384 columns.
    ["go on to the end of the sheet", cols([3, 16384, 9]), remove("column", 0, 2), cols([1, 16384, 9])],
    ["end with the sheet", cols([3, 16384, 9]), insert("column", 0, 2), cols([5, 16384, 9])],
    ["are pushed out", cols([2, 2, 20], [16384, 16384, 9]), insert("column", 0), cols([3, 3, 20])],
  ])("%s", (_what, before, shift, after) => {
    expect(beforeAfter(before, shift)).toBe(after);
  });
});

describe("conditions and checks", () => {
  const rule = (sqref: string, ...formulas: readonly string[]): string => {
    const each = formulas.map((formula) => `<formula>${formula}</formula>`).join("");
    return `<conditionalFormatting sqref="${sqref}"><cfRule type="cellIs" priority="1">${each}</cfRule></conditionalFormatting>`;
  };
  it.each<[string, string, AxisShift, string]>([
    ["with two formulas", rule("B3:B5", "$A$1", "$A$9"), insert("row", 1), rule("B4:B6", "$A$1", "$A$10")],
    ["with ranges of which one goes", rule("B3 D5:D6", "D5"), remove("row", 2), rule("D4:D5", "F6")],
    ["in a row that moves far down", rule("B1", "A1"), move("row", 0, 1, 9), rule("B9", "A9")],
    ["in a row that moves far up", rule("B9", "A9"), move("row", 8, 1, 0), rule("B1", "A1")],
    ["that all go", rule("B3:B5", "B3"), remove("column", 1), ""],
    ["that no shift reaches", rule("  B3:B5   D1", "B3"), insert("row", 9), rule("B3:B5 D1", "B3")],
    [
      "with a scale by a formula and a number",
      '<conditionalFormatting sqref="A1"><cfRule type="colorScale" priority="1"><colorScale><cfvo type="formula" val="$A$9"/><cfvo type="num" val="9"/><cfvo type="num" val="$A$8"/><cfvo type="max"/></colorScale></cfRule></conditionalFormatting>',
      insert("row", 4),
      '<conditionalFormatting sqref="A1"><cfRule type="colorScale" priority="1"><colorScale><cfvo type="formula" val="$A$10"/><cfvo type="num" val="9"/><cfvo type="num" val="$A$9"/><cfvo type="max"/></colorScale></cfRule></conditionalFormatting>',
    ],
    [
      "in the extension of later versions",
      '<extLst><ext uri="x"><x14:dataValidations xmlns:x14="urn:x14" xmlns:xm="urn:xm" count="2"><x14:dataValidation><x14:formula1><xm:f>$A$3:$A$9</xm:f></x14:formula1><xm:sqref>C2:C4</xm:sqref></x14:dataValidation><x14:dataValidation><x14:formula1><xm:f>$A$3</xm:f></x14:formula1><xm:sqref>B7</xm:sqref></x14:dataValidation></x14:dataValidations></ext></extLst>',
      remove("row", 6),
      '<extLst><ext uri="x"><x14:dataValidations xmlns:x14="urn:x14" xmlns:xm="urn:xm" count="1"><x14:dataValidation><x14:formula1><xm:f>$A$3:$A$8</xm:f></x14:formula1><xm:sqref>C2:C4</xm:sqref></x14:dataValidation></x14:dataValidations></ext></extLst>',
    ],
    [
      "as errors that later versions do not mark",
      '<extLst><ext uri="x"><x14:ignoredErrors xmlns:x14="urn:x14" xmlns:xm="urn:xm"><x14:ignoredError numberStoredAsText="1"><xm:sqref>B2 B7</xm:sqref></x14:ignoredError><x14:ignoredError><xm:sqref>B7</xm:sqref></x14:ignoredError></x14:ignoredErrors></ext></extLst>',
      remove("row", 6),
      '<extLst><ext uri="x"><x14:ignoredErrors xmlns:x14="urn:x14" xmlns:xm="urn:xm"><x14:ignoredError numberStoredAsText="1"><xm:sqref>B2</xm:sqref></x14:ignoredError></x14:ignoredErrors></ext></extLst>',
    ],
    [
      "as small charts in cells",
      '<extLst><ext uri="x"><x14:sparklineGroups xmlns:x14="urn:x14" xmlns:xm="urn:xm"><x14:sparklineGroup><x14:sparklines><x14:sparkline><xm:f>A9:D9</xm:f><xm:sqref>E9</xm:sqref></x14:sparkline><x14:sparkline><xm:f>A7:D7</xm:f><xm:sqref>E7</xm:sqref></x14:sparkline></x14:sparklines></x14:sparklineGroup></x14:sparklineGroups></ext></extLst>',
      remove("row", 6),
      '<extLst><ext uri="x"><x14:sparklineGroups xmlns:x14="urn:x14" xmlns:xm="urn:xm"><x14:sparklineGroup><x14:sparklines><x14:sparkline><xm:f>A8:D8</xm:f><xm:sqref>E8</xm:sqref></x14:sparkline></x14:sparklines></x14:sparklineGroup></x14:sparklineGroups></ext></extLst>',
    ],
  ])("go along: %s", (_what, behind, shift, after) => {
    expect(behindAfter(behind, shift)).toBe(after);
  });

  it("with letters that markup escapes stay readable", () => {
    expect(behindAfter(rule("A3", "A3&amp;$B$9&lt;&gt;&quot;x&quot;"), insert("row", 5))).toMatch(
      /<formula>A3&amp;\$B\$10&lt;(&gt;|>)("|&quot;)x("|&quot;)<\/formula>/,
    );
  });
});

describe("sheets that read from the one whose rows move", () => {
  const list = "'Sheet one'!$A$3:$A$9";
  const behind = (end: number): string =>
    `<conditionalFormatting sqref="B2:B4"><cfRule type="expression" priority="1"><formula>B2='Sheet one'!$A$${String(end)}</formula></cfRule></conditionalFormatting>` +
    `<dataValidations count="1"><dataValidation type="list" sqref="C2"><formula1>'Sheet one'!$A$3:$A$${String(end)}</formula1></dataValidation></dataValidations>` +
    `<hyperlinks><hyperlink ref="A9" location="'Sheet one'!A${String(end)}"/><hyperlink ref="B9" location="A9"/></hyperlinks>`;
  const before =
    '<sheetViews><sheetView workbookViewId="0"><selection activeCell="A9" sqref="A9"/></sheetView></sheetViews><cols><col min="9" max="9" width="5"/></cols>';
  const parts = tinyParts({
    rows: ROWS,
    overrides:
      '<Override PartName="/xl/worksheets/sheet2.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>',
  });
  const main = String(parts[PART]);
  const second = main
    .replace("<sheetData>", `${before}<sheetData>`)
    .replace("</worksheet>", `${behind(9)}</worksheet>`);
  const bytes = zipParts({
    ...parts,
    "xl/worksheets/sheet2.xml": second,
    "xl/workbook.xml": String(parts["xl/workbook.xml"]).replace(
      "</sheets>",
      '<sheet name="Sheet two" sheetId="2" r:id="rId9"/></sheets>',
    ),
    "xl/_rels/workbook.xml.rels": String(parts["xl/_rels/workbook.xml.rels"]).replace(
      "</Relationships>",
      '<Relationship Id="rId9" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet2.xml"/></Relationships>',
    ),
  });

  it("get other formulas and links, and keep their own places", () => {
    expect(second).toContain(list);
    const shifted = shiftSheet(bytes, 0, insert("row", 5, 2));
    expect(strFromU8(unzipSync(shifted)["xl/worksheets/sheet2.xml"] ?? new Uint8Array())).toBe(
      second.replace(behind(9), behind(11)),
    );
  });
});

it("reads for every row that is left what a condition read for it", () => {
  const ROW_COUNT = 14;
  const rows = fc.nat({ max: ROW_COUNT - 1 });
  const shift = fc
    .record({
      kind: fc.constantFrom("insert", "delete", "move"),
      at: rows,
      count: fc.integer({ min: 1, max: 4 }),
      to: rows,
    })
    .filter(({ kind, at, count, to }) => kind !== "move" || to < at || to > at + count);
  fc.assert(
    fc.property(shift, rows, rows, rows, ({ kind, at, count, to }, one, other, read) => {
      const first = Math.min(one, other);
      const last = Math.max(one, other);
      // Rows by their old number, as a hand would move strips of paper.
      const strips: (number | undefined)[] = Array.from({ length: 40 }, (_, row) => row);
      const taken = kind === "insert" ? Array<undefined>(count).fill(undefined) : strips.splice(at, count);
      if (kind === "insert") strips.splice(at, 0, ...taken);
      if (kind === "move") strips.splice(to < at ? to : to - count, 0, ...taken);
      const axis = "row";
      const after = behindAfter(
        `<conditionalFormatting sqref="B${String(first + 1)}:B${String(last + 1)}"><cfRule type="expression" priority="1"><formula>$A${String(first + 1)}=$Z$${String(read + 1)}</formula></cfRule></conditionalFormatting>`,
        kind === "move"
          ? { kind, axis, at, count, to }
          : kind === "insert"
            ? { kind, axis, at, count }
            : { kind: "delete", axis, at, count },
      );
      if (after === "") {
        expect(strips.filter((row) => row !== undefined && row >= first && row <= last)).toEqual([]);
        return;
      }
      const [, from = "", until = from] = /sqref="B(\d+)(?::B(\d+))?"/.exec(after) ?? [];
      const [, own = "", fixed = ""] = /<formula>\$A(\d+)=(.*)<\/formula>/.exec(after) ?? [];
      expect(fixed).toBe(strips.includes(read) ? `$Z$${String(strips.indexOf(read) + 1)}` : "#REF!");
      // The formula is that of the first cell and is read from there in every other.
      expect(own).toBe(from);
      const found = strips.slice(Number(from) - 1, Number(until));
      if (kind !== "move")
        expect(found.filter((row) => row !== undefined)).toEqual(
          strips.filter((row) => row !== undefined && row >= first && row <= last),
        );
    }),
    { numRuns: 150 },
  );
});
