import { format, isDateFormat } from "numfmt";
import type { CellValue } from "../workbook/model";

/** Days between day 0 of the two date systems of files. */
const DAYS_TO_1904 = 1_462;

/** A cell as its number format shows it. */
export function shownCell(value: CellValue, numberFormat: string, date1904 = false): string {
  if (value === null) return "";
  if (typeof value === "object") return value.error;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (typeof value === "string") return value;
  const shift = date1904 && isDateFormat(numberFormat) ? DAYS_TO_1904 : 0;
  return format(numberFormat, value + shift);
}
