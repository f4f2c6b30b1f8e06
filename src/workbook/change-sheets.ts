import { dropSheetIn, renameSheetIn } from "../formula/move-references";
import { sheetNameFault } from "../formula/address";
import { addSheet } from "./add-sheet";
import { copySheet } from "./copy-sheet";
import { type SheetModel, WorkbookError } from "./model";
import type { WorkbookPackage } from "./package";
import { openWorkbook } from "./read";
import { removeSheet } from "./remove-sheet";
import { rewriteFormulas } from "./rewrite-formulas";
import { findWorkbookPart } from "./workbook-part";
import { applyEdits, readXml, type XmlEdit, type XmlElement } from "./xml";
import { decodeXstring, encodeXstring } from "./xstring";

/** A change to the list of worksheets; sheets are counted from 0 as `WorkbookModel` does. */
export type SheetListChange =
  | { readonly kind: "addSheet"; readonly name: string; readonly to: number }
  | { readonly kind: "renameSheet"; readonly sheet: number; readonly name: string }
  | { readonly kind: "copySheet"; readonly sheet: number; readonly name: string }
  | { readonly kind: "moveSheet"; readonly sheet: number; readonly to: number }
  | { readonly kind: "showSheet"; readonly sheet: number; readonly isShown: boolean }
  | { readonly kind: "removeSheet"; readonly sheet: number };

/** The file with its list of sheets changed. Throws WorkbookError for what Excel would refuse. */
export function changeSheets(bytes: Uint8Array, change: SheetListChange): Uint8Array {
  const { model, parts } = openWorkbook(bytes);
  const sheetAt = (position: number): SheetModel => {
    const sheet = model.sheets[position];
    if (sheet === undefined) throw new WorkbookError(`the workbook has no sheet ${String(position + 1)}`);
    return sheet;
  };
  switch (change.kind) {
    case "addSheet":
      return moveSheet(
        addSheet(bytes, { name: change.name, rows: [] }),
        model.sheets.length,
        Math.min(change.to, model.sheets.length),
      );
    case "renameSheet": {
      const { name } = sheetAt(change.sheet);
      checkName(model.sheets, change.name, change.sheet);
      const copy = parts.copy();
      rewriteFormulas(copy, model, (formula) => renameSheetIn(formula, name, change.name));
      renameInPivots(copy, name, change.name);
      setAttributes(copy, name, { name: encodeXstring(change.name) });
      return copy.toBytes();
    }
    case "copySheet": {
      sheetAt(change.sheet);
      checkName(model.sheets, change.name);
      return moveSheet(copySheet(bytes, change.sheet, change.name), model.sheets.length, change.sheet + 1);
    }
    case "moveSheet":
      sheetAt(change.sheet);
      return moveSheet(bytes, change.sheet, change.to);
    case "showSheet": {
      const { name, state } = sheetAt(change.sheet);
      const others = model.sheets.filter((sheet) => sheet.name !== name && sheet.state === "visible");
      if (!change.isShown && state === "visible" && others.length === 0)
        throw new WorkbookError(`the sheet "${name}" is the only one in sight`);
      const copy = parts.copy();
      setAttributes(copy, name, { state: change.isShown ? null : "hidden" });
      return copy.toBytes();
    }
    case "removeSheet": {
      const { name } = sheetAt(change.sheet);
      const others = model.sheets.filter((sheet) => sheet.name !== name && sheet.state === "visible");
      if (others.length === 0) throw new WorkbookError(`the sheet "${name}" is the only one in sight`);
      const copy = parts.copy();
      rewriteFormulas(copy, model, (formula) => dropSheetIn(formula, name));
      return removeSheet(copy.toBytes(), name);
    }
  }
}

function checkName(sheets: readonly SheetModel[], name: string, except?: number): void {
  const fault = sheetNameFault(name);
  if (fault !== undefined) throw new WorkbookError(`the sheet name "${name}" ${fault}`);
  const isTaken = sheets.some(
    (sheet, position) => position !== except && sheet.name.toLowerCase() === name.toLowerCase(),
  );
  if (isTaken) throw new WorkbookError(`the workbook has a sheet "${name}" already`);
}

function setAttributes(
  parts: WorkbookPackage,
  name: string,
  attributes: Readonly<Record<string, string | null>>,
): void {
  const workbookPart = findWorkbookPart(parts);
  const text = parts.readText(workbookPart);
  const entry = entriesOf(readXml(text, workbookPart)).find(
    (sheet) => decodeXstring(sheet.get("name") ?? "") === name,
  );
  if (entry === undefined) return;
  parts.writeText(workbookPart, applyEdits(text, [retag(entry, attributes)]));
}

function renameInPivots(parts: WorkbookPackage, from: string, to: string): void {
  for (const part of parts.linked(findWorkbookPart(parts), "pivotCacheDefinition")) {
    const text = parts.readText(part);
    const source = readXml(text, part).child("cacheSource")?.child("worksheetSource");
    if (source === undefined || decodeXstring(source.get("sheet") ?? "") !== from) continue;
    parts.writeText(part, applyEdits(text, [retag(source, { sheet: encodeXstring(to) })]));
  }
}

function entriesOf(root: XmlElement): readonly XmlElement[] {
  return root.child("sheets")?.all("sheet") ?? [];
}

function retag(element: XmlElement, attributes: Readonly<Record<string, string | null>>): XmlEdit {
  const { start, contentStart, isSelfClosing } = element;
  return { start, end: contentStart, text: element.openTag(attributes, isSelfClosing) };
}

/** The file with a worksheet at another place; both counted among worksheets. */
function moveSheet(bytes: Uint8Array, from: number, to: number): Uint8Array {
  const { model, parts: opened } = openWorkbook(bytes);
  const parts = opened.copy();
  const workbookPart = findWorkbookPart(parts);
  const text = parts.readText(workbookPart);
  const root = readXml(text, workbookPart);
  const entries = entriesOf(root);
  // Chart sheets stand among the worksheets in the file, and are no worksheets.
  const place = (sheet: number): number =>
    entries.findIndex((entry) => decodeXstring(entry.get("name") ?? "") === model.sheets[sheet]?.name);
  const order = entries.map((_, index) => index);
  const [moved] = order.splice(place(from), 1);
  const target = place(Math.max(0, Math.min(to, model.sheets.length - 1)));
  if (moved === undefined || target < 0) return bytes;
  order.splice(target, 0, moved);
  const positions = new Map(order.map((old, index) => [old, index]));
  const edits = entries.map((entry, index): XmlEdit => {
    const next = entries[order[index] ?? index] ?? entry;
    return { start: entry.start, end: entry.end, text: text.slice(next.start, next.end) };
  });
  const renumber = (element: XmlElement, names: readonly string[]): readonly XmlEdit[] => {
    const changes = names.flatMap((name) => {
      const position = positions.get(element.number(name) ?? -1);
      return position === undefined ? [] : [[name, String(position)] as const];
    });
    return changes.length === 0 ? [] : [retag(element, Object.fromEntries(changes))];
  };
  for (const name of root.child("definedNames")?.all("definedName") ?? [])
    edits.push(...renumber(name, ["localSheetId"]));
  for (const view of root.child("bookViews")?.all("workbookView") ?? [])
    edits.push(...renumber(view, ["activeTab", "firstSheet"]));
  parts.writeText(workbookPart, applyEdits(text, edits));
  return parts.toBytes();
}
