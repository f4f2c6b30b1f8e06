import { definedNameFault, parseRange, quoteSheet, rangeAddress, sheetNameFault } from "../formula/address";
import { commentsMarkup, notesDrawingMarkup } from "./create-notes";
import { placeIn, type SheetDescription, sheetMarkup } from "./create-sheet";
import { tableMarkup } from "./create-table";
import { StyleTable } from "./create-styles";
import { ensureDynamicMark } from "./metadata";
import { WorkbookError } from "./model";
import { WorkbookPackage } from "./package";
import { PACKAGE_ROOT } from "./part-names";
import { WORKBOOK_TYPE, WORKSHEET_TYPE } from "./workbook-part";
import { NAMESPACES } from "./namespaces";
import { escapeAttribute, escapeText, PLAIN, XML_DECLARATION } from "./xml";
import { encodeXstring } from "./xstring";

/** A workbook to be written; the same description always gives the same bytes. */
export interface WorkbookDescription {
  readonly title?: string;
  readonly author: string;
  /** The program that writes the file. */
  readonly generator: string;
  /** Date and time that the file is to carry, such as `2026-01-01T00:00:00Z`. */
  readonly date: string;
  readonly sheets: readonly SheetDescription[];
  readonly names?: readonly { readonly name: string; readonly text: string; readonly sheet?: number }[];
}

const SPREADSHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml";
const EXTENDED_PROPERTIES = "http://schemas.openxmlformats.org/officeDocument/2006/extended-properties";
const CORE_LINK = "http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties";
const CORE_NAMESPACES =
  'xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"';
/** With the number of a current calculation engine Excel keeps the stored values on opening instead of computing at once. */
const CALCULATION_ENGINE = "191029";
const WORKBOOK_PART = "xl/workbook.xml";

/** Builds an .xlsx file. Throws WorkbookError for what Excel would refuse: names, addresses, contents. */
export function createWorkbook(workbook: WorkbookDescription): Uint8Array {
  checkNames(workbook);
  const parts = WorkbookPackage.empty();
  parts.add(WORKBOOK_PART, WORKBOOK_TYPE, "");
  parts.link(PACKAGE_ROOT, "officeDocument", WORKBOOK_PART);
  const styles = new StyleTable();
  const strings = new StringTable();
  let tables = 0;
  const entries = workbook.sheets.map((sheet, i) => {
    const number = String(i + 1);
    const part = `xl/worksheets/sheet${number}.xml`;
    const notes = Object.entries(sheet.notes ?? {})
      .map(([address, text]) => ({ ...placeIn(sheet, address), text }))
      .sort((a, b) => a.row - b.row || a.column - b.column);
    let drawingLink: string | undefined;
    if (notes.length > 0) {
      parts.addExtension("vml", "application/vnd.openxmlformats-officedocument.vmlDrawing");
      parts.writeText(`xl/drawings/vmlDrawing${number}.vml`, notesDrawingMarkup(notes, i + 1));
      drawingLink = parts.link(part, "vmlDrawing", `xl/drawings/vmlDrawing${number}.vml`);
      parts.add(
        `xl/comments${number}.xml`,
        `${SPREADSHEET}.comments+xml`,
        commentsMarkup(notes, workbook.author),
      );
      parts.link(part, "comments", `xl/comments${number}.xml`);
    }
    const tableLinks = (sheet.tables ?? []).map((table) => {
      const id = ++tables;
      const name = `xl/tables/table${String(id)}.xml`;
      parts.add(name, `${SPREADSHEET}.table+xml`, tableMarkup(sheet, table, id));
      return parts.link(part, "table", name);
    });
    const markup = sheetMarkup(sheet, {
      styles,
      dynamicMark: () => ensureDynamicMark(parts, WORKBOOK_PART),
      stringIndex: (text) => strings.add(text),
      isFirst: i === 0,
      drawingLink,
      tableLinks,
    });
    parts.add(part, WORKSHEET_TYPE, markup);
    const state = sheet.state === undefined || sheet.state === "visible" ? "" : ` state="${sheet.state}"`;
    const link = parts.link(WORKBOOK_PART, "worksheet", part);
    const name = escapeAttribute(encodeXstring(sheet.name));
    return PLAIN.wrap("sheet", `name="${name}" sheetId="${number}"${state} r:id="${link}"`, "");
  });
  parts.add("xl/styles.xml", `${SPREADSHEET}.styles+xml`, styles.markup());
  parts.link(WORKBOOK_PART, "styles", "xl/styles.xml");
  parts.add("xl/sharedStrings.xml", `${SPREADSHEET}.sharedStrings+xml`, strings.markup());
  parts.link(WORKBOOK_PART, "sharedStrings", "xl/sharedStrings.xml");
  parts.writeText(WORKBOOK_PART, workbookMarkup(workbook, entries));
  addProperties(parts, workbook);
  return parts.toBytes();
}

/** Texts of constants, each kept once. */
class StringTable {
  private readonly indexes = new Map<string, number>();
  private uses = 0;

  add(text: string): number {
    this.uses++;
    const index = this.indexes.get(text) ?? this.indexes.size;
    this.indexes.set(text, index);
    return index;
  }

  markup(): string {
    const items = [...this.indexes.keys()].map((text) => {
      const space = /^\s|\s$/.test(text) ? 'xml:space="preserve"' : "";
      return PLAIN.wrap("si", "", PLAIN.wrap("t", space, escapeText(encodeXstring(text))));
    });
    const counts = `count="${String(this.uses)}" uniqueCount="${String(items.length)}"`;
    return XML_DECLARATION + PLAIN.wrap("sst", `xmlns="${NAMESPACES.main}" ${counts}`, items.join(""));
  }
}

function checkNames(workbook: WorkbookDescription): void {
  if (workbook.sheets.length === 0) throw new WorkbookError("a workbook needs a sheet");
  if (!workbook.sheets.some((sheet) => (sheet.state ?? "visible") === "visible")) {
    throw new WorkbookError("a workbook needs a sheet that is visible");
  }
  const seen = new Set<string>();
  for (const { name } of workbook.sheets) {
    const fault = sheetNameFault(name) ?? (seen.has(name.toLowerCase()) ? "is used twice" : undefined);
    if (fault !== undefined) throw new WorkbookError(`the sheet name "${name}" ${fault}`);
    seen.add(name.toLowerCase());
  }
  // Tables and names of the workbook share one set of names.
  const used = new Set<string>();
  const tables = workbook.sheets.flatMap((sheet) => (sheet.tables ?? []).map((table) => table.name));
  const names = (workbook.names ?? []).map((entry) => (entry.sheet === undefined ? entry.name : undefined));
  for (const name of [...tables, ...names].filter((entry) => entry !== undefined)) {
    const fault = definedNameFault(name) ?? (used.has(name.toLowerCase()) ? "is used twice" : undefined);
    if (fault !== undefined) throw new WorkbookError(`the name "${name}" ${fault}`);
    used.add(name.toLowerCase());
  }
}

function workbookMarkup(workbook: WorkbookDescription, sheets: readonly string[]): string {
  const printing = workbook.sheets.flatMap((sheet, i) => {
    const { printArea, repeatedRows } = sheet.page ?? {};
    const place = (
      name: string,
      text: string | undefined,
    ): readonly { name: string; text: string; sheet: number }[] => {
      return text === undefined
        ? []
        : [{ name, text: `${quoteSheet(sheet.name)}!${absolute(text)}`, sheet: i }];
    };
    return [...place("_xlnm.Print_Area", printArea), ...place("_xlnm.Print_Titles", repeatedRows)];
  });
  const names = [...(workbook.names ?? []), ...printing]
    .sort((a, b) => compare(a.name.toLowerCase(), b.name.toLowerCase()) || (a.sheet ?? -1) - (b.sheet ?? -1))
    .map(({ name, text, sheet }) => {
      const scope = sheet === undefined ? "" : ` localSheetId="${String(sheet)}"`;
      return PLAIN.wrap(
        "definedName",
        `name="${escapeAttribute(name)}"${scope}`,
        escapeText(encodeXstring(text)),
      );
    });
  const content = [
    PLAIN.wrap("workbookPr", 'defaultThemeVersion="124226"', ""),
    PLAIN.wrap(
      "bookViews",
      "",
      PLAIN.wrap("workbookView", 'xWindow="0" yWindow="0" windowWidth="24000" windowHeight="12000"', ""),
    ),
    PLAIN.wrap("sheets", "", sheets.join("")),
    names.length === 0 ? "" : PLAIN.wrap("definedNames", "", names.join("")),
    PLAIN.wrap("calcPr", `calcId="${CALCULATION_ENGINE}"`, ""),
  ];
  const namespaces = `xmlns="${NAMESPACES.main}" xmlns:r="${NAMESPACES.relationships}"`;
  return XML_DECLARATION + PLAIN.wrap("workbook", namespaces, content.join(""));
}

function addProperties(parts: WorkbookPackage, workbook: WorkbookDescription): void {
  const date = (name: string): string =>
    PLAIN.wrap(name, 'xsi:type="dcterms:W3CDTF"', escapeText(workbook.date));
  const core = [
    workbook.title === undefined ? "" : PLAIN.wrap("dc:title", "", escapeText(workbook.title)),
    PLAIN.wrap("dc:creator", "", escapeText(workbook.author)),
    date("dcterms:created"),
    date("dcterms:modified"),
  ];
  const coreMarkup = XML_DECLARATION + PLAIN.wrap("cp:coreProperties", CORE_NAMESPACES, core.join(""));
  parts.add("docProps/core.xml", "application/vnd.openxmlformats-package.core-properties+xml", coreMarkup);
  parts.link(PACKAGE_ROOT, CORE_LINK, "docProps/core.xml");
  const generator = PLAIN.wrap("Application", "", escapeText(workbook.generator));
  const app = XML_DECLARATION + PLAIN.wrap("Properties", `xmlns="${EXTENDED_PROPERTIES}"`, generator);
  parts.add("docProps/app.xml", "application/vnd.openxmlformats-officedocument.extended-properties+xml", app);
  parts.link(PACKAGE_ROOT, "extended-properties", "docProps/app.xml");
}

/** `A1:F40` as `$A$1:$F$40`, `1:3` as `$1:$3`. */
function absolute(text: string): string {
  const range = parseRange(text);
  if (range === undefined) throw new WorkbookError(`"${text}" is no range`);
  // Whole rows and columns stay whole, so that they print as far as they are filled.
  const ends = /^(?:\d+:\d+|[A-Z]+:[A-Z]+)$/.test(text) ? text : rangeAddress(range);
  return ends.replace(/[A-Z]+|\d+/g, "$$$&");
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
