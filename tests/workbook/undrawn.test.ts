import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { undrawnFeatures } from "../../src/desk/undrawn";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { tinyWorkbook } from "./tiny-package";

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

// A real file beside this repository; LIST.md there says what is in it.
const FILE = join(import.meta.dirname, "../../../shared/reference/xlsx/SampleSparklines.xlsx");

it.skipIf(!existsSync(FILE))("finds sparklines in a real file", () => {
  expect(openWorkbook(new Uint8Array(readFileSync(FILE))).model.undrawn).toContain("sparklines");
});
