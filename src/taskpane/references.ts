import { parseRange, rangeAddress, quoteSheet, splitSheet } from "../workbook/address";
import type { CellRange } from "../workbook/model";
import type { Outline, Place, SheetRange, TableInfo } from "./sheet-host";

const STRUCTURE = /^([\p{L}_\\][\p{L}\p{N}_.\\]*)?\[(.*)\]$/su;
const MOST_NAMES_DEEP = 8;

function sameWord(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}

/** The text of an address with its sheet, such as `'Price list'!B3`. */
export function addressOf({ sheet, range }: SheetRange): string {
  return `${quoteSheet(sheet)}!${rangeAddress(range)}`;
}

/** A cell as the rectangle it is. */
export function areaOf({ sheet, row, column }: Place): SheetRange {
  return { sheet, range: { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column } };
}

/** A column title as a structured reference writes it. */
export function escapedTitle(title: string): string {
  return title.replace(/[[\]#'@]/g, "'$&");
}

function plainTitle(text: string): string {
  return text.replace(/'([[\]#'@])/g, "$1");
}

function bodyOf({ range, headerRows, totalsRows }: TableInfo): CellRange {
  return { ...range, firstRow: range.firstRow + headerRows, lastRow: range.lastRow - totalsRows };
}

/** The parts inside the brackets of a structured reference: `[#All],[Size]` is `#All` and `Size`. */
function partsOf(inside: string): readonly string[] {
  if (!inside.startsWith("[")) return inside === "" ? [] : [inside];
  return [...inside.matchAll(/\[((?:'.|[^\]'])*)\]/gs)].map((match) => match[1] ?? "");
}

function structured(table: TableInfo, inside: string, at: Place | undefined): CellRange | undefined {
  const isRow = inside.startsWith("@");
  const parts = isRow ? ["#This Row", ...partsOf(inside.slice(1))] : partsOf(inside);
  const titles = parts.filter((part) => !part.startsWith("#")).map(plainTitle);
  const areas = parts.filter((part) => part.startsWith("#")).map((part) => part.toLowerCase());
  const area = [...areas].sort().join("");
  const columns = titles.map((title) => table.columns.findIndex((column) => sameWord(column, title)));
  if (columns.includes(-1)) return undefined;
  const { firstColumn, firstRow, lastRow } = table.range;
  const body = bodyOf(table);
  const across =
    columns.length === 0
      ? {}
      : { firstColumn: firstColumn + Math.min(...columns), lastColumn: firstColumn + Math.max(...columns) };
  switch (area) {
    case "":
    case "#data":
      return { ...body, ...across };
    case "#all":
      return { ...table.range, ...across };
    case "#data#headers":
      return { ...table.range, lastRow: body.lastRow, ...across };
    case "#headers":
      return table.headerRows === 0 ? undefined : { ...table.range, lastRow: firstRow, ...across };
    case "#totals":
      return table.totalsRows === 0 ? undefined : { ...table.range, firstRow: lastRow, ...across };
    case "#this row":
      if (at?.sheet !== table.sheet || at.row < body.firstRow || at.row > body.lastRow) return undefined;
      return { ...body, firstRow: at.row, lastRow: at.row, ...across };
    default:
      return undefined;
  }
}

function tableAround(outline: Outline, at: Place | undefined): TableInfo | undefined {
  if (at === undefined) return undefined;
  return outline.tables.find(
    ({ sheet, range }) =>
      sheet === at.sheet &&
      at.row >= range.firstRow &&
      at.row <= range.lastRow &&
      at.column >= range.firstColumn &&
      at.column <= range.lastColumn,
  );
}

/** Keeps `B:B` and `3:9` within what a sheet holds. */
function withinUsed({ sheet, range }: SheetRange, outline: Outline): SheetRange {
  const used = outline.sheets.find(({ name }) => name === sheet)?.used;
  const lastRow = Math.max(range.firstRow, Math.min(range.lastRow, used?.lastRow ?? 0));
  const lastColumn = Math.max(range.firstColumn, Math.min(range.lastColumn, used?.lastColumn ?? 0));
  return { sheet, range: { ...range, lastRow, lastColumn } };
}

/**
 * The cells that a reference means: an address, a defined name or a part of a table. Undefined for anything else, other
 * workbooks and expressions among it.
 *
 * @param at the cell whose formula holds the reference
 */
export function resolveReference(
  outline: Outline,
  text: string,
  at: Place,
  deep = 0,
): SheetRange | undefined {
  const reference = text.trim();
  const { sheet: named, rest } = splitSheet(reference);
  const sheet =
    named === undefined ? at.sheet : outline.sheets.find(({ name }) => sameWord(name, named))?.name;
  const range = parseRange(rest);
  if (range !== undefined) return sheet === undefined ? undefined : withinUsed({ sheet, range }, outline);
  const structure = STRUCTURE.exec(reference);
  if (structure !== null) {
    const [, name, inside = ""] = structure;
    const table =
      name === undefined
        ? tableAround(outline, at)
        : outline.tables.find((candidate) => sameWord(candidate.name, name));
    const area = table && structured(table, inside, at);
    return table && area && { sheet: table.sheet, range: area };
  }
  const table = outline.tables.find((candidate) => sameWord(candidate.name, reference));
  if (table !== undefined) return { sheet: table.sheet, range: bodyOf(table) };
  const candidates = outline.names.filter(({ name }) => sameWord(name, rest));
  const found =
    candidates.find((name) => name.sheet === sheet) ?? candidates.find((name) => name.sheet === undefined);
  return found === undefined || deep > MOST_NAMES_DEEP
    ? undefined
    : resolveReference(outline, found.reference, at, deep + 1);
}

/** The table that holds a selection as a reference that grows with it, else the address. */
export function lastingReference(outline: Outline, area: SheetRange): string {
  const { sheet, range } = area;
  const table = outline.tables.find(
    (candidate) =>
      candidate.sheet === sheet &&
      candidate.range.firstColumn === range.firstColumn &&
      candidate.range.lastColumn === range.lastColumn &&
      range.firstRow >= candidate.range.firstRow &&
      range.lastRow <= candidate.range.lastRow,
  );
  const isWhole = table !== undefined && range.lastRow >= table.range.lastRow - table.totalsRows;
  if (!isWhole) return addressOf(area);
  if (table.headerRows === 0) return table.name;
  return `${table.name}[${table.totalsRows === 0 ? "#All" : "[#Headers],[#Data]"}]`;
}
