import { NAMESPACES } from "./namespaces";
import type { WorkbookPackage } from "./package";
import { readXml, type XmlElement } from "./xml";

/** English Metric Units in a pixel of 1/96 in: 914,400 make an inch (ECMA-376 part 1, 20.1.10.16). */
const EMU_PER_PIXEL = 9525;

/** A corner of a picture: a cell, and pixels from that cell's upper left corner. */
export interface PictureCorner {
  readonly row: number;
  readonly column: number;
  readonly right: number;
  readonly down: number;
}

/** A picture that lies on a sheet; sizes in pixels of 1/96 in. */
export interface SheetPicture {
  readonly from: PictureCorner;
  /** Where it ends: at another corner, or by its size. */
  readonly to: PictureCorner | { readonly width: number; readonly height: number };
  /** What it shows, where the file says so. */
  readonly text: string;
  readonly type: string;
  /** The part that holds it. */
  readonly part: string;
  readonly bytes: Uint8Array;
}

/** Kinds of pictures that every browser draws. */
const TYPES: Readonly<Record<string, string>> = {
  png: "image/png",
  jpg: "image/jpeg",
  jpeg: "image/jpeg",
  gif: "image/gif",
  webp: "image/webp",
  bmp: "image/bmp",
};
/** Pictures of a sheet that are taken, and bytes of them all together. */
const MOST_PICTURES = 200;
const MOST_BYTES = 2 ** 25;

/** The pictures of a sheet, and whether there are others: of another kind, cropped, turned, or too many. */
export function readPictures(
  parts: WorkbookPackage,
  sheetPart: string,
): { readonly pictures: readonly SheetPicture[]; readonly hasOthers: boolean } {
  const pictures: SheetPicture[] = [];
  let hasOthers = false;
  let room = MOST_BYTES;
  for (const drawing of parts.linked(sheetPart, "drawing").filter((part) => parts.has(part))) {
    const links = new Map(parts.relationships(drawing).map(({ id, target }) => [id, target]));
    for (const anchor of readXml(parts.readText(drawing), drawing).children) {
      const found = everyPicture(anchor);
      if (found.length === 0) continue;
      const target = links.get(embedded(found[0]) ?? "");
      const bytes = target !== undefined && parts.has(target) ? parts.read(target) : undefined;
      const picture = found.length === 1 && bytes && pictureOf(anchor, found[0], target ?? "", bytes);
      room -= bytes?.length ?? 0;
      if (picture && room >= 0 && pictures.length < MOST_PICTURES) pictures.push(picture);
      else hasOthers = true;
    }
  }
  return { pictures, hasOthers };
}

function named(element: XmlElement | undefined, ...path: readonly string[]): XmlElement | undefined {
  return path.reduce((at, local) => at?.children.find((child) => child.local === local), element);
}

function everyPicture(element: XmlElement): readonly XmlElement[] {
  return element.local === "pic" ? [element] : element.children.flatMap(everyPicture);
}

function embedded(picture: XmlElement | undefined): string | undefined {
  return named(picture, "blipFill", "blip")?.getQualified(NAMESPACES.relationships, "embed");
}

function pictureOf(
  anchor: XmlElement,
  picture: XmlElement | undefined,
  target: string,
  bytes: Uint8Array,
): SheetPicture | undefined {
  const type = TYPES[target.slice(target.lastIndexOf(".") + 1).toLowerCase()];
  const from = cornerOf(named(anchor, "from"));
  const size = named(anchor, "ext");
  const to =
    cornerOf(named(anchor, "to")) ??
    (size && { width: pixels(size.number("cx")), height: pixels(size.number("cy")) });
  const about = named(picture, "nvPicPr", "cNvPr");
  // One that is cropped or turned would be drawn wrong, and one in a group has its place from the group.
  const crop = named(picture, "blipFill", "srcRect");
  const isCropped = ["l", "t", "r", "b"].some((edge) => (crop?.number(edge) ?? 0) !== 0);
  const isTurned = (named(picture, "spPr", "xfrm")?.number("rot") ?? 0) !== 0;
  const isAlone = picture?.parent === anchor && !about?.flag("hidden");
  if (type === undefined || !from || !to || isCropped || isTurned || !isAlone) return undefined;
  return { from, to, text: about?.get("descr") ?? about?.get("name") ?? "", type, part: target, bytes };
}

function cornerOf(element: XmlElement | undefined): PictureCorner | undefined {
  const number = (local: string): number => Number(named(element, local)?.text ?? NaN);
  const [row, column] = [number("row"), number("col")];
  if (!Number.isInteger(row) || !Number.isInteger(column) || row < 0 || column < 0) return undefined;
  return { row, column, right: pixels(number("colOff")), down: pixels(number("rowOff")) };
}

function pixels(emu: number | undefined): number {
  return Number.isFinite(emu) ? (emu ?? 0) / EMU_PER_PIXEL : 0;
}
