import { columnIndex, columnLetters, MAX_COLUMNS, MAX_ROWS, rowIndex } from "./address";
import { tokenize } from "./tokens";

/** One end of a reference; an absent axis belongs to a whole row or column. */
export interface ReferenceEnd {
  readonly column?: number | undefined;
  readonly isColumnFixed: boolean;
  readonly row?: number | undefined;
  readonly isRowFixed: boolean;
}

/** A formula cut at its cell references, so that it can be written out for other cells quickly. */
export type FormulaTemplate = readonly (string | readonly ReferenceEnd[])[];

/** Finds the references of a formula; those inside text, quoted names and square brackets are none. */
export function parseFormula(formula: string): FormulaTemplate {
  const template: (string | readonly ReferenceEnd[])[] = [];
  let copied = "";
  for (const { kind, text } of tokenize(formula)) {
    const ends = kind === "reference" ? text.split(":").map(referenceEnd) : [];
    // What names no cell of a sheet, such as XFE1, is a name.
    if (ends.length === 0 || !ends.every((end) => end !== undefined)) copied += text;
    else {
      template.push(copied, ends);
      copied = "";
    }
  }
  template.push(copied);
  return template;
}

/** The formula as it reads some rows and columns further on. A reference that would leave the sheet becomes `#REF!`. */
export function shiftFormula(template: FormulaTemplate, rows: number, columns: number): string {
  return template
    .map((piece) => (typeof piece === "string" ? piece : writeReference(piece, rows, columns)))
    .join("");
}

const END = /^(\$?)([A-Za-z]*)(\$?)([0-9]*)$/;

/** One end of a reference as a formula spells it, such as `$B3`; undefined where it names nothing of a sheet. */
export function referenceEnd(text: string): ReferenceEnd | undefined {
  const [, first = "", letters = "", second = "", digits = ""] = END.exec(text) ?? [];
  const column = letters === "" ? undefined : columnIndex(letters);
  const row = digits === "" ? undefined : rowIndex(digits);
  if ((letters !== "" && column === undefined) || (digits !== "" && row === undefined)) return undefined;
  return {
    column,
    isColumnFixed: letters !== "" && first === "$",
    row,
    isRowFixed: letters === "" ? first === "$" : second === "$",
  };
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
