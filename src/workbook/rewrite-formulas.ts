import type { WorkbookModel } from "./model";
import type { WorkbookPackage } from "./package";
import { findWorkbookPart } from "./workbook-part";
import { applyEdits, escapeText, readXml, scanXml, type XmlEdit, type XmlElement } from "./xml";
import { decodeXstring, encodeXstring } from "./xstring";

/** A formula without its equals sign, and the sheet that holds it; empty for one of the whole workbook. */
export type FormulaRewriter = (formula: string, home: string) => string;

const FORMULAS = new Set([
  "f",
  "formula",
  "formula1",
  "formula2",
  "calculatedColumnFormula",
  "totalsRowFormula",
]);

/** Writes every formula of the workbook anew: in cells, conditions, checks, links, tables, charts and names. */
export function rewriteFormulas(
  parts: WorkbookPackage,
  model: WorkbookModel,
  rewrite: FormulaRewriter,
): void {
  for (const sheet of model.sheets) {
    for (const part of [sheet.part, ...parts.linked(sheet.part, "table")])
      rewritePart(parts, part, sheet.name, rewrite);
  }
  for (const part of parts.names) {
    if (/drawingml\.chart|chartex/.test(parts.contentType(part) ?? "")) rewritePart(parts, part, "", rewrite);
  }
  rewriteNames(parts, rewrite);
}

/** Writes every formula of one part anew. */
export function rewritePart(
  parts: WorkbookPackage,
  part: string,
  home: string,
  rewrite: FormulaRewriter,
): void {
  const text = parts.readText(part);
  const edits: XmlEdit[] = [];
  scanXml(text, part, {
    close(element) {
      if (FORMULAS.has(element.local)) edits.push(...textEdits(element, home, rewrite));
      const location = element.is("hyperlink") ? element.get("location") : undefined;
      if (location === undefined) return;
      const { start, contentStart, isSelfClosing } = element;
      const next = rewrite(location, home);
      if (next !== location)
        edits.push({ start, end: contentStart, text: element.openTag({ location: next }, isSelfClosing) });
    },
  });
  if (edits.length > 0) parts.writeText(part, applyEdits(text, edits));
}

function rewriteNames(parts: WorkbookPackage, rewrite: FormulaRewriter): void {
  const workbookPart = findWorkbookPart(parts);
  const text = parts.readText(workbookPart);
  const names = readXml(text, workbookPart).child("definedNames")?.all("definedName") ?? [];
  const edits = names.flatMap((element) => textEdits(element, "", rewrite));
  if (edits.length > 0) parts.writeText(workbookPart, applyEdits(text, edits));
}

function textEdits(element: XmlElement, home: string, rewrite: FormulaRewriter): readonly XmlEdit[] {
  const before = decodeXstring(element.text);
  const after = before === "" ? before : rewrite(before, home);
  if (after === before) return [];
  return [{ start: element.contentStart, end: element.contentEnd, text: escapeText(encodeXstring(after)) }];
}
