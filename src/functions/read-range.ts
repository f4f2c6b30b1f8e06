import { CalcError, invalid } from "../core/calc-error";
import type { Doubtful } from "../core/stock/doubtful";
import { isTitled, located, readHeading, titlesOf, type Heading, type Located } from "./headings";
import { allowsZero, isNumeric, isOptional, type ListParam, type TableParam } from "./param";
import { holdsError, plainCell } from "./incoming";
import { readRow, totalText, type RowReading } from "./read-row";
import { isBlank, readScalar, type ScalarValue } from "./read-scalar";
import { comparable } from "./read-text";

/** One row of a table argument as core receives it, before typing. */
export type TableRow = Readonly<Record<string, ScalarValue | undefined>> & { readonly row: number };

/** Filled rows that one argument may have. */
export const MOST_ROWS = 20000;

/** The rows of a range, or of a single cell. They are not copied: a whole column has a million of them. */
export function rangeRows(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [[value]];
}

/** The cells of one of those rows; some hosts send a column as a flat list. */
export function cellsOfRow(row: unknown): readonly unknown[] {
  return Array.isArray(row) ? row : [row];
}

/** True for a row of nothing but blanks and, unless zeros count, zeros: some hosts send 0 for a blank cell of a range. */
export function isEmptyRow(row: readonly unknown[], zeroRowsCount: boolean): boolean {
  let column = 0;
  // The commonest blanks are told at once, since a table of whole columns has millions of them.
  for (; column < row.length; column += 1) {
    const cell = row[column];
    const isEmpty = cell === null || cell === "" || (cell === 0 && !zeroRowsCount) || isBlank(cell);
    if (!isEmpty) return false;
  }
  return true;
}

/** True where a list or table was left out; where zeros are values, a range of zeros is given. */
export function isNotGiven(param: ListParam | TableParam, value: unknown): boolean {
  const zerosCount = param.kind === "list" ? isZeroAllowed(param) : param.zeroRowsCount === true;
  return rangeRows(value).every((row) => isEmptyRow(cellsOfRow(row), zerosCount));
}

function tooMany(argument: string, rows: number): Error {
  return invalid(argument, `have at most ${MOST_ROWS} filled rows`, { written: String(rows) });
}

/** The cells of a list argument in order: down a column or along a row. */
export function listCells(
  param: ListParam,
  value: unknown,
): { readonly cells: readonly unknown[]; readonly isRow: boolean } {
  const rows = rangeRows(value);
  const first = cellsOfRow(rows[0]);
  const isLine = rows.length === 1;
  if (!isLine && rows.length > 0 && first.length > 1)
    throw invalid(param.name, "be one row or one column", value);
  const lines = isLine ? first : rows;
  const { length } = lines;
  const cellAt = (index: number): unknown => (isLine ? first[index] : cellsOfRow(rows[index])[0]);
  let filled = length;
  while (filled > 0 && isEmptyRow(cellsOfRow(lines[filled - 1]), false)) filled -= 1;
  // A closing 0 that was typed is a value; only a host's stand-in for a blank column end is dropped.
  if (isZeroAllowed(param) && length <= MOST_ROWS) {
    while (filled < length && cellAt(filled) === 0) filled += 1;
  }
  if (filled > MOST_ROWS) throw tooMany(param.name, filled);
  const cells = Array.from({ length: filled }, (_, index) => cellAt(index));
  return { cells, isRow: isLine && first.length > 1 };
}

/**
 * Reads a list argument. `partner` holds the cells of the list it is paired with: where both are blank the place is
 * skipped, where one is blank the sentence names the place.
 */
export function readList(
  param: ListParam,
  value: unknown,
  partner?: readonly unknown[],
): readonly ScalarValue[] {
  const { cells } = listCells(param, value);
  const values: ScalarValue[] = [];
  const length = Math.max(cells.length, partner?.length ?? 0);
  for (let index = 0; index < length; index += 1) {
    const cell = cells[index];
    const name = `${param.name} cell ${index + 1}`;
    if (isBlank(cell) || (cell === 0 && !isZeroAllowed(param))) {
      if (partner && !isBlank(partner[index]) && partner[index] !== 0) throw invalid(name, "be given", cell);
      if (!partner && param.blanks === "keep") values.push(0);
      continue;
    }
    if (partner && isBlank(partner[index])) {
      throw invalid(`${param.pairedWith ?? "its partner"} cell ${index + 1}`, "be given", partner[index]);
    }
    values.push(readScalar(name, param.of, cell));
  }
  if (values.length === 0 && param.optional !== true) throw invalid(param.name, "be given", undefined);
  return values;
}

function isZeroAllowed(param: ListParam): boolean {
  return isNumeric(param.of) ? allowsZero(param.of) : param.of.kind === "flag";
}

function byName(param: TableParam, headings: readonly Heading[]): readonly Located[] {
  const found: Located[] = [];
  for (const column of param.columns) {
    const titles = titlesOf(column);
    const indexes = headings.flatMap((heading, index) => (isTitled(heading, titles) ? [index] : []));
    const [index] = indexes;
    if (indexes.length > 1)
      throw invalid(param.name, `have one column "${column.name}"`, { written: `${indexes.length}` });
    if (index !== undefined) found.push(located(column, index, headings[index]));
  }
  return found;
}

const PLACEHOLDERS = new Set(["", "n/a", "na", "tbc", "tba", "none", "nil", "free", "unknown"]);

/** True for a row of words where numbers belong: a header in the user's own words. */
function looksLikeTitles(columns: readonly Located[], first: readonly unknown[]): boolean {
  const numeric = columns.filter(({ column }) => isNumeric(column));
  const isTitle = (cell: unknown): boolean =>
    typeof cell === "string" &&
    !/\d/.test(cell) &&
    /\p{L}{2}/u.test(cell) &&
    !PLACEHOLDERS.has(comparable(cell));
  const isChosen = ({ column, index }: Located): boolean =>
    column.kind === "choice" && column.options.map(comparable).includes(comparable(String(first[index])));
  return numeric.length > 0 && numeric.every(({ index }) => isTitle(first[index])) && !columns.some(isChosen);
}

function locate(
  param: TableParam,
  first: readonly unknown[],
  isOnlyRow: boolean,
): { readonly columns: readonly Located[]; readonly hasHeader: boolean } {
  const headings = first.map(readHeading);
  const required = param.columns.filter((column) => !isOptional(column));
  const named = byName(param, headings);
  const namedRequired = required.filter((column) => named.some((place) => place.column === column));
  const hasHeader = named.length >= Math.min(2, required.length) && named.length > 0;
  if (hasHeader) {
    const missing = required.find((column) => !namedRequired.includes(column));
    if (missing) {
      const written = headings
        .map((heading) => heading.text)
        .filter((text) => text !== "")
        .join(", ");
      throw invalid(param.name, `have a column "${missing.name}"`, { written: `columns ${written}` });
    }
    return { columns: named, hasHeader };
  }
  const width = first.length;
  if (width < required.length || width > param.columns.length) {
    const most = param.columns.length;
    const expected = required.length === most ? `${most}` : `${required.length} to ${most}`;
    const names = param.columns.map((column) => column.name).join(", ");
    throw invalid(param.name, `have ${expected} columns (${names}) or a header row with these names`, {
      written: `${width}`,
    });
  }
  const columns = param.columns
    .slice(0, width)
    .map((column, index) => located(column, index, headings[index]));
  const ownTitles = !isOnlyRow && looksLikeTitles(columns, first);
  return ownTitles
    ? { columns, hasHeader: true }
    : { columns: columns.map(({ column, index }) => ({ column, index })), hasHeader: false };
}

/** A row as core takes it: cells with defaults where they are blank. */
function completed(param: TableParam, row: number, cells: RowReading["cells"], place: string): TableRow {
  const values: Record<string, ScalarValue | undefined> = { row };
  for (const column of param.columns) {
    const { name, default: fallback } = column;
    values[name] =
      cells[name] ?? (fallback === undefined ? undefined : readScalar(`${place}: ${name}`, column, fallback));
  }
  return values as TableRow;
}

const hasDigit = (cell: unknown): boolean =>
  typeof cell === "number" ? cell !== 0 : typeof cell === "string" && /\d/.test(cell);

/** A row without any number, or with nothing but one text: the title of what follows. */
export function isSectionTitle(cells: readonly unknown[]): boolean {
  const filled = cells.map(plainCell).filter((cell) => !isBlank(cell) && cell !== 0);
  if (filled.some(holdsError)) return false;
  return !filled.some(hasDigit) || (filled.length === 1 && typeof filled[0] === "string");
}

/** Reads a table argument: finds its header, skips empty rows, reads every cell of every row as its column's kind. */
function readRows(param: TableParam, value: unknown): readonly Doubtful<TableRow>[] {
  const filled: { readonly row: readonly unknown[]; readonly number: number }[] = [];
  let count = 0;
  const rowCells = rangeRows(value);
  for (let index = 0; index < rowCells.length; index += 1) {
    const row = cellsOfRow(rowCells[index]);
    if (isEmptyRow(row, param.zeroRowsCount === true)) continue;
    count += 1;
    if (count <= MOST_ROWS) filled.push({ row, number: index + 1 });
  }
  if (count > MOST_ROWS) throw tooMany(param.name, count);
  const [first] = filled;
  if (first === undefined) throw invalid(param.name, "be given", undefined);
  const { columns, hasHeader } = locate(param, first.row, filled.length === 1);
  const rows = hasHeader ? filled.slice(1) : filled;
  if (rows.length === 0) throw invalid(param.name, "have at least one row below its header", undefined);
  return rows.flatMap(({ row, number }): readonly Doubtful<TableRow>[] => {
    const place = `${param.name} row ${number}`;
    const total = totalText(row);
    const isTitle = param.hasTitles === true && isSectionTitle(row);
    if (param.doubtful === true && (total !== undefined || isTitle)) return [];
    const { cells, doubts } = readRow(place, param.columns, columns, row);
    const all = total === undefined ? doubts : [totalRow(place, total)];
    const whole = all.length === 0 ? completed(param, number, cells, place) : undefined;
    return [
      {
        row: number,
        place,
        cells: { ...cells, row: number } as Partial<TableRow>,
        doubts: all,
        value: whole,
      },
    ];
  });
}

function totalRow(place: string, text: string): string {
  return invalid(place, "be an item", { written: `a total row (${text})` }, "leave totals out of the range")
    .message;
}

/** Sentences that are said at once; a longer text is no help. */
const MOST_SENTENCES = 5;

/** Reads a table argument; `doubtful` ones with what could not be read, others only where every row can be. */
export function readTable(
  param: TableParam,
  value: unknown,
): readonly TableRow[] | readonly Doubtful<TableRow>[] {
  const rows = readRows(param, value);
  if (param.doubtful === true) return rows;
  const doubts = rows.flatMap((row) => row.doubts);
  if (doubts.length === 0) return rows.flatMap((row) => row.value ?? []);
  const more = doubts.length - MOST_SENTENCES;
  const said = doubts.slice(0, MOST_SENTENCES).join("; ");
  throw new CalcError("#VALUE!", more > 0 ? `${said}; and ${more} more` : said);
}
