import type { WorkbookPackage } from "./package";
import { readXml, type XmlElement } from "./xml";

const ROWS = /<(?:\w+:)?sheetData\b[^]*<\/(?:\w+:)?sheetData\s*>/;

/** What a sheet's part holds before and behind its rows; the rows, most of the part, are left out. */
export function readOutsideRows(parts: WorkbookPackage, part: string): XmlElement {
  return readXml(parts.readText(part).replace(ROWS, ""), part);
}

/** The elements of a name in the extensions of a sheet, whatever namespace a later version of Excel gave them. */
export function inExtensions(root: XmlElement, local: string): readonly XmlElement[] {
  const found: XmlElement[] = [];
  const search = (element: XmlElement): void => {
    if (element.local === local) found.push(element);
    else element.children.forEach(search);
  };
  for (const extension of root.child("extLst")?.all("ext") ?? []) search(extension);
  return found;
}
