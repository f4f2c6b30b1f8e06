import { contains, parseRange, quoteSheet, rangeAddress, splitSheet } from "./address";
import type { Scope, SheetArea, SheetCell, TableInfo } from "./scope";
import { tableRange } from "./structured-reference";

const STRUCTURE = /^([\p{L}_\\][\p{L}\p{N}_.\\]*)?(\[.*\])$/su;
const MOST_NAMES_DEEP = 8;

function sameWord(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}

/** The text of an address with its sheet, such as `'Price list'!B3`. */
export function addressOf({ sheet, range }: SheetArea): string {
  return `${quoteSheet(sheet)}!${rangeAddress(range)}`;
}

/** A cell as the rectangle it is. */
export function areaOf({ sheet, row, column }: SheetCell): SheetArea {
  return { sheet, range: { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column } };
}

/** A column title as a structured reference writes it. */
export function escapedTitle(title: string): string {
  return title.replace(/[[\]#'@]/g, "'$&");
}

function tableAround(scope: Scope, at: SheetCell): TableInfo | undefined {
  return scope.tables.find(({ sheet, range }) => sheet === at.sheet && contains(range, at.row, at.column));
}

/** The part of a table; "this row" means one only to a formula on the table's own sheet. */
function partOf(table: TableInfo, structure: string, at: SheetCell): SheetArea | undefined {
  const range = tableRange(table, structure, at.sheet === table.sheet ? at.row : -1);
  return typeof range === "string" ? undefined : { sheet: table.sheet, range };
}

/**
 * The cells that a reference means: an address, a defined name or a part of a table. Undefined for anything else, other
 * workbooks and expressions among it.
 *
 * @param at the cell whose formula holds the reference
 */
export function resolveReference(scope: Scope, text: string, at: SheetCell, deep = 0): SheetArea | undefined {
  const reference = text.trim();
  const { sheet: named, rest } = splitSheet(reference);
  const sheet = named === undefined ? at.sheet : scope.sheets.find(({ name }) => sameWord(name, named))?.name;
  const range = parseRange(rest);
  if (range !== undefined) return sheet === undefined ? undefined : { sheet, range };
  const structure = STRUCTURE.exec(reference);
  if (structure !== null) {
    const [, name, part = ""] = structure;
    const table =
      name === undefined
        ? tableAround(scope, at)
        : scope.tables.find((candidate) => sameWord(candidate.name, name));
    return table && partOf(table, part, at);
  }
  const table = scope.tables.find((candidate) => sameWord(candidate.name, reference));
  if (table !== undefined) return partOf(table, "[]", at);
  const candidates = scope.names.filter(({ name }) => sameWord(name, rest));
  const found =
    candidates.find((name) => name.sheet === sheet) ?? candidates.find((name) => name.sheet === undefined);
  return found === undefined || deep > MOST_NAMES_DEEP
    ? undefined
    : resolveReference(scope, found.reference, at, deep + 1);
}

/** The table that holds a selection as a reference that grows with it, else the address. */
export function lastingReference(scope: Scope, area: SheetArea): string {
  const { sheet, range } = area;
  const table = scope.tables.find(
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
