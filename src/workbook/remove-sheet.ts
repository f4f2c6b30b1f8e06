import { WorkbookError } from "./model";
import { WorkbookPackage } from "./package";
import { findWorkbookPart } from "./workbook-part";
import { NAMESPACES } from "./namespaces";
import { applyEdits, readXml, type XmlEdit, type XmlElement } from "./xml";
import { encodeXstring } from "./xstring";

/** The file without one of its sheets, which no formula may refer to. Throws WorkbookError where it is the only one. */
export function removeSheet(bytes: Uint8Array, name: string): Uint8Array {
  const parts = WorkbookPackage.open(bytes).copy();
  const workbookPart = findWorkbookPart(parts);
  const text = parts.readText(workbookPart);
  const root = readXml(text, workbookPart);
  const entries = root.child("sheets")?.all("sheet") ?? [];
  const position = entries.findIndex((entry) => entry.get("name") === encodeXstring(name));
  const entry = entries[position];
  if (entry === undefined) throw new WorkbookError(`the workbook has no sheet "${name}"`);
  if (entries.length === 1) throw new WorkbookError(`the sheet "${name}" is the workbook's only one`);
  const link = parts.relationships(workbookPart).find(({ id }) => {
    return id === entry.getQualified(NAMESPACES.relationships, "id");
  });
  parts.writeText(
    workbookPart,
    applyEdits(text, [
      { start: entry.start, end: entry.end, text: "" },
      ...nameEdits(root, position),
      ...viewEdits(root, position),
    ]),
  );
  if (link !== undefined) parts.remove(link.target, workbookPart);
  return parts.toBytes();
}

function retag(element: XmlElement, attributes: Readonly<Record<string, string>>): XmlEdit {
  const end = element.isSelfClosing ? element.end : element.contentStart;
  return { start: element.start, end, text: element.openTag(attributes, element.isSelfClosing) };
}

/** Names that belong to a sheet say so by its position. */
function nameEdits(root: XmlElement, position: number): readonly XmlEdit[] {
  return (root.child("definedNames")?.all("definedName") ?? []).flatMap((name): XmlEdit[] => {
    const scope = name.number("localSheetId");
    if (scope === undefined || scope < position) return [];
    if (scope === position) return [{ start: name.start, end: name.end, text: "" }];
    return [retag(name, { localSheetId: String(scope - 1) })];
  });
}

/** A window says by position which sheet is in front and which tab is the first in sight. */
function viewEdits(root: XmlElement, position: number): readonly XmlEdit[] {
  return (root.child("bookViews")?.all("workbookView") ?? []).flatMap((view): XmlEdit[] => {
    const moved = ["activeTab", "firstSheet"].flatMap((attribute) => {
      const tab = view.number(attribute);
      if (tab === undefined || tab < position || tab === 0) return [];
      return [[attribute, String(tab - 1)] as const];
    });
    return moved.length === 0 ? [] : [retag(view, Object.fromEntries(moved))];
  });
}
