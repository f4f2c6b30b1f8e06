import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openWorkbook } from "../../src/workbook/read";
import { readFeatures, type SheetFeatures } from "../../src/workbook/sheet-features";
import { pictureParts } from "./picture-parts";
import { tinyWorkbook } from "./tiny-package";

function featuresOf(bytes: Uint8Array): SheetFeatures | undefined {
  const { parts, model } = openWorkbook(bytes);
  return readFeatures(parts, model.sheets)[0];
}

const RELATIONSHIPS = "http://schemas.openxmlformats.org/package/2006/relationships";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

// ECMA-376 part 1, 18.3.1.47.
describe("the links of cells", () => {
  const external = (id: string, target: string): string =>
    `<Relationship Id="${id}" Type="${OFFICE}/hyperlink" Target="${target}" TargetMode="External"/>`;
  const linked = (targets: string, links: string): Uint8Array =>
    tinyWorkbook({
      behind: `<hyperlinks>${links}</hyperlinks>`,
      parts: {
        "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="${RELATIONSHIPS}">${targets}</Relationships>`,
      },
    });

  it("reads addresses outside and places inside the file", () => {
    const file = linked(
      external("rId1", "https://example.com/order"),
      '<hyperlink ref="A1:B1" r:id="rId1" location="top"/><hyperlink ref="A2" location="Prices!B2"/>',
    );
    expect(featuresOf(file)).toMatchObject({
      hasOtherLinks: false,
      links: [
        { range: { firstColumn: 0, lastColumn: 1 }, address: "https://example.com/order#top" },
        { range: { firstRow: 1 }, reference: "Prices!B2" },
      ],
    });
  });

  it.each(["javascript:alert(1)", "file:///C:/prices.xlsx", "data:text/html,x", "\\\\server\\share"])(
    "never opens %s",
    (target) => {
      const file = linked(external("rId1", target), '<hyperlink ref="A1" r:id="rId1"/>');
      const found = featuresOf(file);
      expect(found).toMatchObject({ hasOtherLinks: true, links: [{ unopened: target }] });
      expect(found?.links.some((link) => "address" in link)).toBe(false);
    },
  );
});

// ECMA-376 part 1, 20.5.2.33; 9,525 EMU are a pixel of 1/96 in.
describe("the pictures of a sheet", () => {
  it("reads where they lie, what they show and their bytes", () => {
    expect(featuresOf(tinyWorkbook(pictureParts()))).toMatchObject({
      hasOtherPictures: false,
      pictures: [
        {
          from: { row: 1, column: 2, right: 10, down: 5 },
          to: { row: 6, column: 4, right: 0, down: 0 },
          text: "a blue square",
          type: "image/png",
        },
      ],
    });
  });

  it("reads one that lies in the first cell", () => {
    const from = pictureParts({ from: [0, 0] });
    expect(featuresOf(tinyWorkbook(from))?.pictures).toMatchObject([{ from: { row: 0, column: 0 } }]);
  });

  it.each([
    ["above the first row", { from: [-1, 2] as const }],
    ["left of the first column", { from: [1, -1] as const }],
    ["in half a row", { from: [0.5, 2] as const }],
    ["in half a column", { from: [1, 0.5] as const }],
    ["cropped", { crop: '<a:srcRect l="10000"/>' }],
    ["turned", { shape: '<a:xfrm rot="5400000"/>' }],
    ["of a kind that browsers do not draw", { name: "image1.emf" }],
  ])("says that there are others: %s", (_, how) => {
    expect(featuresOf(tinyWorkbook(pictureParts(how)))).toMatchObject({
      hasOtherPictures: true,
      pictures: [],
    });
  });
});

// A real file beside this repository; LIST.md there says what is in it.
const FILE = join(import.meta.dirname, "../../../shared/reference/xlsx/simple-monthly-budget.xlsx");

it.skipIf(!existsSync(FILE))("looks at a real file with pictures", () => {
  const { parts, model } = openWorkbook(new Uint8Array(readFileSync(FILE)));
  const features = readFeatures(parts, model.sheets);
  expect(features.every((sheet) => sheet !== undefined)).toBe(true);
  expect(
    features.some((sheet) => sheet?.hasOtherPictures === true || (sheet?.pictures.length ?? 0) > 0),
  ).toBe(true);
});
