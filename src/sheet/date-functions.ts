import type { CellValue } from "../workbook/model";
import { CellError, cellsOf, numberOf, type PlainArgument } from "./plain-functions";

/** Day numbers of 1970-01-01, and of 1900-03-01, before which Excel counts a day that never was. */
const EPOCH_1970 = 25_569;
const FIRST_REGULAR_DAY = 61;
const DAY = 86_400_000;
/** 9999-12-31, the last day that Excel has. */
export const LAST_DAY = 2_958_465;

/** The same day of another month, or its last day; undefined before 1900-03-01. */
export function movedMonths(start: number, months: number, to: "day" | "end"): number | undefined {
  if (start < FIRST_REGULAR_DAY) return undefined;
  const date = new Date((Math.floor(start) - EPOCH_1970) * DAY);
  const [year, month] = [date.getUTCFullYear(), date.getUTCMonth() + Math.trunc(months)];
  const last = new Date(Date.UTC(year, month + 1, 0));
  const day = to === "end" ? last.getUTCDate() : Math.min(date.getUTCDate(), last.getUTCDate());
  const result = Date.UTC(year, month, day) / DAY + EPOCH_1970;
  return result >= FIRST_REGULAR_DAY ? result : undefined;
}

/** ISO 8601: the week belongs to the year of its Thursday. */
export function isoWeek(date: number): number | undefined {
  if (date < FIRST_REGULAR_DAY) return undefined;
  const day = Math.floor(date);
  // Day 2 of Excel's count is a Monday.
  const thursday = day - ((day - 2) % 7) + 3;
  const year = new Date((thursday - EPOCH_1970) * DAY).getUTCFullYear();
  return Math.floor((thursday - (Date.UTC(year, 0, 1) / DAY + EPOCH_1970)) / 7) + 1;
}

/** Days without work by WORKDAY.INTL's number for a weekend, Monday first. */
const WEEKENDS: Readonly<Record<number, string>> = {
  1: "0000011",
  2: "1000001",
  3: "1100000",
  4: "0110000",
  5: "0011000",
  6: "0001100",
  7: "0000110",
  11: "0000001",
  12: "1000000",
  13: "0100000",
  14: "0010000",
  15: "0001000",
  16: "0000100",
  17: "0000010",
};

function weekendOf(value: CellValue): string {
  if (typeof value === "string") {
    if (!/^[01]{7}$/.test(value)) throw new CellError("#VALUE!");
    return value;
  }
  const days = WEEKENDS[value === null ? 1 : Math.trunc(numberOf(value))];
  if (days === undefined) throw new CellError("#NUM!");
  return days;
}

/** Whether a day is worked. */
function workedBy(
  weekend: PlainArgument | undefined,
  holidays: PlainArgument | undefined,
): (day: number) => boolean {
  const days = weekendOf(weekend === undefined ? null : (cellsOf(weekend)[0] ?? null));
  const free = new Set(
    (holidays === undefined ? [] : cellsOf(holidays))
      .filter((holiday) => holiday !== null)
      .map((holiday) => Math.floor(numberOf(holiday))),
  );
  // Day 2 of Excel's count is a Monday.
  return (day) => days[(((day - 2) % 7) + 7) % 7] === "0" && !free.has(day);
}

/** WORKDAY.INTL: the day that lies some working days after another. */
export function workday(
  start: PlainArgument = null,
  count: PlainArgument = null,
  weekend?: PlainArgument,
  holidays?: PlainArgument,
): CellValue {
  const days = weekend === undefined ? null : (cellsOf(weekend)[0] ?? null);
  if (days === "1111111") throw new CellError("#VALUE!");
  const isWorked = workedBy(weekend, holidays);
  let day = Math.floor(numberOf(cellsOf(start)[0]));
  let left = Math.trunc(numberOf(cellsOf(count)[0]));
  if (day < 0) throw new CellError("#NUM!");
  const step = Math.sign(left);
  while (left !== 0) {
    day += step;
    if (day < 1 || day > LAST_DAY) throw new CellError("#NUM!");
    if (isWorked(day)) left -= step;
  }
  return day;
}

/** NETWORKDAYS.INTL: the working days from one day to another, both counted. */
export function workdays(
  start: PlainArgument = null,
  end: PlainArgument = null,
  weekend?: PlainArgument,
  holidays?: PlainArgument,
): CellValue {
  const isWorked = workedBy(weekend, holidays);
  const [from, to] = [start, end].map((argument) => Math.floor(numberOf(cellsOf(argument)[0])));
  if (from === undefined || to === undefined || Math.min(from, to) < 0) throw new CellError("#NUM!");
  if (Math.max(from, to) > LAST_DAY) throw new CellError("#NUM!");
  let count = 0;
  for (let day = Math.min(from, to); day <= Math.max(from, to); day++) if (isWorked(day)) count++;
  return from <= to ? count : -count;
}
