import { dynamicMarks } from "./metadata";
import { type CellChange, type DefinedName, type SheetModel, type TableModel, WorkbookError } from "./model";
import type { WorkbookModel } from "./model";
import { NAMESPACES } from "./namespaces";
import { WorkbookPackage } from "./package";
import { type PatchedFile, patchWorkbook } from "./patch";
import { type MeantChanges, proveChanges } from "./proof";
import { CellReader, rangeOf } from "./read-cell";
import { readSheet } from "./read-sheet";
import type { LayoutChange } from "./sheet-layout";
import { richTextOf } from "./sheet-scan";
import { readStyles } from "./styles";
import { undrawnParts } from "./undrawn";
import { findWorkbookPart, WORKSHEET_TYPE } from "./workbook-part";
import { ValuePlaces } from "./value-places";
import { readXml, scanXml } from "./xml";
import { decodeXstring } from "./xstring";
import { PACKAGE_LIMITS, type PackageLimits } from "./zip";

/** A workbook that was opened; it never changes. */
export interface OpenWorkbook {
  readonly model: WorkbookModel;
  readonly parts: WorkbookPackage;
  /**
   * The file with some cells, looks, widths, heights and panes changed and everything else as it was. Throws WorkbookError
   * for what a cell cannot hold, and where the result is not what was meant.
   */
  patched(
    changes: readonly CellChange[],
    layouts?: readonly LayoutChange[],
    options?: Pick<FileOptions, "onProgress">,
  ): Uint8Array;
}

export interface FileOptions {
  readonly limits?: PackageLimits;
  /** Told the share that is done, from 0 to 1. */
  readonly onProgress?: ((share: number) => void) | undefined;
}

/** Opens an .xlsx file. Throws WorkbookError for anything that is no readable workbook; `bytes` stay as they are. */
export function openWorkbook(
  bytes: Uint8Array,
  { limits = PACKAGE_LIMITS, onProgress }: FileOptions = {},
): OpenWorkbook {
  const parts = WorkbookPackage.open(bytes, limits);
  const places = new Map<string, ValuePlaces>();
  const model = readWorkbook(parts, new Map(), onProgress, places);
  return {
    model,
    parts,
    patched: (changes, layouts = [], options = {}) =>
      provenPatch({ model, parts, places }, { changes, layouts }, { limits, ...options }),
  };
}

/** Shares of the work of a patch that are done once the file is written and once it is packed. */
const WRITTEN = 0.3;
const PACKED = 0.5;

/** The changed file, once it was opened again and holds what was meant. */
function provenPatch(
  before: PatchedFile,
  meant: MeantChanges,
  { limits, onProgress }: FileOptions & { readonly limits: PackageLimits },
): Uint8Array {
  const bytes = patchWorkbook(before, meant.changes, meant.layouts, (share) => {
    onProgress?.(share * WRITTEN);
  });
  onProgress?.(PACKED);
  const parts = WorkbookPackage.open(bytes, limits);
  const isUnchanged = (part: string): boolean => before.parts.hasSame(part, parts);
  // A sheet whose part is byte for byte the same need not be read again.
  const known = new Map(before.model.sheets.filter(({ part }) => isUnchanged(part)).map((s) => [s.part, s]));
  const model = readWorkbook(parts, known, (share) => onProgress?.(PACKED + share * (1 - PACKED)));
  proveChanges(before, { parts, model }, meant);
  return bytes;
}

function readWorkbook(
  parts: WorkbookPackage,
  known: ReadonlyMap<string, SheetModel>,
  onProgress?: (share: number) => void,
  places?: Map<string, ValuePlaces>,
): WorkbookModel {
  const workbookPart = findWorkbookPart(parts);
  const root = readXml(parts.readText(workbookPart), workbookPart);
  if (!root.is("workbook"))
    throw new WorkbookError("the file is damaged: its workbook part holds something else");
  const date1904 = root.child("workbookPr")?.flag("date1904") === true;
  const styles = readStyles(parts, workbookPart);
  const reader = new CellReader(
    readSharedStrings(parts, workbookPart),
    dynamicMarks(parts, workbookPart),
    date1904,
    styles,
  );
  const links = new Map(parts.relationships(workbookPart).map((link) => [link.id, link]));
  const size = [...links.values()].reduce((sum, { target }) => sum + parts.sizeOf(target), 1);
  let read = 0;
  const sheets: SheetModel[] = [];
  const claimed = new Set<string>();
  const tables: TableModel[] = [];
  /** Position among worksheets by position among all sheets. */
  const positions: (number | undefined)[] = [];
  for (const entry of root.child("sheets")?.all("sheet") ?? []) {
    const name = decodeXstring(entry.get("name") ?? "");
    const link = links.get(entry.getQualified(NAMESPACES.relationships, "id") ?? "");
    if (link === undefined) throw new WorkbookError(`the file is damaged: sheet "${name}" has no part`);
    if (link.kind !== "worksheet") {
      positions.push(undefined);
      continue;
    }
    const type = parts.contentType(link.target);
    if (type !== WORKSHEET_TYPE) {
      throw new WorkbookError(`the file is damaged: sheet "${name}" is ${type ?? "of no known type"}`);
    }
    const state =
      (["hidden", "veryHidden"] as const).find((word) => word === entry.get("state")) ?? "visible";
    positions.push(sheets.length);
    // A part read once for each of many sheets could make the opening endless.
    for (const part of [
      link.target,
      ...["comments", "table"]
        .flatMap((kind) => parts.linked(link.target, kind))
        .filter((linked) => parts.has(linked)),
    ]) {
      if (claimed.has(part.toLowerCase()))
        throw new WorkbookError(`the file is damaged: two sheets share ${part}`);
      claimed.add(part.toLowerCase());
    }
    tables.push(...readTables(parts, link.target, sheets.length));
    const [first, last] = [read, read + parts.sizeOf(link.target)];
    const onShare = (share: number): void => onProgress?.((first + share * (last - first)) / size);
    const ownPlaces = places && new ValuePlaces();
    if (ownPlaces !== undefined) places?.set(link.target, ownPlaces);
    sheets.push(
      known.get(link.target) ?? readSheet(parts, link.target, name, state, reader, ownPlaces, onShare),
    );
    read = last;
  }
  if (sheets.length === 0) throw new WorkbookError("the file has no worksheet");
  const names = (root.child("definedNames")?.all("definedName") ?? []).flatMap((element): DefinedName[] => {
    const scope = element.number("localSheetId");
    const sheet = scope === undefined ? undefined : positions[scope];
    if (scope !== undefined && sheet === undefined) return [];
    return [
      {
        name: decodeXstring(element.get("name") ?? ""),
        text: decodeXstring(element.text),
        isHidden: element.flag("hidden"),
        ...(sheet === undefined ? {} : { sheet }),
      },
    ];
  });
  const undrawn = undrawnParts(parts, workbookPart, sheets);
  return { sheets, names, tables, styles, date1904, ...(undrawn.length > 0 && { undrawn }) };
}

function readSharedStrings(parts: WorkbookPackage, workbookPart: string): readonly string[] {
  const [part] = parts.linked(workbookPart, "sharedStrings");
  if (part === undefined || !parts.has(part)) return [];
  const strings: string[] = [];
  let current = "";
  scanXml(parts.readText(part), part, {
    close(element) {
      if (element.is("si")) {
        strings.push(decodeXstring(current));
        current = "";
      } else current += richTextOf(element) ?? "";
    },
  });
  return strings;
}

function readTables(parts: WorkbookPackage, sheetPart: string, sheet: number): readonly TableModel[] {
  return parts
    .linked(sheetPart, "table")
    .filter((part) => parts.has(part))
    .map((part) => {
      const root = readXml(parts.readText(part), part);
      return {
        name: decodeXstring(root.get("displayName") ?? root.get("name") ?? ""),
        sheet,
        range: rangeOf(root, part),
        columns: (root.child("tableColumns")?.all("tableColumn") ?? []).map((column) => {
          return decodeXstring(column.get("name") ?? "");
        }),
        headerRows: root.number("headerRowCount") ?? 1,
        totalsRows: root.number("totalsRowCount") ?? 0,
        ...(root.child("autoFilter")?.child("filterColumn") === undefined ? {} : { isFiltered: true }),
      };
    });
}
