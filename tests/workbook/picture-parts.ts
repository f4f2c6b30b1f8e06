import type { TinyWorkbook } from "./tiny-package";

const RELATIONSHIPS = "http://schemas.openxmlformats.org/package/2006/relationships";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const DRAWING = "http://schemas.openxmlformats.org/drawingml/2006";

/** A blue square of 2 by 2 pixels, as a PNG file (ISO/IEC 15948). */
const BLUE =
  "iVBORw0KGgoAAAANSUhEUgAAAAIAAAACCAIAAAD91JpzAAAAD0lEQVR4nGNgYPgPRmAKABf2A/1+6zfzAAAAAElFTkSuQmCC";

/** How a picture differs from a plain one. */
export interface PictureMarkup {
  readonly crop?: string;
  readonly shape?: string;
  readonly name?: string;
  /** Row and column of the upper left corner, from 0. */
  readonly from?: readonly [row: number, column: number];
}

/** A hand-written sheet with one picture from C2, or from another cell, to E7. */
export function pictureParts({
  crop = "",
  shape = "",
  name = "image1.png",
  from: [row, column] = [1, 2],
}: PictureMarkup = {}): TinyWorkbook {
  const corner = (local: string, column: number, right: number, row: number, down: number): string =>
    `<xdr:${local}><xdr:col>${String(column)}</xdr:col><xdr:colOff>${String(right)}</xdr:colOff><xdr:row>${String(row)}</xdr:row><xdr:rowOff>${String(down)}</xdr:rowOff></xdr:${local}>`;
  const link = (id: string, kind: string, target: string): string =>
    `<Relationships xmlns="${RELATIONSHIPS}"><Relationship Id="${id}" Type="${OFFICE}/${kind}" Target="${target}"/></Relationships>`;
  return {
    behind: '<drawing r:id="rId1"/>',
    overrides:
      '<Default Extension="png" ContentType="image/png"/><Default Extension="emf" ContentType="image/x-emf"/><Override PartName="/xl/drawings/drawing1.xml" ContentType="application/vnd.openxmlformats-officedocument.drawing+xml"/>',
    parts: {
      "xl/worksheets/_rels/sheet1.xml.rels": link("rId1", "drawing", "../drawings/drawing1.xml"),
      "xl/drawings/_rels/drawing1.xml.rels": link("rId1", "image", `../media/${name}`),
      "xl/drawings/drawing1.xml": `<xdr:wsDr xmlns:xdr="${DRAWING}/spreadsheetDrawing" xmlns:a="${DRAWING}/main" xmlns:r="${OFFICE}"><xdr:twoCellAnchor>${corner("from", column, 95_250, row, 47_625)}${corner("to", 4, 0, 6, 0)}<xdr:pic><xdr:nvPicPr><xdr:cNvPr id="2" name="Picture 1" descr="a blue square"/><xdr:cNvPicPr/></xdr:nvPicPr><xdr:blipFill><a:blip r:embed="rId1"/>${crop}<a:stretch><a:fillRect/></a:stretch></xdr:blipFill><xdr:spPr>${shape}</xdr:spPr></xdr:pic><xdr:clientData/></xdr:twoCellAnchor></xdr:wsDr>`,
      [`xl/media/${name}`]: new Uint8Array(Buffer.from(BLUE, "base64")),
    },
  };
}
