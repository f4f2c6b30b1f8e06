import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openWorkbook } from "../../src/workbook/read";
import { readFeatures, type SheetFeatures } from "../../src/workbook/sheet-features";
import { pictureParts } from "./picture-parts";
import { type TinyWorkbook, tinyWorkbook } from "./tiny-package";

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

  it("says that there are others where one leads nowhere or stands nowhere", () => {
    const sound = '<hyperlink ref="A1" location="B2"/>';
    const found = (targets: string, links: string): readonly unknown[] => {
      const features = featuresOf(linked(targets, sound + links));
      return [features?.hasOtherLinks, features?.links.length];
    };
    expect(found("", "")).toEqual([false, 1]);
    expect(found("", '<hyperlink ref="A2"/>')).toEqual([true, 1]);
    expect(found("", '<hyperlink ref="nowhere" location="B2"/>')).toEqual([true, 1]);
    expect(found(external("rId1", "https://example.com"), '<hyperlink ref="A2" r:id="rId2"/>')).toEqual([
      true,
      1,
    ]);
    // Only a link to an address outside is one of a cell.
    const inside = `<Relationship Id="rId1" Type="${OFFICE}/hyperlink" Target="other.xml"/>`;
    const image = `<Relationship Id="rId1" Type="${OFFICE}/image" Target="https://example.com/x" TargetMode="External"/>`;
    for (const target of [inside, image])
      expect(found(target, '<hyperlink ref="A2" r:id="rId1"/>')).toEqual([true, 1]);
    expect(found(external("rId1", "file:///x"), '<hyperlink ref="A2" r:id="rId1"/>')).toEqual([true, 2]);
    expect(
      featuresOf(linked(external("rId1", "mailto:a@example.com"), '<hyperlink ref="A2" r:id="rId1"/>'))
        ?.links,
    ).toMatchObject([{ address: "mailto:a@example.com" }]);
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

describe("a drawing of a sheet", () => {
  const DRAWING = "xl/drawings/drawing1.xml";
  const changed = (
    edit: (xml: string) => string,
    parts: TinyWorkbook["parts"] = {},
  ): SheetFeatures | undefined => {
    const tiny = pictureParts();
    const drawing = edit(String(tiny.parts?.[DRAWING]));
    return featuresOf(tinyWorkbook({ ...tiny, parts: { ...tiny.parts, [DRAWING]: drawing, ...parts } }));
  };
  const counts = (features: SheetFeatures | undefined): readonly unknown[] => [
    features?.hasOtherPictures,
    features?.pictures.length,
  ];
  const ANCHOR = /<xdr:twoCellAnchor>.*<\/xdr:twoCellAnchor>/;
  const PICTURE = /<xdr:pic>.*<\/xdr:pic>/;

  it("may give a picture's size instead of where it ends", () => {
    // 914,400 EMU are an inch, which is 96 pixels.
    const sized = changed((xml) =>
      xml
        .replaceAll("twoCellAnchor", "oneCellAnchor")
        .replace(/<xdr:to>.*<\/xdr:to>/, '<xdr:ext cx="914400" cy="457200"/>'),
    );
    expect(sized?.pictures).toMatchObject([{ from: { row: 1, column: 2 }, to: { width: 96, height: 48 } }]);
    expect(counts(changed((xml) => xml.replace(/<xdr:to>.*<\/xdr:to>/, "")))).toEqual([true, 0]);
  });

  it("says what a picture shows, or else its name", () => {
    const text = (edit: (xml: string) => string): string | undefined => changed(edit)?.pictures[0]?.text;
    expect(text((xml) => xml.replace(' descr="a blue square"', ""))).toBe("Picture 1");
    expect(text((xml) => xml.replace(/<xdr:cNvPr [^>]*>/, ""))).toBe("");
  });

  it.each<[string, (xml: string) => string, readonly unknown[]]>([
    ["hidden", (xml) => xml.replace("<xdr:cNvPr ", '<xdr:cNvPr hidden="1" '), [true, 0]],
    ["in a group", (xml) => xml.replace(PICTURE, "<xdr:grpSp>$&</xdr:grpSp>"), [true, 0]],
    ["with another in its place", (xml) => xml.replace(PICTURE, "$&$&"), [true, 0]],
    ["that leads nowhere", (xml) => xml.replace('r:embed="rId1"', 'r:embed="rId7"'), [true, 0]],
    ["without a source", (xml) => xml.replace(/<xdr:blipFill>.*<\/xdr:blipFill>/, ""), [true, 0]],
    [
      "beside a shape",
      (xml) => xml.replace(ANCHOR, "<xdr:twoCellAnchor><xdr:sp/></xdr:twoCellAnchor>$&"),
      [false, 1],
    ],
    ["once more", (xml) => xml.replace(ANCHOR, "$&$&"), [false, 2]],
    // More than a page should draw at once.
    ["two hundred times", (xml) => xml.replace(ANCHOR, "$&".repeat(200)), [false, 200]],
    ["once more than that", (xml) => xml.replace(ANCHOR, "$&".repeat(201)), [true, 200]],
  ])("has a picture %s", (_what, edit, expected) => {
    expect(counts(changed(edit))).toEqual(expected);
  });

  it("has pictures as long as they take no more than 32 MB together", () => {
    const large = { "xl/media/image1.png": new Uint8Array(2 ** 20) };
    const times = (count: number) => (xml: string) => xml.replace(ANCHOR, "$&".repeat(count));
    expect(counts(changed(times(32), large))).toEqual([false, 32]);
    expect(counts(changed(times(33), large))).toEqual([true, 32]);
  });

  it("may be missing, and so may a picture's file", () => {
    expect(counts(changed((xml) => xml, { [DRAWING]: null, "xl/media/image1.png": null }))).toEqual([
      false,
      0,
    ]);
    expect(counts(changed((xml) => xml, { "xl/media/image1.png": null }))).toEqual([true, 0]);
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
