import type { SheetModel } from "./model";
import type { WorkbookPackage } from "./package";

/** What a person calls things that a sheet's part holds in elements. */
const ELEMENTS: readonly (readonly [RegExp, string])[] = [
  [/<(?:\w+:)?conditionalFormatting\b/, "formats by condition"],
  [/<(?:\w+:)?dataValidation\b/, "drop-down lists and checks"],
  [/<(?:\w+:)?sparklineGroup\b/, "sparklines"],
  [/<(?:\w+:)?hyperlink\b/, "links"],
  [/<(?:\w+:)?autoFilter\b/, "filters"],
  [/<(?:\w+:)?oleObject\b|<(?:\w+:)?control\b/, "controls and objects"],
];
const RICH_TEXT = /<(?:\w+:)?r>\s*<(?:\w+:)?rPr>/;

/** What a workbook holds that a plain grid of cells does not draw, in words for a person. */
export function undrawnParts(
  parts: WorkbookPackage,
  workbookPart: string,
  sheets: readonly Pick<SheetModel, "part">[],
): readonly string[] {
  const names = parts.names.map((name) => name.toLowerCase());
  const found = new Set<string>();
  if (names.some((name) => /^xl\/media\//.test(name))) found.add("pictures");
  if (names.some((name) => /^xl\/charts\/chart/.test(name))) found.add("charts");
  if (names.some((name) => /^xl\/pivottables\//.test(name))) found.add("pivot tables");
  if (names.includes("xl/vbaproject.bin")) found.add("macros");
  for (const { part } of sheets) {
    const text = parts.readText(part);
    for (const [pattern, words] of ELEMENTS) if (pattern.test(text)) found.add(words);
  }
  const [strings] = parts.linked(workbookPart, "sharedStrings");
  if (strings !== undefined && parts.has(strings) && RICH_TEXT.test(parts.readText(strings)))
    found.add("texts in several fonts");
  return [...found];
}
