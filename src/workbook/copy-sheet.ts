import { renameSheetIn } from "../formula/move-references";
import { tokenize } from "../formula/tokens";
import { type TableModel, WorkbookError } from "./model";
import type { WorkbookPackage } from "./package";
import { relationshipsPart } from "./part-names";
import { openWorkbook } from "./read";
import { rewritePart } from "./rewrite-formulas";
import { findWorkbookPart, WORKSHEET_TYPE } from "./workbook-part";
import { NAMESPACES, STRICT_RELATIONSHIPS } from "./namespaces";
import { appendTo, applyEdits, escapeAttribute, escapeText, readXml } from "./xml";
import { decodeXstring, encodeXstring } from "./xstring";

/** Kinds of parts that a sheet alone uses, so that its copy needs its own. */
const OWN_KINDS = ["comments", "threadedComment", "vmlDrawing", "drawing", "chart", "chartEx", "table"];

/** The file with a copy of a sheet behind all others. Throws WorkbookError for a sheet with a pivot table. */
export function copySheet(bytes: Uint8Array, position: number, name: string): Uint8Array {
  const { model, parts: opened } = openWorkbook(bytes);
  const sheet = model.sheets[position];
  if (sheet === undefined) throw new WorkbookError(`the workbook has no sheet ${String(position + 1)}`);
  if (opened.linked(sheet.part, "pivotTable").length > 0)
    throw new WorkbookError(`the sheet "${sheet.name}" has a pivot table, which cannot be copied`);
  const parts = opened.copy();
  const part = parts.freeName("xl/worksheets/sheet", ".xml");
  parts.add(part, WORKSHEET_TYPE, parts.readText(sheet.part));
  const copies = copyLinks(parts, sheet.part, part);
  // Tables have names of their own in a workbook, so the copy's get others, and its formulas follow.
  const names = new Map<string, string>();
  const taken = new Set([...model.tables, ...model.names].map((known) => known.name.toLowerCase()));
  for (const table of copies.filter((copy) => copy.kind === "table"))
    renameTable(parts, table.part, model.tables, taken, names);
  const rewrite = (formula: string): string => renameTablesIn(formula, names);
  for (const changed of [part, ...copies.filter(({ kind }) => kind === "table").map((copy) => copy.part)])
    rewritePart(parts, changed, name, rewrite);
  for (const chart of copies.filter(({ kind }) => kind.startsWith("chart")))
    rewritePart(parts, chart.part, name, (formula) => renameSheetIn(formula, sheet.name, name));
  deselect(parts, part);
  list(parts, part, sheet.name, name);
  return parts.toBytes();
}

interface Copied {
  readonly part: string;
  readonly kind: string;
}

function copyLinks(parts: WorkbookPackage, from: string, to: string): readonly Copied[] {
  const links = relationshipsPart(from);
  if (!parts.has(links)) return [];
  const copies: Copied[] = [];
  let text = parts.readText(links);
  const edits = readXml(text, links)
    .all("Relationship", NAMESPACES.packageRelationships)
    .flatMap((element) => {
      const link = parts.relationships(from).find(({ id }) => id === element.get("Id"));
      if (link === undefined || link.isExternal) return [];
      let target = link.target;
      if (OWN_KINDS.includes(link.kind) && parts.has(link.target)) {
        const [, stem = "", ending = ""] = /^(.*?)\d*(\.\w+)$/.exec(link.target) ?? [];
        target = parts.freeName(stem, ending);
        parts.write(target, parts.read(link.target));
        const type = parts.contentType(link.target);
        if (type !== undefined && parts.contentType(target) !== type)
          parts.add(target, type, parts.readText(target));
        copies.push({ part: target, kind: link.kind }, ...copyLinks(parts, link.target, target));
      }
      const { start, end } = element;
      return [{ start, end, text: element.openTag({ Target: `/${target}` }, true) }];
    });
  text = applyEdits(text, edits);
  parts.writeText(relationshipsPart(to), text);
  return copies;
}

function renameTable(
  parts: WorkbookPackage,
  part: string,
  tables: readonly TableModel[],
  taken: Set<string>,
  names: Map<string, string>,
): void {
  const text = parts.readText(part);
  const root = readXml(text, part);
  const old = decodeXstring(root.get("displayName") ?? "");
  let number = 2;
  while (taken.has(`${old}_${String(number)}`.toLowerCase())) number++;
  const name = `${old}_${String(number)}`;
  taken.add(name.toLowerCase());
  names.set(old.toLowerCase(), name);
  const ids = parts.names
    .filter((other) => /\/table\d*\.xml$/.test(other))
    .map((other) => readXml(parts.readText(other), other).number("id") ?? 0);
  const id = Math.max(tables.length, ...ids) + 1;
  const stored = encodeXstring(name);
  const open = root.openTag({ id: String(id), name: stored, displayName: stored, "xr:uid": null });
  parts.writeText(part, applyEdits(text, [{ start: root.start, end: root.contentStart, text: open }]));
}

function renameTablesIn(formula: string, names: ReadonlyMap<string, string>): string {
  if (names.size === 0) return formula;
  return tokenize(formula)
    .map(({ kind, text }) => (kind === "name" ? (names.get(text.toLowerCase()) ?? text) : text))
    .join("");
}

/** The copy must not be selected together with the original: typing would go into both. */
function deselect(parts: WorkbookPackage, part: string): void {
  const text = parts.readText(part);
  parts.writeText(part, text.replace(/(<(?:\w+:)?sheetView\b[^>]*?) tabSelected="(?:1|true)"/g, "$1"));
}

/** Enters the part as a sheet, with copies of the names that belong to the original. */
function list(parts: WorkbookPackage, part: string, original: string, name: string): void {
  const workbookPart = findWorkbookPart(parts);
  const link = parts.link(workbookPart, "worksheet", part);
  const text = parts.readText(workbookPart);
  const root = readXml(text, workbookPart);
  const sheets = root.child("sheets");
  if (sheets === undefined) return;
  const entries = sheets.all("sheet");
  const id = Math.max(0, ...entries.map((entry) => entry.number("sheetId") ?? 0)) + 1;
  const attributes = [
    `name="${escapeAttribute(encodeXstring(name))}"`,
    `sheetId="${String(id)}"`,
    `xmlns:r="${parts.isStrict ? STRICT_RELATIONSHIPS : NAMESPACES.relationships}"`,
    `r:id="${link}"`,
  ];
  const edits = [appendTo(sheets, sheets.wrap("sheet", attributes.join(" "), ""))];
  const position = entries.findIndex((entry) => decodeXstring(entry.get("name") ?? "") === original);
  const names = root.child("definedNames");
  for (const defined of names?.all("definedName") ?? []) {
    if (names === undefined || defined.number("localSheetId") !== position) continue;
    const open = defined.openTag({ localSheetId: String(entries.length) });
    const formula = escapeText(renameSheetIn(decodeXstring(defined.text), original, name));
    edits.push(appendTo(names, `${open}${formula}</${defined.name}>`));
  }
  parts.writeText(workbookPart, applyEdits(text, edits));
}
