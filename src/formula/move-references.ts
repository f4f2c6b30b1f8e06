import { columnLetters, MAX_COLUMNS, MAX_ROWS, parseRange, quoteSheet, splitSheet } from "./address";
import { tokenize } from "./tokens";
import { type AxisShift, movedRange } from "./axis-shift";

/**
 * A formula after rows or columns of one sheet moved: references to that sheet follow, and those to what is deleted
 * become `#REF!`. `home` is the sheet that holds the formula. References over several sheets stay as they are, as in
 * Excel.
 */
export function moveReferences(formula: string, home: string, sheet: string, shift: AxisShift): string {
  let target: string | undefined = home;
  return tokenize(formula)
    .map(({ kind, text }) => {
      if (kind === "sheet") {
        target = splitSheet(text).sheet;
        return text;
      }
      const isThere = target?.toLowerCase() === sheet.toLowerCase();
      target = home;
      return kind === "reference" && isThere ? movedReference(text, shift) : text;
    })
    .join("");
}

function movedReference(text: string, shift: AxisShift): string {
  const range = parseRange(text);
  // What names no cell of a sheet, such as XFE1, is a name.
  if (range === undefined) return text;
  const moved = movedRange(shift, range);
  if (moved === undefined) return "#REF!";
  const isWholeColumn = range.firstRow === 0 && range.lastRow === MAX_ROWS - 1;
  const isWholeRow = range.firstColumn === 0 && range.lastColumn === MAX_COLUMNS - 1;
  const ends = text.split(":");
  const fixed = ends.map((end) => ({
    column: /^\$[A-Za-z]/.test(end),
    row: isWholeRow && !isWholeColumn ? end.startsWith("$") : /[A-Za-z]\$/.test(end),
  }));
  const written = [
    [moved.firstColumn, moved.firstRow],
    [moved.lastColumn, moved.lastRow],
  ].map(([column = 0, row = 0], index) => {
    const dollars = fixed[index] ?? fixed[0];
    const letters = `${dollars?.column === true ? "$" : ""}${columnLetters(column)}`;
    const number = `${dollars?.row === true ? "$" : ""}${String(row + 1)}`;
    const hasLetters = /[A-Za-z]/.test(text);
    const hasDigits = /[0-9]/.test(text);
    return (hasLetters ? letters : "") + (hasDigits ? number : "");
  });
  return ends.length === 1 ? (written[0] ?? text) : written.join(":");
}

/** A formula after a sheet got another name; references over several sheets follow at both ends. */
export function renameSheetIn(formula: string, from: string, to: string): string {
  const renamed = (name: string): string => (name.toLowerCase() === from.toLowerCase() ? to : name);
  return tokenize(formula)
    .map(({ kind, text }) => {
      if (kind !== "sheet") return text;
      const name = splitSheet(text).sheet ?? "";
      if (name.includes("[")) return text;
      const ends = name.split(":");
      const next = ends.map(renamed);
      if (next.every((end, index) => end === ends[index])) return text;
      const quoted = next.map(quoteSheet);
      const plain = quoted.every((end) => !end.startsWith("'"));
      return plain ? `${quoted.join(":")}!` : `'${next.map((end) => end.replaceAll("'", "''")).join(":")}'!`;
    })
    .join("");
}

/** A formula after a sheet was deleted: references to it become `#REF!`. */
export function dropSheetIn(formula: string, sheet: string): string {
  let isGone = false;
  return tokenize(formula)
    .map(({ kind, text }) => {
      if (kind === "sheet") {
        isGone = splitSheet(text).sheet?.toLowerCase() === sheet.toLowerCase();
        return isGone ? "" : text;
      }
      const wasGone = isGone;
      isGone = false;
      return wasGone ? "#REF!" : text;
    })
    .join("");
}
