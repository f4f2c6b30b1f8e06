import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isoWeek, LAST_DAY, movedMonths, workday, workdays } from "../../src/sheet/date-functions";

const DAY = 86_400_000;
/** Excel's number of a day, counted from 1899-12-30 as ECMA-376 part 1, 18.17.4.1 has it from March 1900 on. */
function serial(year: number, month: number, day: number): number {
  return Math.round((Date.UTC(year, month - 1, day) - Date.UTC(1899, 11, 30)) / DAY);
}
function dateOf(day: number): Date {
  return new Date(Date.UTC(1899, 11, 30) + day * DAY);
}
const day = fc.integer({ min: 61, max: serial(2999, 12, 31) });

describe("months", () => {
  // Microsoft's pages EDATE and EOMONTH.
  it.each([
    [serial(2011, 1, 15), 1, "day", serial(2011, 2, 15)],
    [serial(2011, 1, 15), -1, "day", serial(2010, 12, 15)],
    [serial(2011, 1, 15), 2, "day", serial(2011, 3, 15)],
    [serial(2011, 1, 1), 1, "end", serial(2011, 2, 28)],
    [serial(2011, 1, 1), -3, "end", serial(2010, 10, 31)],
    // The last day of a shorter month; parts of days and months are left out.
    [serial(2024, 1, 31), 1, "day", serial(2024, 2, 29)],
    [serial(2011, 1, 31) + 0.9, 1.9, "day", serial(2011, 2, 28)],
    [serial(2011, 3, 15), -1.9, "day", serial(2011, 2, 15)],
    [serial(2024, 2, 29), 12, "end", serial(2025, 2, 28)],
    [61, 0, "day", 61],
    [serial(1900, 4, 30), -1, "day", serial(1900, 3, 30)],
  ] as const)("%i and %i months to the %s: %i", (start, months, to, moved) => {
    expect(movedMonths(start, months, to)).toBe(moved);
  });

  it("are left to others around the day that never was", () => {
    expect(movedMonths(60, 1, "day")).toBeUndefined();
    expect(movedMonths(serial(1900, 3, 5), -1, "day")).toBeUndefined();
    expect(movedMonths(serial(1900, 3, 1), -1, "day")).toBeUndefined();
  });

  it("keep day and move month, or end it", () => {
    fc.assert(
      fc.property(day, fc.integer({ min: -300, max: 300 }), (start, months) => {
        fc.pre(start + months * 31 > 100);
        const [from, to] = [dateOf(start), dateOf(movedMonths(start, months, "day") ?? NaN)];
        const count = (date: Date): number => date.getUTCFullYear() * 12 + date.getUTCMonth();
        expect(count(to) - count(from)).toBe(months);
        const isLast = dateOf((movedMonths(start, months, "day") ?? NaN) + 1).getUTCDate() === 1;
        expect(to.getUTCDate() === from.getUTCDate() || (isLast && to.getUTCDate() < from.getUTCDate())).toBe(
          true,
        );
        const end = movedMonths(start, months, "end") ?? NaN;
        expect(count(dateOf(end)) - count(from)).toBe(months);
        expect(dateOf(end + 1).getUTCDate()).toBe(1);
      }),
    );
  });
});

describe("the week of ISO 8601", () => {
  // The standard's own rule: week 1 has the year's first Thursday, weeks begin on Monday.
  it.each([
    [2012, 3, 9, 10],
    [2021, 1, 3, 53],
    [2021, 1, 4, 1],
    [2022, 1, 1, 52],
    [2024, 12, 30, 1],
    [2026, 12, 31, 53],
    [2005, 1, 1, 53],
  ])("of %i-%i-%i is %i", (year, month, date, week) => {
    expect(isoWeek(serial(year, month, date))).toBe(week);
    expect(isoWeek(serial(year, month, date) + 0.99)).toBe(week);
  });

  it("counts the Thursdays of a year", () => {
    fc.assert(
      fc.property(day, (start) => {
        const date = dateOf(start);
        const thursday = dateOf(start - ((date.getUTCDay() + 6) % 7) + 3);
        let count = 0;
        for (
          let at = thursday;
          at.getUTCFullYear() === thursday.getUTCFullYear();
          at = new Date(+at - 7 * DAY)
        )
          count++;
        fc.pre(start > 70);
        expect(isoWeek(start)).toBe(count);
      }),
    );
    expect(isoWeek(60)).toBeUndefined();
    expect(isoWeek(61)).toBe(9);
  });
});

/** Days off by WORKDAY.INTL's numbers, as Microsoft's page lists them; 0 is Sunday. */
const DAYS_OFF: readonly (readonly [number | string, readonly number[]])[] = [
  [1, [6, 0]],
  [2, [0, 1]],
  [3, [1, 2]],
  [4, [2, 3]],
  [5, [3, 4]],
  [6, [4, 5]],
  [7, [5, 6]],
  [11, [0]],
  [12, [1]],
  [13, [2]],
  [14, [3]],
  [15, [4]],
  [16, [5]],
  [17, [6]],
  ["0000011", [6, 0]],
  ["1000001", [0, 1]],
  ["0010000", [3]],
  ["0000000", []],
];

describe("working days", () => {
  it.each(DAYS_OFF)("leave out what weekend %j says", (weekend, off) => {
    const start = serial(2026, 6, 15);
    const isWorked = (date: number): boolean => !off.includes(dateOf(date).getUTCDay());
    const ahead = Array.from({ length: 30 }, (_, at) => start + 1 + at).filter(isWorked);
    const back = Array.from({ length: 30 }, (_, at) => start - 1 - at).filter(isWorked);
    for (const count of [1, 2, 5, 9]) {
      expect(workday(start, count, weekend)).toBe(ahead[count - 1]);
      expect(workday(start, -count, weekend)).toBe(back[count - 1]);
    }
    const span = Array.from({ length: 20 }, (_, at) => start + at).filter(isWorked).length;
    expect(workdays(start, start + 19, weekend)).toBe(span);
    expect(workdays(start + 19, start, weekend)).toBe(-span);
  });

  // Microsoft's pages WORKDAY and NETWORKDAYS, with their holidays.
  it("leave out holidays", () => {
    const holidays = [[serial(2008, 11, 26)], [serial(2008, 12, 4) + 0.5], [serial(2009, 1, 21)], [null]];
    expect(workday(serial(2008, 10, 1), 151)).toBe(serial(2009, 4, 30));
    expect(workday(serial(2008, 10, 1), 151, 1, holidays)).toBe(serial(2009, 5, 5));
    const free = [[serial(2012, 11, 22), serial(2012, 12, 4), serial(2013, 1, 21)]];
    expect(workdays(serial(2012, 10, 1), serial(2013, 3, 1))).toBe(110);
    expect(workdays(serial(2012, 10, 1), serial(2013, 3, 1), null, free)).toBe(107);
    expect(workdays(serial(2012, 10, 1), serial(2013, 3, 1), [[1]], serial(2012, 11, 22))).toBe(109);
  });

  it("go nowhere by none, and take whole days", () => {
    const saturday = serial(2026, 6, 20);
    expect(workday(saturday + 0.7, 0)).toBe(saturday);
    expect(workday(saturday, 1.9)).toBe(saturday + 2);
    expect(workday(saturday, -1.9)).toBe(saturday - 1);
    expect(workdays(saturday, saturday)).toBe(0);
    expect(workdays(saturday + 2, saturday + 2)).toBe(1);
    expect(workday()).toBe(0);
  });

  it.each([
    ["#VALUE!", () => workday(40_000, 1, "1111111")],
    ["#VALUE!", () => workday(40_000, 1, "111")],
    ["#VALUE!", () => workday(40_000, 1, "x0000011")],
    ["#VALUE!", () => workdays(40_000, 40_001, "00000112")],
    ["#NUM!", () => workday(40_000, 1, 8)],
    ["#NUM!", () => workday(40_000, 1, 0)],
    ["#NUM!", () => workday(40_000, 1, 18)],
    ["#NUM!", () => workday(-1, 1)],
    ["#NUM!", () => workday(3, -3)],
    ["#NUM!", () => workday(LAST_DAY, 1)],
    ["#NUM!", () => workdays(-1, 5)],
    ["#NUM!", () => workdays(5, -1)],
    ["#NUM!", () => workdays(5, LAST_DAY + 1)],
    ["#VALUE!", () => workday("soon", 1)],
  ])("end with %s", (code, compute) => {
    expect(compute).toThrow(code);
  });

  it("reach the last day and day 1", () => {
    expect(workday(LAST_DAY - 1, 1)).toBe(LAST_DAY);
    expect(workday(4, -1, "0000000")).toBe(3);
    expect(workday(2, -1, "0000000")).toBe(1);
    expect(workdays(0, LAST_DAY, "0000000")).toBe(LAST_DAY + 1);
    expect(dateOf(LAST_DAY).toISOString().slice(0, 10)).toBe("9999-12-31");
    expect(workdays(LAST_DAY, LAST_DAY)).toBe(1);
  });
});
