import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { SheetConditions } from "../../src/workbook/conditions";
import { openWorkbook } from "../../src/workbook/read";
import { readFeatures } from "../../src/workbook/sheet-features";
import { tinyWorkbook } from "./tiny-package";

function conditionsOf(bytes: Uint8Array): SheetConditions | undefined {
  const { parts, model } = openWorkbook(bytes);
  return readFeatures(parts, model.sheets)[0]?.formats;
}

const STYLES =
  '<dxfs count="2"><dxf><font><b/><color rgb="FF9C0006"/></font><fill><patternFill><bgColor rgb="FFFFC7CE"/></patternFill></fill></dxf>' +
  '<dxf><numFmt numFmtId="164" formatCode="0.0"/></dxf></dxfs>';

// Elements and attributes: ECMA-376 part 1, 18.3.1.10 and 18.8.14.
describe("the formats by condition of a sheet", () => {
  it("reads what is asked and the look, the most important first", () => {
    const behind =
      '<conditionalFormatting sqref="B2:B5"><cfRule type="cellIs" dxfId="0" priority="2" operator="lessThan"><formula>$D$1</formula></cfRule></conditionalFormatting>' +
      '<conditionalFormatting sqref="A2:C5 E1"><cfRule type="expression" dxfId="0" priority="1" stopIfTrue="1"><formula>$B2&gt;3</formula></cfRule></conditionalFormatting>';
    const look = { bold: true, fontColor: "#9c0006", fill: "#ffc7ce" };
    expect(conditionsOf(tinyWorkbook({ styles: STYLES, behind }))).toEqual({
      hasOthers: false,
      conditions: [
        {
          ranges: [
            { firstRow: 1, firstColumn: 0, lastRow: 4, lastColumn: 2 },
            { firstRow: 0, firstColumn: 4, lastRow: 0, lastColumn: 4 },
          ],
          priority: 1,
          question: { kind: "formula", formula: "$B2>3" },
          look,
          isLast: true,
        },
        {
          ranges: [{ firstRow: 1, firstColumn: 1, lastRow: 4, lastColumn: 1 }],
          priority: 2,
          question: { kind: "comparison", comparison: "lessThan", formula1: "$D$1", formula2: "" },
          look,
          isLast: false,
        },
      ],
    });
  });

  it("reads scales and bars", () => {
    const behind =
      '<conditionalFormatting sqref="A1:A3"><cfRule type="colorScale" priority="1"><colorScale><cfvo type="min"/><cfvo type="percentile" val="50"/><cfvo type="max"/><color rgb="FFF8696B"/><color rgb="FFFFEB84"/><color rgb="FF63BE7B"/></colorScale></cfRule>' +
      '<cfRule type="dataBar" priority="2"><dataBar><cfvo type="num" val="0"/><cfvo type="max"/><color rgb="FF638EC6"/></dataBar></cfRule></conditionalFormatting>';
    expect(conditionsOf(tinyWorkbook({ styles: STYLES, behind }))).toMatchObject({
      hasOthers: false,
      conditions: [
        {
          scale: [
            { kind: "min", color: "#f8696b" },
            { kind: "percentile", value: "50", color: "#ffeb84" },
            { kind: "max", color: "#63be7b" },
          ],
        },
        { bar: [{ kind: "num", value: "0" }, { kind: "max" }], color: "#638ec6", isFromZero: false },
      ],
    });
  });

  it("reads icons, deviations and the colour of negative bars", () => {
    const behind =
      '<conditionalFormatting sqref="A1:A3"><cfRule type="iconSet" priority="1"><iconSet iconSet="3Arrows" reverse="1" showValue="0"><cfvo type="percent" val="0"/><cfvo type="num" val="3" gte="0"/><cfvo type="num" val="9"/></iconSet></cfRule>' +
      '<cfRule type="aboveAverage" dxfId="0" stdDev="2" aboveAverage="0" priority="2"/>' +
      '<cfRule type="dataBar" priority="3"><dataBar><cfvo type="min"/><cfvo type="max"/><color rgb="FF638EC6"/></dataBar><extLst><ext uri="{B025F937-C7B1-47D3-B67F-A62EFF666E3E}" xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><x14:id>{7}</x14:id></ext></extLst></cfRule></conditionalFormatting>' +
      '<extLst><ext uri="{78C0D931-6437-407d-A8EE-F0AAD7539E65}" xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><x14:conditionalFormattings><x14:conditionalFormatting><x14:cfRule type="dataBar" id="{7}"><x14:dataBar><x14:negativeFillColor rgb="FFFFAA00"/></x14:dataBar></x14:cfRule></x14:conditionalFormatting></x14:conditionalFormattings></ext></extLst>';
    expect(conditionsOf(tinyWorkbook({ styles: STYLES, behind }))).toMatchObject({
      hasOthers: false,
      conditions: [
        {
          set: "3Arrows",
          isReversed: true,
          hidesNumber: true,
          icons: [
            { kind: "percent", value: "0" },
            { kind: "num", value: "3", isStrict: true },
            { kind: "num", value: "9" },
          ],
        },
        { question: { kind: "average", isAbove: false, deviations: 2 } },
        { isFromZero: true, negativeColor: "#ffaa00", hidesNumber: false },
      ],
    });
  });

  it.each([
    [
      "a scale with one stop",
      '<cfRule type="colorScale" priority="1"><colorScale><cfvo type="min"/><color rgb="FFF8696B"/></colorScale></cfRule>',
    ],
    [
      "a scale with a stop that nobody knows",
      '<cfRule type="colorScale" priority="1"><colorScale><cfvo type="min"/><cfvo type="median"/><cfvo type="max"/><color rgb="FFF8696B"/><color rgb="FFFFEB84"/><color rgb="FF63BE7B"/></colorScale></cfRule>',
    ],
    ["a number format", '<cfRule type="expression" dxfId="1" priority="1"><formula>TRUE</formula></cfRule>'],
    [
      "a scale without all its colours",
      '<cfRule type="colorScale" priority="1"><colorScale><cfvo type="min"/><cfvo type="max"/><color rgb="FFF8696B"/></colorScale></cfRule>',
    ],
    ["a scale that is not there", '<cfRule type="colorScale" priority="1"/>'],
    ["a bar that is not there", '<cfRule type="dataBar" priority="1"/>'],
    [
      "a bar without a colour",
      '<cfRule type="dataBar" priority="1"><dataBar><cfvo type="min"/><cfvo type="max"/></dataBar></cfRule>',
    ],
    [
      "a bar with one end",
      '<cfRule type="dataBar" priority="1"><dataBar><cfvo type="min"/><color rgb="FF638EC6"/></dataBar></cfRule>',
    ],
    [
      "a bar with three ends",
      '<cfRule type="dataBar" priority="1"><dataBar><cfvo type="min"/><cfvo type="num" val="1"/><cfvo type="max"/><color rgb="FF638EC6"/></dataBar></cfRule>',
    ],
    ["icons that are not there", '<cfRule type="iconSet" priority="1"/>'],
    [
      "icons with a stop that nobody knows",
      '<cfRule type="iconSet" priority="1"><iconSet><cfvo type="percent" val="0"/><cfvo type="median"/></iconSet></cfRule>',
    ],
    [
      "a look that the file has not",
      '<cfRule type="expression" dxfId="7" priority="1"><formula>TRUE</formula></cfRule>',
    ],
    ["no look", '<cfRule type="expression" priority="1"><formula>TRUE</formula></cfRule>'],
    ["no question", '<cfRule type="expression" dxfId="0" priority="1"/>'],
  ])("says that there are others: %s", (_, rule) => {
    const behind = `<conditionalFormatting sqref="A1">${rule}</conditionalFormatting>`;
    expect(conditionsOf(tinyWorkbook({ styles: STYLES, behind }))?.hasOthers).toBe(true);
  });
});

describe("a format by condition", () => {
  const read = (rules: string, sqref = "A1", more = ""): SheetConditions | undefined =>
    conditionsOf(
      tinyWorkbook({
        styles: STYLES,
        behind: `<conditionalFormatting sqref="${sqref}">${rules}</conditionalFormatting>${more}`,
      }),
    );

  // Attributes and their defaults: ECMA-376 part 1, 18.3.1.10.
  it.each([
    ['type="duplicateValues"', { kind: "repetition", isRepeated: true }],
    ['type="uniqueValues"', { kind: "repetition", isRepeated: false }],
    ['type="top10"', { kind: "rank", count: 10, isPercent: false, isLowest: false }],
    [
      'type="top10" rank="3" percent="1" bottom="1"',
      { kind: "rank", count: 3, isPercent: true, isLowest: true },
    ],
    ['type="aboveAverage"', { kind: "average", isAbove: true, isInclusive: false, deviations: 0 }],
    [
      'type="aboveAverage" aboveAverage="0" equalAverage="1" stdDev="1"',
      { kind: "average", isAbove: false, isInclusive: true, deviations: 1 },
    ],
  ])("asks what %s says", (attributes, question) => {
    expect(read(`<cfRule ${attributes} dxfId="0" priority="1"/>`)).toMatchObject({
      hasOthers: false,
      conditions: [{ question, isLast: false }],
    });
  });

  it("compares with two formulas, and says equal where the file says nothing", () => {
    const compared = (operator: string, formulas: string): unknown =>
      read(`<cfRule type="cellIs" dxfId="0" priority="1"${operator}>${formulas}</cfRule>`)?.conditions[0];
    expect(compared(' operator="between"', "<formula> A1 </formula><formula>B1</formula>")).toMatchObject({
      question: { kind: "comparison", comparison: "between", formula1: "A1", formula2: "B1" },
    });
    expect(compared("", "<formula>A1</formula>")).toMatchObject({ question: { comparison: "equal" } });
  });

  it("about a text is asked by the formula that stands with it", () => {
    const rule =
      '<cfRule type="containsText" dxfId="0" priority="1" operator="containsText" text="red"><formula>NOT(ISERROR(SEARCH("red",A1)))</formula></cfRule>';
    expect(read(rule)?.conditions).toMatchObject([
      { question: { kind: "formula", formula: 'NOT(ISERROR(SEARCH("red",A1)))' } },
    ]);
  });

  it("without a range that can be read is one of the others", () => {
    const rule = '<cfRule type="duplicateValues" dxfId="0" priority="1"/>';
    expect(read(rule, "#REF!")).toEqual({ conditions: [], hasOthers: true });
    expect(read(rule, " A1   #REF! ")?.conditions).toMatchObject([{ ranges: [{ firstRow: 0 }] }]);
  });

  it("shows icons of the usual set with their numbers, unless it says otherwise", () => {
    const icons = '<iconSet><cfvo type="percent" val="0"/><cfvo type="percent" val="50"/></iconSet>';
    expect(read(`<cfRule type="iconSet" priority="1">${icons}</cfRule>`)?.conditions).toEqual([
      {
        ranges: [{ firstRow: 0, firstColumn: 0, lastRow: 0, lastColumn: 0 }],
        priority: 1,
        set: "3TrafficLights1",
        isReversed: false,
        hidesNumber: false,
        icons: [
          { kind: "percent", value: "0" },
          { kind: "percent", value: "50" },
        ],
      },
    ]);
  });

  // Differential formats: ECMA-376 part 1, 18.8.14. The colour of a plain fill is that of its background there.
  it.each<[string, unknown, boolean]>([
    ["<fill><patternFill><bgColor rgb='FFFF0000'/></patternFill></fill>", { fill: "#ff0000" }, false],
    [
      "<fill><patternFill patternType='solid'><fgColor rgb='FF00FF00'/><bgColor rgb='FFFF0000'/></patternFill></fill>",
      { fill: "#ff0000" },
      false,
    ],
    ["<fill><patternFill><fgColor rgb='FF00FF00'/></patternFill></fill>", { fill: "#00ff00" }, false],
    ["<fill><patternFill patternType='darkGrid'><bgColor rgb='FFFF0000'/></patternFill></fill>", {}, true],
    ["<fill><gradientFill/></fill>", {}, true],
    [
      "<font><i/><strike/><u/><color rgb='FF0000FF'/></font>",
      { italic: true, strike: true, underline: true, fontColor: "#0000ff" },
      false,
    ],
    ["<font><b val='0'/><u val='none'/></font>", {}, false],
    [
      "<border><left/><top style='thin'><color rgb='FF0000FF'/></top></border>",
      { borders: { top: { style: "thin", color: "#0000ff" } } },
      false,
    ],
    ["<font><b/></font><numFmt numFmtId='164' formatCode='0.0'/>", { bold: true }, true],
    ["", {}, false],
  ])("looks as %s says", (dxf, look, hasOthers) => {
    const found = conditionsOf(
      tinyWorkbook({
        styles: `<dxfs count="1"><dxf>${dxf}</dxf></dxfs>`,
        behind:
          '<conditionalFormatting sqref="A1"><cfRule type="duplicateValues" dxfId="0" priority="1"/></conditionalFormatting>',
      }),
    );
    expect(found).toMatchObject({ hasOthers, conditions: [{ question: { kind: "repetition" } }] });
    expect(found?.conditions[0] && "look" in found.conditions[0] && found.conditions[0].look).toEqual(look);
  });

  it("has its colours in a file without styles too", () => {
    const scale =
      '<colorScale><cfvo type="min"/><cfvo type="max"/><color rgb="FFF8696B"/><color rgb="FF63BE7B"/></colorScale>';
    const behind = `<conditionalFormatting sqref="A1"><cfRule type="colorScale" priority="1">${scale}</cfRule></conditionalFormatting>`;
    expect(conditionsOf(tinyWorkbook({ behind }))?.conditions).toMatchObject([
      { scale: [{ color: "#f8696b" }, { color: "#63be7b" }] },
    ]);
  });

  describe("as a bar that later versions refined", () => {
    const MORE = "http://schemas.microsoft.com/office/spreadsheetml/2009/9/main";
    const bar = (id: string): string =>
      `<cfRule type="dataBar" priority="1"><dataBar><cfvo type="min"/><cfvo type="max"/><color rgb="FF638EC6"/></dataBar><extLst><ext xmlns:x14="${MORE}" uri="{B}"><x14:id> ${id} </x14:id></ext></extLst></cfRule>`;
    const refined = (...rules: readonly string[]): string =>
      `<extLst><ext xmlns:x14="${MORE}" uri="{C}"><x14:conditionalFormattings><x14:conditionalFormatting>${rules.join("")}</x14:conditionalFormatting></x14:conditionalFormattings></ext></extLst>`;
    const rule = (id: string, attributes: string, content = ""): string =>
      `<x14:cfRule type="dataBar" id="${id}"><x14:dataBar${attributes}><x14:cfvo type="min"/>${content}</x14:dataBar></x14:cfRule>`;
    const red = '<x14:negativeFillColor rgb="FFFF0000"/>';

    it("has a colour of its own below zero, its own one, or none", () => {
      const found = (more: string): unknown => read(bar("{7}"), "A1", more)?.conditions[0];
      expect(
        found(refined(rule("{8}", "", '<x14:negativeFillColor rgb="FF00FF00"/>'), rule("{7}", "", red))),
      ).toMatchObject({
        isFromZero: true,
        negativeColor: "#ff0000",
      });
      expect(found(refined(rule("{7}", ' negativeBarColorSameAsPositive="1"', red)))).toMatchObject({
        color: "#638ec6",
        negativeColor: "#638ec6",
      });
      expect(found(refined(rule("{7}", "")))).not.toHaveProperty("negativeColor");
      expect(found("")).toMatchObject({ isFromZero: true });
    });

    it.each(["none", "middle"])("and has its axis elsewhere (%s) is one of the others", (place) => {
      expect(read(bar("{7}"), "A1", refined(rule("{7}", ` axisPosition="${place}"`, red)))).toEqual({
        conditions: [],
        hasOthers: true,
      });
    });

    it("is no other; any rule but a bar is", () => {
      expect(read(bar("{7}"), "A1", refined(rule("{7}", "", red)))?.hasOthers).toBe(false);
      const icons = '<x14:cfRule type="iconSet" id="{9}"/>';
      expect(read(bar("{7}"), "A1", refined(rule("{7}", "", red), icons))?.hasOthers).toBe(true);
    });
  });
});

// A real file beside this repository; LIST.md there says what is in it.
const FILE = join(import.meta.dirname, "../../../shared/reference/xlsx/cf_tests.xlsx");

it.skipIf(!existsSync(FILE))("finds the conditions of a real file", () => {
  const { parts, model } = openWorkbook(new Uint8Array(readFileSync(FILE)));
  const found = readFeatures(parts, model.sheets).flatMap((sheet) => sheet?.formats ?? []);
  const count = (test: (condition: SheetConditions["conditions"][number]) => boolean): number =>
    found.flatMap(({ conditions }) => conditions).filter(test).length;
  // As many as `<cfRule type="..."` stand in its parts, extensions left out.
  expect(count((condition) => "scale" in condition)).toBe(9);
  expect(count((condition) => "bar" in condition)).toBe(4);
  expect(count((condition) => "icons" in condition)).toBe(18);
  expect(found.some(({ hasOthers }) => hasOthers)).toBe(true);
});
