import { type CellPosition, cellAddress, MAX_COLUMNS, MAX_ROWS, sheetNameFault } from "../formula/address";
import { checkContent, valueMarkup } from "./cell-markup";
import { type CellValue, type SheetModel, WorkbookError } from "./model";
import { WorkbookPackage } from "./package";
import { findWorkbookPart, WORKSHEET_TYPE } from "./workbook-part";
import { NAMESPACES, STRICT_RELATIONSHIPS } from "./namespaces";
import { appendTo, applyEdits, escapeAttribute, PLAIN, readXml, XML_DECLARATION } from "./xml";
import { encodeXstring } from "./xstring";

/** A sheet of plain values. */
export interface NewSheet {
  readonly name: string;
  /** Rows of cells from A1 on; null leaves a cell out. */
  readonly rows: readonly (readonly CellValue[])[];
  /** Widths in Excel's character units from column A on. */
  readonly columnWidths?: readonly number[];
  readonly state?: SheetModel["state"];
}

/** The file with one more sheet behind the others. Throws WorkbookError for a name that is taken or that Excel refuses. */
export function addSheet(bytes: Uint8Array, sheet: NewSheet): Uint8Array {
  const parts = WorkbookPackage.open(bytes).copy();
  const workbookPart = findWorkbookPart(parts);
  const text = parts.readText(workbookPart);
  const root = readXml(text, workbookPart);
  const list = root.child("sheets");
  if (list === undefined) throw new WorkbookError("the file has no worksheet");
  const fault = sheetNameFault(sheet.name);
  if (fault !== undefined) throw new WorkbookError(`the sheet name "${sheet.name}" ${fault}`);
  const entries = list.all("sheet");
  const stored = encodeXstring(sheet.name);
  if (entries.some((entry) => entry.get("name")?.toLowerCase() === stored.toLowerCase())) {
    throw new WorkbookError(`the workbook has a sheet "${sheet.name}" already`);
  }
  const part = parts.freeName("xl/worksheets/sheet", ".xml");
  parts.add(part, WORKSHEET_TYPE, XML_DECLARATION + sheetMarkup(sheet, parts.mainNamespace));
  const link = parts.link(workbookPart, "worksheet", part);
  const id = Math.max(0, ...entries.map((entry) => entry.number("sheetId") ?? 0)) + 1;
  const attributes = [
    `name="${escapeAttribute(stored)}"`,
    `sheetId="${String(id)}"`,
    ...(sheet.state === undefined || sheet.state === "visible" ? [] : [`state="${sheet.state}"`]),
    `xmlns:r="${parts.isStrict ? STRICT_RELATIONSHIPS : NAMESPACES.relationships}"`,
    `r:id="${link}"`,
  ];
  const entry = list.wrap("sheet", attributes.join(" "), "");
  parts.writeText(workbookPart, applyEdits(text, [appendTo(list, entry)]));
  return parts.toBytes();
}

function sheetMarkup(sheet: NewSheet, namespace: string): string {
  if (sheet.rows.length > MAX_ROWS || sheet.rows.some((row) => row.length > MAX_COLUMNS)) {
    throw new WorkbookError(`sheet "${sheet.name}" has more rows or columns than Excel allows`);
  }
  const columns = (sheet.columnWidths ?? []).map((width, i) => {
    const number = String(i + 1);
    return PLAIN.wrap("col", `min="${number}" max="${number}" width="${String(width)}" customWidth="1"`, "");
  });
  const rows = sheet.rows.map((row, r) => {
    const cells = row.map((value, c) => cellMarkup(sheet.name, value, { row: r, column: c })).join("");
    return cells === "" ? "" : PLAIN.wrap("row", `r="${String(r + 1)}"`, cells);
  });
  const content = [
    columns.length > 0 ? PLAIN.wrap("cols", "", columns.join("")) : "",
    PLAIN.wrap("sheetData", "", rows.join("")),
  ];
  return PLAIN.wrap("worksheet", `xmlns="${namespace}"`, content.join(""));
}

function cellMarkup(sheet: string, value: CellValue, place: CellPosition): string {
  if (value === null) return "";
  checkContent(sheet, place, { value });
  const { type, markup } = valueMarkup(PLAIN, value, false);
  const attributes = `r="${cellAddress(place.row, place.column)}"${type === null ? "" : ` t="${type}"`}`;
  return PLAIN.wrap("c", attributes, markup);
}
