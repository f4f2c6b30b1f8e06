import { SORTS, type Sort } from "../../core/event/job";
import { plainCell } from "../incoming";
import { isBlank } from "../read-scalar";
import { resultWith } from "../results";
import { filledRows, isHeader, recognise, type Recognised, type Unknown } from "./recognise";

/** Rows of cells as a sheet holds them. */
export type SheetRows = readonly (readonly unknown[])[];

/** A rectangle of cells, rows and columns from 0, both ends included. */
export interface CellBlock {
  readonly firstRow: number;
  readonly firstColumn: number;
  readonly lastRow: number;
  readonly lastColumn: number;
}

/** A table of a job on a sheet. */
export interface BlockTable extends CellBlock {
  readonly sort: Sort;
  /** Filled rows under the header. */
  readonly rows: number;
}

/** A table of a job in a workbook, as a formula refers to it. */
export interface FoundTable {
  readonly sort: Sort;
  readonly reference: string;
  /** Filled rows under the header. */
  readonly rows: number;
  /** True where the chosen cell lies in it: no formula over the table may go there. */
  readonly holdsCell?: boolean;
}

/** Blank rows that end a table; a single one parts its sections. */
const BLANK_ROWS_AT_END = 2;

const isFilled = (cell: unknown): boolean => !isBlank(plainCell(cell)) && cell !== "";

/** A range read as a table of a job; undefined where nothing is in it. */
function read(range: unknown): Recognised | Unknown | undefined {
  const { rows, count } = filledRows(range);
  return count === 0 ? undefined : recognise(rows, count);
}

/** What a range is read as: the sort of its table and the filled rows under its header; undefined where it is none. */
export function sortOfRange(range: unknown): { readonly sort: Sort; readonly rows: number } | undefined {
  const table = read(range);
  return table === undefined || "failure" in table
    ? undefined
    : { sort: table.sort, rows: table.body.length };
}

/** What a range of an event function is read as, for its field; why it is not where it is none. */
export function rangeWords(range: unknown): string | undefined {
  const table = read(range);
  if (table === undefined) return undefined;
  if ("failure" in table) return table.failure("it");
  const { length } = table.body;
  const unread = table.unread.length === 0 ? "" : `; not read: ${table.unread.join(", ")}`;
  return `read as ${table.sort.replaceAll("_", " ")}, ${length} ${length === 1 ? "row" : "rows"}${unread}`;
}

interface Stretch {
  readonly first: number;
  readonly last: number;
}

/** Stretches of filled cells of a row. */
function stretches(row: readonly unknown[], isFree: (column: number) => boolean): readonly Stretch[] {
  const found: { first: number; last: number }[] = [];
  for (const [column, cell] of row.entries()) {
    if (!isFilled(cell) || !isFree(column)) continue;
    const before = found.at(-1);
    if (before?.last === column - 1) before.last = column;
    else found.push({ first: column, last: column });
  }
  return found;
}

/** Rows under a header that tell whether a column without heading belongs to its table. */
const ROWS_TRIED = 20;

/** The headers of a row; what goes on behind a filled column without a heading belongs to the same one. */
function headersOf(rows: SheetRows, at: number, isFree: (column: number) => boolean): readonly Stretch[] {
  const row = rows[at] ?? [];
  const below = rows.slice(at + 1, at + 1 + ROWS_TRIED);
  const hasCells = (column: number): boolean => below.some((cells) => isFilled(cells[column]));
  const headers: { first: number; last: number }[] = [];
  for (const part of stretches(row, isFree)) {
    const before = headers.at(-1);
    const cells = row.slice(part.first, part.last + 1);
    if (isHeader(cells)) headers.push({ ...part });
    else if (before?.last === part.first - 2 && hasCells(before.last + 1) && resultWith(cells) === undefined)
      before.last = part.last;
  }
  return headers;
}

/**
 * The tables of a job on a sheet, each known by its header, down to where the next one begins or two rows are blank.
 * Results of our own functions are none.
 *
 * @param rows cells of the sheet from its first row and column on
 * @param taken rectangles that are not looked at
 */
export function tablesOnSheet(rows: SheetRows, taken: readonly CellBlock[] = []): readonly BlockTable[] {
  const used: CellBlock[] = [...taken];
  const isFreeAt = (row: number, column: number): boolean =>
    !used.some(
      (block) =>
        row >= block.firstRow &&
        row <= block.lastRow &&
        column >= block.firstColumn &&
        column <= block.lastColumn,
    );
  const found: BlockTable[] = [];
  for (const at of rows.keys())
    for (const header of headersOf(rows, at, (column) => isFreeAt(at, column))) {
      const block = blockBelow(rows, at, header, isFreeAt);
      used.push(block);
      const cells = rows
        .slice(block.firstRow, block.lastRow + 1)
        .map((line) => line.slice(block.firstColumn, block.lastColumn + 1));
      const sorted = sortOfRange(cells);
      if (sorted !== undefined) found.push({ ...block, ...sorted });
    }
  return found;
}

function blockBelow(
  rows: SheetRows,
  at: number,
  { first, last }: Stretch,
  isFreeAt: (row: number, column: number) => boolean,
): CellBlock {
  let lastRow = at;
  for (let row = at + 1; row < rows.length && row - lastRow <= BLANK_ROWS_AT_END; row += 1) {
    const cells = (rows[row] ?? []).slice(first, last + 1);
    const isEnd = cells.some((_, index) => !isFreeAt(row, first + index)) || isHeader(cells);
    if (isEnd) break;
    if (cells.some(isFilled)) lastRow = row;
  }
  return { firstRow: at, firstColumn: first, lastRow, lastColumn: last };
}

/** Sorts of which a workbook may have several: one price list for each supplier's sheet. */
const STACKED: readonly Sort[] = ["price_list", "delivery", "stock", "past_jobs"];

const FIELDS: Readonly<Partial<Record<Sort, string>>> = { price_list: "prices" };

/** Where the tables of a workbook go in a call. */
export interface PlacedTables {
  /** Table of each field, by its name. */
  readonly fields: ReadonlyMap<string, FoundTable>;
  /** Tables that have no place: a second one of a sort that a job has once. */
  readonly leftOut: readonly FoundTable[];
}

/**
 * Puts each table into the field of its sort; further price lists and the like take the fields that stay free.
 *
 * @param tables in the order in which they are preferred
 * @param names of the fields
 */
export function placedTables(tables: readonly FoundTable[], names: readonly string[]): PlacedTables {
  const fields = new Map<string, FoundTable>();
  const rest: FoundTable[] = [];
  for (const sort of SORTS) {
    const [first, ...more] = tables.filter((table) => table.sort === sort);
    const name = FIELDS[sort] ?? sort;
    // A function that has no field for a sort does not read it.
    if (first === undefined || !names.includes(name)) continue;
    fields.set(name, first);
    rest.push(...more);
  }
  const free = [...names.filter((name) => name.startsWith("more")), ...names.toReversed()];
  const leftOut = rest.filter((table) => {
    const name = STACKED.includes(table.sort) ? free.find((candidate) => !fields.has(candidate)) : undefined;
    if (name !== undefined) fields.set(name, table);
    return name === undefined;
  });
  return { fields, leftOut };
}
