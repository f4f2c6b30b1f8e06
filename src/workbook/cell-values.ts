import { storedError } from "./cell-markup";
import type { CellValue } from "./model";

const ERROR = /^#(?:[A-Z_]+[!?]|DIV\/0!|N\/A|GETTING_DATA)$/;

/** True where a value is an error's code. */
export function isErrorCode(value: unknown): value is string {
  return typeof value === "string" && ERROR.test(value);
}

/**
 * Relative difference up to which two numbers are the same: Excel shows and compares 15 digits, other programs write no
 * more, and the last of them may be rounded either way.
 */
const SAME_NUMBER = 1e-14;

/** Whether two numbers are the same to a spreadsheet. */
export function isSameNumber(a: number, b: number): boolean {
  return Math.abs(a - b) <= SAME_NUMBER * Math.max(Math.abs(a), Math.abs(b));
}

/** Whether two cells hold the same as far as a file can tell: newer errors are stored as `#VALUE!`. */
export function isSameValue(a: CellValue, b: CellValue): boolean {
  if (typeof a === "number" && typeof b === "number") return isSameNumber(a, b);
  if (a !== null && b !== null && typeof a === "object" && typeof b === "object") {
    return storedError(a.error) === storedError(b.error);
  }
  return a === b;
}
