import type { SheetModel } from "./model";
import type { WorkbookPackage } from "./package";

/** What a person calls things that a sheet's part holds in elements around its cells. */
const ELEMENTS: ReadonlyMap<string, string> = new Map([
  ["conditionalFormatting", "formats by condition"],
  ["dataValidation", "drop-down lists and checks"],
  ["sparklineGroup", "sparklines"],
  ["hyperlink", "links"],
  ["autoFilter", "filters"],
  ["oleObject", "controls and objects"],
  ["control", "controls and objects"],
]);
/** A shape or a line between shapes in a drawing (ECMA-376 part 1, 20.5.2.29 and 20.5.2.13). */
const SHAPE = /<(?:\w+:)?(?:sp|cxnSp)[\s>]/;
const RICH_TEXT = /<(?:\w+:)?r>\s*<(?:\w+:)?rPr>/;

/** What an element around the cells of a sheet is that a plain grid does not draw. */
export function undrawnElement(local: string): string | undefined {
  return ELEMENTS.get(local);
}

/** What a workbook holds that a plain grid of cells does not draw, in words for a person. */
export function undrawnParts(
  parts: WorkbookPackage,
  workbookPart: string,
  sheets: readonly Pick<SheetModel, "undrawn">[],
): readonly string[] {
  const names = parts.names.map((name) => name.toLowerCase());
  const found = new Set<string>();
  if (names.some((name) => /^xl\/media\//.test(name))) found.add("pictures");
  if (names.some((name) => /^xl\/charts\/chart/.test(name))) found.add("charts");
  if (names.some((name) => /^xl\/pivottables\//.test(name))) found.add("pivot tables");
  if (names.some((name) => /^xl\/(?:slicers|timelines)\//.test(name))) found.add("slicers");
  const drawings = parts.names.filter((name) => /^xl\/drawings\/[^/]+\.xml$/i.test(name));
  if (drawings.some((name) => SHAPE.test(parts.readText(name)))) found.add("shapes and text boxes");
  if (names.includes("xl/vbaproject.bin")) found.add("macros");
  // In one order whatever the sheets hold first.
  for (const words of new Set(ELEMENTS.values()))
    if (sheets.some(({ undrawn }) => undrawn?.has(words))) found.add(words);
  const [strings] = parts.linked(workbookPart, "sharedStrings");
  if (strings !== undefined && parts.has(strings) && RICH_TEXT.test(parts.readText(strings)))
    found.add("texts in several fonts");
  return [...found];
}
