import { type CellRange, contains, rangeAddress } from "../formula/address";
import { type TableModel, WorkbookError } from "./model";
import type { WorkbookPackage } from "./package";
import { openWorkbook } from "./read";
import { applyEdits, escapeAttribute, readXml, scanXml, type XmlElement } from "./xml";
import { encodeXstring } from "./xstring";

/** A column of a list and the texts that it shows in the rows that stay; an empty one stands for blank cells. */
export interface ColumnFilter {
  readonly column: number;
  readonly shown: readonly string[];
}

/** Rows of a list that are shown by what its columns show; the first row of `range` holds its headings. */
export interface RowFilter {
  readonly sheet: number;
  readonly range: CellRange;
  /** All columns that filter; with none, all rows are shown again. */
  readonly columns: readonly ColumnFilter[];
  /** Rows of the list that do not stay. */
  readonly hidden: readonly number[];
}

/** Elements of a worksheet that come before its filter (ECMA-376 part 1, 18.3.1.99). */
const BEFORE_FILTER = new Set(
  "sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetCalcPr sheetProtection protectedRanges scenarios".split(
    " ",
  ),
);

/** The list that a cell belongs to, without a table's totals: a table, the sheet's filter, or else what is selected. */
export function listAround(
  tables: readonly TableModel[],
  filter: CellRange | undefined,
  at: { readonly sheet: number; readonly row: number; readonly column: number },
  selected: CellRange,
): CellRange {
  const table = tables.find(
    ({ sheet, range, headerRows }) =>
      sheet === at.sheet && headerRows === 1 && contains(range, at.row, at.column),
  );
  if (table) return { ...table.range, lastRow: table.range.lastRow - table.totalsRows };
  return filter && contains(filter, at.row, at.column) ? filter : selected;
}

/** The file with some rows of a list hidden by a filter, as Excel keeps it, or with all of them shown. */
export function filterRows(
  bytes: Uint8Array,
  { sheet: position, range, columns, hidden }: RowFilter,
): Uint8Array {
  const { model, parts: opened } = openWorkbook(bytes);
  const sheet = model.sheets[position];
  if (sheet === undefined) throw new WorkbookError(`the workbook has no sheet ${String(position + 1)}`);
  if (range.lastRow <= range.firstRow)
    throw new WorkbookError("a filter takes a list with headings and a row below them; select it");
  const parts = opened.copy();
  const filter = (owner: XmlElement): string => {
    const written = columns.map(({ column, shown }) => {
      const values = shown.filter((text) => text !== "").map((text) => escapeAttribute(encodeXstring(text)));
      const entries = values.map((text) => owner.wrap("filter", `val="${text}"`, "")).join("");
      const filters = owner.wrap("filters", shown.includes("") ? 'blank="1"' : "", entries);
      return owner.wrap("filterColumn", `colId="${String(column - range.firstColumn)}"`, filters);
    });
    return owner.wrap("autoFilter", `ref="${rangeAddress(range)}"`, written.join(""));
  };
  const table = parts.linked(sheet.part, "table").find((part) => isTableOf(parts, part, range));
  if (table === undefined) filterSheet(parts, sheet.part, filter, columns.length > 0);
  else filterTable(parts, table, filter);
  const rows = Array.from({ length: range.lastRow - range.firstRow }, (_, at) => range.firstRow + 1 + at);
  const out = new Set(hidden);
  const hiddenRows = new Map(
    rows.filter((row) => out.has(row) || sheet.hiddenRows.has(row)).map((row) => [row, out.has(row)]),
  );
  return openWorkbook(parts.toBytes()).patched([], [{ sheet: position, hiddenRows }]);
}

function isTableOf(parts: WorkbookPackage, part: string, range: CellRange): boolean {
  const [first = ""] = (readXml(parts.readText(part), part).get("ref") ?? "").split(":");
  return first === rangeAddress(range).split(":")[0];
}

function filterTable(parts: WorkbookPackage, part: string, filter: (owner: XmlElement) => string): void {
  const text = parts.readText(part);
  const root = readXml(text, part);
  const old = root.child("autoFilter");
  const [start, end] = old ? [old.start, old.end] : [root.contentStart, root.contentStart];
  parts.writeText(part, applyEdits(text, [{ start, end, text: filter(root) }]));
}

function filterSheet(
  parts: WorkbookPackage,
  part: string,
  filter: (owner: XmlElement) => string,
  isSet: boolean,
): void {
  const text = parts.readText(part);
  let old: XmlElement | undefined;
  let before: XmlElement | undefined;
  scanXml(text, part, {
    close(element) {
      if (element.parent?.is("worksheet") !== true) return;
      if (element.is("autoFilter")) old = element;
      else if (BEFORE_FILTER.has(element.local)) before = element;
    },
  });
  // A sheet without a filter needs none to show all its rows.
  if (old === undefined && !isSet) return;
  const owner = old ?? before;
  if (owner === undefined) return;
  const [start, end] = old ? [owner.start, owner.end] : [owner.end, owner.end];
  parts.writeText(part, applyEdits(text, [{ start, end, text: filter(owner) }]));
}
