import { MAX_TEXT } from "../../formula/address";
import type { CellValue } from "../../workbook/model";
import { decimalText } from "../decimal-text";
import { isPattern } from "../wildcards";
import { needsUniver } from "./signals";
import type { ErrorValue } from "./tree";

export const VALUE_ERROR: ErrorValue = { error: "#VALUE!" };
export const NO_VALUE: ErrorValue = { error: "#N/A" };
export const NO_CELL: ErrorValue = { error: "#REF!" };
export const NO_NUMBER: ErrorValue = { error: "#NUM!" };
export const BY_ZERO: ErrorValue = { error: "#DIV/0!" };

export function isError(value: unknown): value is ErrorValue {
  return typeof value === "object" && value !== null && "error" in value;
}

/** What a cell makes of a value that it cannot hold. */
export function storable(value: number | string | boolean): number | string | boolean | ErrorValue {
  if (typeof value === "string") return value.length > MAX_TEXT ? VALUE_ERROR : value;
  if (typeof value === "boolean") return value;
  return Number.isFinite(value) ? value || 0 : NO_NUMBER;
}

/** A number in digits. */
export const PLAIN_NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)$/;

/** The number that a value stands for in an operation. What is spelt in an unusual way is for Univer to read. */
export function operandNumber(value: CellValue): number | ErrorValue {
  switch (typeof value) {
    case "number":
      return value;
    case "boolean":
      return value ? 1 : 0;
    case "string":
      if (PLAIN_NUMBER.test(value) && value.length <= 15) return Number(value);
      return /\d/.test(value) || value.trim() === "" ? needsUniver() : VALUE_ERROR;
    default:
      return value ?? 0;
  }
}

/** The text that a value stands for beside an `&`. */
export function operandText(value: CellValue): string | ErrorValue {
  switch (typeof value) {
    case "string":
      return value;
    case "boolean":
      return value ? "TRUE" : "FALSE";
    case "number":
      return decimalText(value);
    default:
      return value ?? "";
  }
}

/** What a condition says: a text must spell TRUE or FALSE. */
export function truthOf(value: CellValue): boolean | ErrorValue {
  switch (typeof value) {
    case "boolean":
      return value;
    case "number":
      return value !== 0;
    case "string":
      if (/^true$/i.test(value)) return true;
      return /^false$/i.test(value) ? false : VALUE_ERROR;
    default:
      return value ?? false;
  }
}

const PLAIN_TEXT = /^[a-z0-9 ]*$/;

/** The order of two values that are no errors: numbers, then texts in any case, then logical values. */
export function orderOf(left: CellValue, right: CellValue): number {
  const a = left ?? blankBeside(right);
  const b = right ?? blankBeside(left);
  if (typeof a === "number" && typeof b === "number") return a - b;
  if (typeof a === "string" && typeof b === "string") return orderOfTexts(a.toLowerCase(), b.toLowerCase());
  const ranks = rankOf(a) - rankOf(b);
  return ranks === 0 ? Number(a) - Number(b) : ranks;
}

/** What a blank cell counts as beside a value. */
function blankBeside(value: CellValue): CellValue {
  if (typeof value === "string") return "";
  return typeof value === "boolean" ? false : 0;
}

function orderOfTexts(a: string, b: string): number {
  if (isPattern(a) || isPattern(b)) return needsUniver();
  if (a === b) return 0;
  if (!PLAIN_TEXT.test(a) || !PLAIN_TEXT.test(b)) return needsUniver();
  return a < b ? -1 : 1;
}

function rankOf(value: CellValue): number {
  return typeof value === "number" ? 0 : typeof value === "string" ? 1 : 2;
}
