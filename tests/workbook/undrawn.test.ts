import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { undrawnFeatures } from "../../src/desk/undrawn";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { type TinyWorkbook, tinyWorkbook } from "./tiny-package";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const PLAIN = { author: "test", generator: "test", date: "2026-01-01T00:00:00Z" };

it("names what a plain grid does not draw, and nothing where there is nothing", () => {
  const plain = openWorkbook(createWorkbook({ ...PLAIN, sheets: [{ name: "S", cells: {} }] })).model;
  expect(undrawnFeatures(plain)).toBeUndefined();
  const choices = [{ range: "A1:A3", from: ["net", "gross"] }];
  const checked = openWorkbook(
    createWorkbook({ ...PLAIN, sheets: [{ name: "S", cells: {}, choices }] }),
  ).model;
  expect(undrawnFeatures(checked)).toBe(
    "this file also has drop-down lists and checks: they are kept in the file and not drawn here",
  );
});

it("names shapes and text boxes", () => {
  const shape = '<xdr:twoCellAnchor><xdr:sp macro=""><xdr:nvSpPr/></xdr:sp></xdr:twoCellAnchor>';
  const drawing = (content: string): Uint8Array =>
    tinyWorkbook({
      parts: {
        "xl/drawings/drawing1.xml": `<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing">${content}</xdr:wsDr>`,
      },
    });
  expect(openWorkbook(drawing(shape)).model.undrawn).toEqual(["shapes and text boxes"]);
  expect(openWorkbook(drawing("<xdr:spare/>")).model.undrawn).toBeUndefined();
});

// Where parts of each kind lie in files of Excel; ECMA-376 part 1, 12.3 and 13.
it.each<[string, TinyWorkbook["parts"], readonly string[] | undefined]>([
  ["a picture", { "xl/media/image1.png": new Uint8Array([1]) }, ["pictures"]],
  ["a picture in capitals", { "XL/Media/IMAGE1.PNG": new Uint8Array([1]) }, ["pictures"]],
  [
    "a picture that is none of the workbook's",
    { "docs/xl/media/image1.png": new Uint8Array([1]) },
    undefined,
  ],
  ["a chart", { "xl/charts/chart1.xml": "<c/>" }, ["charts"]],
  ["what a chart looks like", { "xl/charts/style1.xml": "<c/>" }, undefined],
  ["a pivot table", { "xl/pivotTables/pivotTable1.xml": "<p/>" }, ["pivot tables"]],
  ["a slicer", { "xl/slicers/slicer1.xml": "<s/>" }, ["slicers"]],
  ["a time line", { "xl/timelines/timeline1.xml": "<s/>" }, ["slicers"]],
  ["macros", { "xl/vbaProject.bin": new Uint8Array([1]) }, ["macros"]],
  [
    "a line between shapes",
    { "xl/drawings/drawing1.xml": "<x:wsDr xmlns:x='d'><x:cxnSp macro=''/></x:wsDr>" },
    ["shapes and text boxes"],
  ],
  ["a shape", { "xl/drawings/drawing1.xml": "<wsDr xmlns='d'><sp>x</sp></wsDr>" }, ["shapes and text boxes"]],
  ["a picture's frame", { "xl/drawings/drawing1.xml": "<x:wsDr xmlns:x='d'><x:spPr/></x:wsDr>" }, undefined],
  ["a drawing of notes", { "xl/drawings/vmlDrawing1.vml": "<xml><v:sp /></xml>" }, undefined],
  [
    "a text in two fonts",
    { "xl/sharedStrings.xml": `<sst xmlns="${MAIN}"><si><r> <rPr><b/></rPr><t>a</t></r></si></sst>` },
    ["texts in several fonts"],
  ],
  [
    "a text in one",
    { "xl/sharedStrings.xml": `<sst xmlns="${MAIN}"><si><r><t>a</t></r></si></sst>` },
    undefined,
  ],
])("names %s or not", (_what, parts, words) => {
  const overrides =
    '<Default Extension="png" ContentType="image/png"/><Default Extension="vml" ContentType="x/v"/><Default Extension="bin" ContentType="x/b"/>';
  expect(openWorkbook(tinyWorkbook({ overrides, ...(parts && { parts }) })).model.undrawn).toEqual(words);
});

it.each([
  ['<conditionalFormatting sqref="A1"/>', "formats by condition"],
  ["<dataValidations><dataValidation/></dataValidations>", "drop-down lists and checks"],
  ["<extLst><ext><sparklineGroup/></ext></extLst>", "sparklines"],
  ['<hyperlinks><hyperlink ref="A1"/></hyperlinks>', "links"],
  ['<autoFilter ref="A1:A2"/>', "filters"],
  ["<oleObjects><oleObject/></oleObjects>", "controls and objects"],
  ["<controls><control/></controls>", "controls and objects"],
])("names what stands around the cells: %s", (behind, words) => {
  expect(openWorkbook(tinyWorkbook({ behind })).model.undrawn).toEqual([words]);
});

it("names things in one order, once each", () => {
  const behind =
    '<hyperlinks><hyperlink ref="A1"/></hyperlinks><conditionalFormatting sqref="A1"/><controls><control/></controls><oleObjects><oleObject/></oleObjects>';
  const parts = {
    "xl/vbaProject.bin": new Uint8Array([1]),
    "xl/charts/chart1.xml": "<c/>",
    "xl/charts/chart2.xml": "<c/>",
  };
  const overrides = '<Default Extension="bin" ContentType="x/b"/>';
  expect(openWorkbook(tinyWorkbook({ behind, parts, overrides })).model.undrawn).toEqual([
    "charts",
    "macros",
    "formats by condition",
    "links",
    "controls and objects",
  ]);
});

// A real file beside this repository; LIST.md there says what is in it.
const FILE = join(import.meta.dirname, "../../../shared/reference/xlsx/SampleSparklines.xlsx");

it.skipIf(!existsSync(FILE))("finds sparklines in a real file", () => {
  expect(openWorkbook(new Uint8Array(readFileSync(FILE))).model.undrawn).toContain("sparklines");
});
