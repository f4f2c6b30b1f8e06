import type { CellValue } from "./model";

/** A field of a text file as a cell takes it. */
export interface FieldValue {
  readonly value: CellValue;
  readonly numberFormat?: string;
  /** Why the field stays text although it may be a number or a date. */
  readonly unclear?: string;
}

/** How a file writes decimals and dates; undefined where it does not show it, "mixed" where it shows both. */
export interface FieldStyle {
  readonly decimalMark: "," | "." | "mixed" | undefined;
  readonly dateOrder: "day first" | "month first" | "mixed" | undefined;
}

/** A number as its signs allow it to be read: with a decimal comma, with a decimal point, or the same by both. */
interface Reading {
  readonly comma?: number;
  readonly point?: number;
  readonly decimals: number;
}

const MOST_DIGITS = 15;
const CURRENCY = String.raw`\p{Sc}|EUR|USD|GBP|AUD|CAD|CHF|NZD|SEK|NOK|DKK|PLN`;
const AMOUNT = new RegExp(`^(?:(${CURRENCY}) ?)?(.*?)(?: ?(${CURRENCY}))?$`, "u");
const SPACED = /^\d{1,3}(?:[ \u00a0\u202f'’]\d{3})+(?=$|[.,])/;

function isGrouped(text: string, mark: string): boolean {
  const [head = "", ...tail] = text.split(mark);
  return /^[1-9]\d{0,2}$/.test(head) && tail.length > 0 && tail.every((group) => /^\d{3}$/.test(group));
}

/** Numbers that digits with points and commas can mean. Text that begins with 0 is none: it names an article, or a place. */
function readDigits(text: string): Reading | undefined {
  const digits = text.replace(SPACED, (groups) => groups.replace(/\D/g, ""));
  if (!/^[\d.,]*\d$/.test(digits) || /^0\d/.test(digits)) return undefined;
  if (digits.replace(/\D/g, "").length > MOST_DIGITS) return undefined;
  const last = Math.max(digits.lastIndexOf(","), digits.lastIndexOf("."));
  if (last < 0) return { comma: Number(digits), point: Number(digits), decimals: 0 };
  const mark = digits.charAt(last) === "," ? "comma" : "point";
  const other = mark === "comma" ? "point" : "comma";
  const [sign, otherSign] = mark === "comma" ? [",", "."] : [".", ","];
  const whole = digits.slice(0, last);
  const decimals = digits.length - last - 1;
  const groupsOnly = isGrouped(digits, sign) ? { [other]: Number(digits.replaceAll(sign, "")) } : {};
  if (whole.includes(sign)) return isGrouped(digits, sign) ? { ...groupsOnly, decimals: 0 } : undefined;
  if (whole.includes(otherSign) && !isGrouped(whole, otherSign)) return undefined;
  const value = Number(`${whole.replaceAll(otherSign, "")}.${digits.slice(last + 1)}`);
  return whole.includes(otherSign) ? { [mark]: value, decimals } : { ...groupsOnly, [mark]: value, decimals };
}

interface NumberField {
  readonly reading: Reading;
  /** Makes the number of its digits: minus, percent. */
  readonly turn: (value: number) => number;
  readonly format: (decimals: number) => string | undefined;
}

const places = (decimals: number): string => (decimals > 0 ? `.${"0".repeat(decimals)}` : "");

function readNumber(text: string): NumberField | undefined {
  const [, minus, rest = ""] = /^([-−])?(.*)$/s.exec(text) ?? [];
  const isPercent = rest.endsWith("%");
  const [, before, digits = "", after] = AMOUNT.exec(isPercent ? rest.slice(0, -1).trimEnd() : rest) ?? [];
  const [, innerMinus, bare = ""] = /^([-−])?(.*)$/s.exec(digits) ?? [];
  if ((minus !== undefined && innerMinus !== undefined) || (before !== undefined && after !== undefined))
    return undefined;
  const reading = readDigits(bare);
  if (reading === undefined) return undefined;
  const factor = minus === undefined && innerMinus === undefined ? 1 : -1;
  return {
    reading,
    turn: (value) => (isPercent ? Number(`${String(value * factor)}e-2`) : value === 0 ? 0 : value * factor),
    format: (decimals) => {
      if (isPercent) return `0${places(decimals)}%`;
      if (before !== undefined) return `"${before}"#,##0${places(decimals)}`;
      return after === undefined ? undefined : `#,##0${places(decimals)} "${after}"`;
    },
  };
}

/** Day 0 of the 1900 system as spreadsheets count from March 1900 on; earlier days stay text. */
const DAY_0 = Date.UTC(1899, 11, 30);
const FIRST_DAY = 61;
const DAY = 86_400_000;
const DATE =
  /^(?:(\d{4})-(\d{2})-(\d{2})|(\d{1,2})([./-])(\d{1,2})\5(\d{4}))(?:[ T](\d{1,2}):(\d{2})(?::(\d{2}))?)?$/;

function serial(year: number, month: number, day: number): number | undefined {
  const time = Date.UTC(year, month - 1, day);
  const isReal = new Date(time).getUTCMonth() === month - 1 && new Date(time).getUTCDate() === day;
  const days = (time - DAY_0) / DAY;
  return isReal && days >= FIRST_DAY ? days : undefined;
}

interface DateField {
  /** Days by the order that they are read in; both where the order does not show. */
  readonly dayFirst: number | undefined;
  readonly monthFirst: number | undefined;
  readonly time: number;
  readonly numberFormat: string;
}

function readDate(text: string): DateField | undefined {
  const match = DATE.exec(text);
  if (match === null) return undefined;
  const [, isoYear, isoMonth, isoDay, first, mark, second, year, hour, minute, seconds] = match;
  const [h, m, s] = [hour, minute, seconds].map((part) => Number(part ?? 0)) as [number, number, number];
  if (h > 23 || m > 59 || s > 59) return undefined;
  const time = (h * 3600 + m * 60 + s) / 86_400;
  const numberFormat = hour === undefined ? "yyyy-mm-dd" : "yyyy-mm-dd hh:mm";
  if (isoYear !== undefined) {
    const day = serial(Number(isoYear), Number(isoMonth), Number(isoDay));
    return { dayFirst: day, monthFirst: day, time, numberFormat };
  }
  const dayFirst = serial(Number(year), Number(second), Number(first));
  // Points stand in dates that begin with the day only.
  const monthFirst = mark === "." ? dayFirst : serial(Number(year), Number(first), Number(second));
  return { dayFirst, monthFirst, time, numberFormat };
}

/** Longer than any number or date with its signs. */
const LONGEST = 40;

function mayBeNumber(text: string): boolean {
  return text.length <= LONGEST && /\d/.test(text);
}

/** What all fields of a file together show of how it writes decimals and dates. */
export function fieldStyle(fields: Iterable<string>): FieldStyle {
  const seen = { comma: false, point: false, day: false, month: false };
  for (const field of fields) {
    const text = field.trim();
    if (!mayBeNumber(text)) continue;
    const reading = readNumber(text)?.reading;
    if (reading !== undefined) {
      seen.comma ||= reading.point === undefined;
      seen.point ||= reading.comma === undefined;
      continue;
    }
    const date = readDate(text);
    if (date === undefined) continue;
    seen.day ||= date.monthFirst === undefined && date.dayFirst !== undefined;
    seen.month ||= date.dayFirst === undefined && date.monthFirst !== undefined;
  }
  const one = <A, B>(a: boolean, b: boolean, first: A, second: B): A | B | "mixed" | undefined =>
    a && b ? "mixed" : a ? first : b ? second : undefined;
  return {
    decimalMark: one(seen.comma, seen.point, ",", "."),
    dateOrder: one(seen.day, seen.month, "day first", "month first"),
  };
}

function numberValue(text: string, { reading, turn, format }: NumberField, style: FieldStyle): FieldValue {
  const { comma, point, decimals } = reading;
  const isOnly = comma === undefined || point === undefined || comma === point;
  const isComma = isOnly ? comma !== undefined : style.decimalMark === ",";
  if (!isOnly && style.decimalMark !== "," && style.decimalMark !== ".") {
    return { value: text, unclear: "its mark may part thousands or decimals" };
  }
  const value = turn((isComma ? comma : point) ?? 0);
  const shown = Number.isInteger(isComma ? comma : point) && decimals === 3 ? 0 : decimals;
  const numberFormat = format(shown);
  return numberFormat === undefined ? { value } : { value, numberFormat };
}

function dateValue(text: string, date: DateField, { dateOrder }: FieldStyle): FieldValue {
  const { dayFirst, monthFirst, time, numberFormat } = date;
  const isOnly = dayFirst === undefined || monthFirst === undefined || dayFirst === monthFirst;
  const known = isOnly ? (dayFirst ?? monthFirst) : dateOrder === "day first" ? dayFirst : monthFirst;
  if (known === undefined) return { value: text };
  if (!isOnly && (dateOrder === undefined || dateOrder === "mixed")) {
    return { value: text, unclear: "its day and month may stand either way" };
  }
  return { value: known + time, numberFormat };
}

/** A field as a cell takes it. Nothing becomes a formula, and what can be read in two ways stays the text that it is. */
export function fieldValue(field: string, style: FieldStyle): FieldValue {
  const text = field.trim();
  if (text === "") return { value: field === "" ? null : field };
  if (text === "TRUE" || text === "FALSE") return { value: text === "TRUE" };
  if (!mayBeNumber(text)) return { value: field };
  const number = readNumber(text);
  if (number !== undefined) return numberValue(field, number, style);
  const date = readDate(text);
  return date === undefined ? { value: field } : dateValue(field, date, style);
}
