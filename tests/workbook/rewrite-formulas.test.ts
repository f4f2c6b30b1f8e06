import { strFromU8, unzipSync } from "fflate";
import { expect, it } from "vitest";
import { openWorkbook } from "../../src/workbook/read";
import { rewriteFormulas } from "../../src/workbook/rewrite-formulas";
import { tinyWorkbook } from "./tiny-package";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const TABLE = "xl/tables/table1.xml";

// Every place in which a file keeps a formula: ECMA-376 part 1, 18.3.1.40 (cells), 18.3.1.43 (conditions), 18.3.1.35 (checks),
// 18.3.1.47 (links), 18.5.1.1 and 18.5.1.6 (tables), 18.2.5 (names), 21.2.2.65 (charts).
const bytes = tinyWorkbook({
  rows: '<row r="1"><c r="A1"><f ca="1">old+1</f><v>1</v></c><c r="B1"><f/><v>1</v></c><c r="C1" t="inlineStr"><is><t>old</t></is></c></row>',
  behind:
    '<conditionalFormatting sqref="A1"><cfRule type="expression" priority="1"><formula>old&gt;2</formula></cfRule></conditionalFormatting>' +
    '<dataValidations count="1"><dataValidation type="whole" sqref="A1"><formula1>old+3</formula1><formula2>old+4</formula2></dataValidation></dataValidations>' +
    '<hyperlinks><hyperlink ref="A1" location="old+5"/><hyperlink ref="A2" display="old"/></hyperlinks>' +
    '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>',
  workbookBehind:
    '<definedNames><definedName name="old">old+8</definedName><definedName name="b" localSheetId="0">2</definedName></definedNames>',
  overrides:
    `<Override PartName="/${TABLE}" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"/>` +
    '<Override PartName="/xl/charts/chart1.xml" ContentType="application/vnd.openxmlformats-officedocument.drawingml.chart+xml"/>' +
    '<Override PartName="/xl/charts/chartEx1.xml" ContentType="application/vnd.ms-office.chartex+xml"/>',
  parts: {
    "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${OFFICE}/table" Target="../tables/table1.xml"/></Relationships>`,
    [TABLE]: `<table xmlns="${MAIN}" id="1" name="t" displayName="t" ref="E1:E3" totalsRowCount="1"><tableColumns count="1"><tableColumn id="1" name="old"><calculatedColumnFormula>old+6</calculatedColumnFormula><totalsRowFormula>old+7</totalsRowFormula></tableColumn></tableColumns></table>`,
    "xl/charts/chart1.xml": '<c:chart xmlns:c="urn:c"><c:f>old+9</c:f></c:chart>',
    "xl/charts/chartEx1.xml": '<cx:chart xmlns:cx="urn:cx"><cx:f>old+10</cx:f></cx:chart>',
    "xl/other.xml": "<other><f>old</f></other>",
  },
});

it("rewrites the formulas of a file wherever they are, with the sheet that holds them, and nothing else", () => {
  const { model, parts: opened } = openWorkbook(bytes);
  const parts = opened.copy();
  const seen = new Map<string, string>();
  rewriteFormulas(parts, model, (formula, home) => {
    seen.set(formula, home);
    return formula.replace("old", "new<");
  });
  const here = ["old+1", "old>2", "old+3", "old+4", "old+5", "old+6", "old+7"];
  const nowhere = ["old+8", "2", "old+9", "old+10"];
  expect(seen).toEqual(
    new Map([
      ...here.map((text) => [text, "Sheet one"] as const),
      ...nowhere.map((text) => [text, ""] as const),
    ]),
  );
  const [before, after] = [unzipSync(bytes), unzipSync(parts.toBytes())];
  const escaped = (xml: string): string => xml.replace(/old(?=[+]\d|&gt;)/g, "new&lt;");
  for (const [part, content] of Object.entries(before))
    expect(strFromU8(after[part] ?? new Uint8Array())).toBe(escaped(strFromU8(content)));
});

it("leaves a file as it was where no formula changes", () => {
  const { model, parts: opened } = openWorkbook(bytes);
  const parts = opened.copy();
  rewriteFormulas(parts, model, (formula) => formula);
  expect(unzipSync(parts.toBytes())).toEqual(unzipSync(bytes));
});
