import { columnLetters } from "../../formula/address";
import type { FormulaTemplate, ReferenceEnd } from "../../formula/shift";

const COLON = 58;
const DOLLAR = 36;
const ZERO = 48;
const NINE = 57;

/** Whether a text is the formula of a template as it reads some rows further down: quicker than cutting it into tokens. */
export function isFilledDown(template: FormulaTemplate, text: string, rows: number): boolean {
  let at = 0;
  for (const piece of template) {
    if (typeof piece === "string") {
      if (!text.startsWith(piece, at)) return false;
      at += piece.length;
      continue;
    }
    for (const [index, end] of piece.entries()) {
      if (index > 0 && text.charCodeAt(at++) !== COLON) return false;
      at = behindEnd(end, text, at, rows);
      if (at < 0) return false;
    }
  }
  return at === text.length;
}

/** The position behind one end of a reference, if it stands there; -1 where it does not. */
function behindEnd(end: ReferenceEnd, text: string, start: number, rows: number): number {
  let at = start;
  if (end.column !== undefined) {
    if (end.isColumnFixed && text.charCodeAt(at++) !== DOLLAR) return -1;
    const letters = columnLetters(end.column);
    if (!text.startsWith(letters, at)) return -1;
    at += letters.length;
  }
  if (end.row === undefined) return at;
  if (end.isRowFixed && text.charCodeAt(at++) !== DOLLAR) return -1;
  const digits = at;
  let number = 0;
  for (let code = text.charCodeAt(at); code >= ZERO && code <= NINE; code = text.charCodeAt(++at)) {
    number = number * 10 + code - ZERO;
  }
  return at > digits && number === end.row + 1 + (end.isRowFixed ? 0 : rows) ? at : -1;
}
