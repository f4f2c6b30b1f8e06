import { columnIndex, columnLetters, MAX_COLUMNS, MAX_ROWS, rowIndex } from "./address";

/** One end of a reference; an absent axis belongs to a whole row or column. */
interface ReferenceEnd {
  readonly column?: number | undefined;
  readonly isColumnFixed: boolean;
  readonly row?: number | undefined;
  readonly isRowFixed: boolean;
}

/** A formula cut at its cell references, so that it can be written out for other cells quickly. */
export type FormulaTemplate = readonly (string | readonly ReferenceEnd[])[];

// A name, a call or a sheet prefix begins where one of these follows.
const BEHIND = String.raw`(?![\p{L}\p{N}_.\\?(!:]|\$)`;
const BEHIND_CELL = String.raw`(?![\p{L}\p{N}_.\\?(!])`;
const CELL = new RegExp(String.raw`(\$?)([A-Za-z]{1,3})(\$?)([0-9]{1,7})${BEHIND_CELL}`, "uy");
const COLUMNS = new RegExp(String.raw`(\$?)([A-Za-z]{1,3}):(\$?)([A-Za-z]{1,3})${BEHIND}`, "uy");
const ROWS = new RegExp(String.raw`(\$?)([0-9]{1,7}):(\$?)([0-9]{1,7})${BEHIND}`, "uy");
// What is copied as it is: text, quoted sheet names, names and functions, numbers, error values.
const VERBATIM =
  /"(?:[^"]|"")*"|'(?:[^']|'')*'|[\p{L}_\\][\p{L}\p{N}_.\\?]*|[0-9]+(?:\.[0-9]*)?(?:[Ee][+-]?[0-9]+)?|#(?:N\/A|DIV\/0!|[A-Z_]+[!?]?)/uy;

/** Finds the references of a formula; those inside text, quoted names and square brackets are none. */
export function parseFormula(formula: string): FormulaTemplate {
  const template: (string | readonly ReferenceEnd[])[] = [];
  let copied = 0;
  let at = 0;
  while (at < formula.length) {
    const found = referenceAt(formula, at);
    if (found !== undefined) {
      template.push(formula.slice(copied, at), found.ends);
      at = copied = found.next;
    } else if (formula.charAt(at) === "[") {
      at = endOfBrackets(formula, at);
    } else {
      VERBATIM.lastIndex = at;
      at += VERBATIM.exec(formula)?.[0].length ?? 1;
    }
  }
  template.push(formula.slice(copied));
  return template;
}

/** The formula as it reads some rows and columns further on. A reference that would leave the sheet becomes `#REF!`. */
export function shiftFormula(template: FormulaTemplate, rows: number, columns: number): string {
  return template
    .map((piece) => (typeof piece === "string" ? piece : writeReference(piece, rows, columns)))
    .join("");
}

function referenceAt(
  formula: string,
  at: number,
): { readonly ends: readonly ReferenceEnd[]; readonly next: number } | undefined {
  const cell = matchAt(CELL, formula, at);
  if (cell !== undefined) {
    const column = columnIndex(cell.groups[1] ?? "");
    const row = rowIndex(cell.groups[3] ?? "");
    if (column === undefined || row === undefined) return undefined;
    const end = { column, isColumnFixed: cell.groups[0] === "$", row, isRowFixed: cell.groups[2] === "$" };
    return { ends: [end], next: cell.next };
  }
  const columns = matchAt(COLUMNS, formula, at);
  if (columns !== undefined) {
    const [a, first = "", b, last = ""] = columns.groups;
    const ends = [
      { column: columnIndex(first), isColumnFixed: a === "$", isRowFixed: false },
      { column: columnIndex(last), isColumnFixed: b === "$", isRowFixed: false },
    ];
    return ends.some((end) => end.column === undefined) ? undefined : { ends, next: columns.next };
  }
  const rows = matchAt(ROWS, formula, at);
  if (rows === undefined) return undefined;
  const [a, first = "", b, last = ""] = rows.groups;
  const ends = [
    { row: rowIndex(first), isRowFixed: a === "$", isColumnFixed: false },
    { row: rowIndex(last), isRowFixed: b === "$", isColumnFixed: false },
  ];
  return ends.some((end) => end.row === undefined) ? undefined : { ends, next: rows.next };
}

function matchAt(
  pattern: RegExp,
  formula: string,
  at: number,
): { readonly groups: readonly string[]; readonly next: number } | undefined {
  pattern.lastIndex = at;
  const match = pattern.exec(formula);
  return match === null ? undefined : { groups: match.slice(1), next: at + match[0].length };
}

function endOfBrackets(formula: string, start: number): number {
  let depth = 0;
  for (let at = start; at < formula.length; at++) {
    const character = formula.charAt(at);
    if (character === "'") at++;
    else if (character === "[") depth++;
    else if (character === "]" && --depth === 0) return at + 1;
  }
  return formula.length;
}

function writeReference(ends: readonly ReferenceEnd[], rows: number, columns: number): string {
  const written: string[] = [];
  for (const end of ends) {
    const column = end.column === undefined ? undefined : end.column + (end.isColumnFixed ? 0 : columns);
    const row = end.row === undefined ? undefined : end.row + (end.isRowFixed ? 0 : rows);
    if (!isWithin(column, MAX_COLUMNS) || !isWithin(row, MAX_ROWS)) return "#REF!";
    const letters = column === undefined ? "" : `${end.isColumnFixed ? "$" : ""}${columnLetters(column)}`;
    const number = row === undefined ? "" : `${end.isRowFixed ? "$" : ""}${String(row + 1)}`;
    written.push(letters + number);
  }
  return written.join(":");
}

function isWithin(index: number | undefined, count: number): boolean {
  return index === undefined || (index >= 0 && index < count);
}
