/** Rows and columns of a worksheet; the last cell is XFD1048576. */
export const MAX_ROWS = 1_048_576;
export const MAX_COLUMNS = 16_384;
/** Characters that a cell can hold in Excel. */
export const MAX_TEXT = 32_767;

/** A zero-based rectangle, both ends included. */
export interface CellRange {
  readonly firstRow: number;
  readonly firstColumn: number;
  readonly lastRow: number;
  readonly lastColumn: number;
}

/** A cell's place on its sheet, counted from 0. */
export interface CellPosition {
  readonly row: number;
  readonly column: number;
}

/** Letters of a zero-based column: 0 is `A`, 16383 is `XFD`. */
export function columnLetters(column: number): string {
  return (LETTERS[column] ??= lettersOf(column));
}

/** The letters of columns that were asked for: a sheet asks for the same few again and again. */
const LETTERS: string[] = [];

function lettersOf(column: number): string {
  let letters = "";
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return letters;
}

/** Zero-based column of its letters, or undefined where they name no column of a sheet. */
export function columnIndex(letters: string): number | undefined {
  if (letters.length < 1 || letters.length > 3) return undefined;
  let count = 0;
  for (let i = 0; i < letters.length; i++) {
    const digit = (letters.charCodeAt(i) | 32) - 96;
    if (digit < 1 || digit > 26) return undefined;
    count = count * 26 + digit;
  }
  return count <= MAX_COLUMNS ? count - 1 : undefined;
}

/** Zero-based row of its number as text, or undefined where a sheet has no such row. */
export function rowIndex(digits: string): number | undefined {
  if (digits.length < 1 || digits.length > 7) return undefined;
  let number = 0;
  for (let i = 0; i < digits.length; i++) {
    const digit = digits.charCodeAt(i) - 48;
    if (digit < 0 || digit > 9) return undefined;
    number = number * 10 + digit;
  }
  return number >= 1 && number <= MAX_ROWS ? number - 1 : undefined;
}

/** Address of a cell, such as `B3`. */
export function cellAddress(row: number, column: number): string {
  return `${columnLetters(column)}${String(row + 1)}`;
}

/** Address of a rectangle: `B3` for a single cell, otherwise `B3:D9`. */
export function rangeAddress(range: CellRange): string {
  const first = cellAddress(range.firstRow, range.firstColumn);
  const last = cellAddress(range.lastRow, range.lastColumn);
  return first === last ? first : `${first}:${last}`;
}

/** Place of an address such as `B3` or `$B$3`; undefined where it is none. */
export function parseCell(address: string): CellPosition | undefined {
  let at = address.startsWith("$") ? 1 : 0;
  const letters = at;
  while (isLetter(address.charCodeAt(at))) at++;
  const column = columnIndex(address.slice(letters, at));
  if (address.charAt(at) === "$") at++;
  const row = rowIndex(address.slice(at));
  return column === undefined || row === undefined ? undefined : { row, column };
}

/** Rectangle of `B3`, `B3:D9`, `B:D` or `3:9`, dollars allowed; undefined where the text is none. */
export function parseRange(text: string): CellRange | undefined {
  const ends = text.split(":");
  const [from = "", to = from] = ends;
  if (ends.length > 2) return undefined;
  const first = parseCell(from);
  const last = parseCell(to);
  if (first !== undefined && last !== undefined) return rectangle(first, last);
  if (ends.length < 2) return undefined;
  const columns = [columnIndex(withoutDollar(from)), columnIndex(withoutDollar(to))] as const;
  if (columns[0] !== undefined && columns[1] !== undefined) {
    return rectangle({ row: 0, column: columns[0] }, { row: MAX_ROWS - 1, column: columns[1] });
  }
  const rows = [rowIndex(withoutDollar(from)), rowIndex(withoutDollar(to))] as const;
  if (rows[0] !== undefined && rows[1] !== undefined) {
    return rectangle({ row: rows[0], column: 0 }, { row: rows[1], column: MAX_COLUMNS - 1 });
  }
  return undefined;
}

/** Whether a cell lies in a rectangle. */
export function contains(range: CellRange, row: number, column: number): boolean {
  return (
    row >= range.firstRow && row <= range.lastRow && column >= range.firstColumn && column <= range.lastColumn
  );
}

/** A sheet name as a formula writes it, in quotes wherever Excel could need them. */
export function quoteSheet(name: string): string {
  const isPlain = /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(name);
  return isPlain && !readsLikeCell(name) ? name : `'${name.replaceAll("'", "''")}'`;
}

/** Cuts `'My sheet'!A1` into sheet name and rest; `sheet` is absent where the reference names none. */
export function splitSheet(reference: string): { readonly sheet?: string; readonly rest: string } {
  const quoted = /^'((?:[^']|'')+)'!/.exec(reference);
  if (quoted?.[1] !== undefined) {
    return { sheet: quoted[1].replaceAll("''", "'"), rest: reference.slice(quoted[0].length) };
  }
  const mark = reference.indexOf("!");
  return mark > 0
    ? { sheet: reference.slice(0, mark), rest: reference.slice(mark + 1) }
    : { rest: reference };
}

/** Why Excel would refuse a sheet name, or undefined where it would not. */
export function sheetNameFault(name: string): string | undefined {
  if (name.length < 1 || name.length > 31) return "must have 1 to 31 characters";
  if (/[\\/?*[\]:]/.test(name)) return "must not contain \\ / ? * [ ] or :";
  if (name.startsWith("'") || name.endsWith("'")) return "must not begin or end with an apostrophe";
  if (name.toLowerCase() === "history") return "is reserved by Excel";
  return undefined;
}

/** Why Excel would refuse the name of a table or range, or undefined where it would not. */
export function definedNameFault(name: string): string | undefined {
  if (!/^[\p{L}_\\][\p{L}\p{N}_.\\?]{0,254}$/u.test(name)) return "must have letters, digits, _ and . only";
  return readsLikeCell(name) ? "reads like a cell" : undefined;
}

/** Whether a word is an address in either of Excel's notations. */
function readsLikeCell(word: string): boolean {
  return parseCell(word) !== undefined || /^(?:r|c|r\d*c\d*)$/i.test(word);
}

function rectangle(a: CellPosition, b: CellPosition): CellRange {
  return {
    firstRow: Math.min(a.row, b.row),
    firstColumn: Math.min(a.column, b.column),
    lastRow: Math.max(a.row, b.row),
    lastColumn: Math.max(a.column, b.column),
  };
}

function withoutDollar(text: string): string {
  return text.startsWith("$") ? text.slice(1) : text;
}

function isLetter(code: number): boolean {
  const lower = code | 32;
  return lower >= 97 && lower <= 122;
}
