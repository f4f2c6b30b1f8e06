const DAY_MS = 86400000;
// Day 0 of a spreadsheet's calendar.
const FIRST_DAY = Date.UTC(1899, 11, 30);

/** True for a date, whichever realm made it. */
export function isDate(value: unknown): value is Date {
  return Object.prototype.toString.call(value) === "[object Date]";
}

/**
 * The serial number of a date as a cell shows it. Local getters, not UTC: a duration arrives as a date of 1899, when many
 * zones were minutes off any hour of today.
 */
export function serialOf(date: Date): number {
  const wall = Date.UTC(
    date.getFullYear(),
    date.getMonth(),
    date.getDate(),
    date.getHours(),
    date.getMinutes(),
    date.getSeconds(),
    date.getMilliseconds(),
  );
  return (wall - FIRST_DAY) / DAY_MS;
}

// Serial numbers below are no days of events: cells with a time of day or a duration arrive as dates of the calendar's start.
const FIRST_EVENT_YEAR = 1905;

/** A date as the functions read it: a serial number, and for a time of day or a duration its clock, such as `2:30`. */
export function plainDate(date: Date): number | string {
  const serial = serialOf(date);
  if (serial < 0 || date.getFullYear() >= FIRST_EVENT_YEAR) return serial;
  const seconds = Math.round(serial * 86400);
  const two = (number: number): string => String(Math.floor(number)).padStart(2, "0");
  const clock = `${Math.floor(seconds / 3600)}:${two((seconds % 3600) / 60)}`;
  return seconds % 60 === 0 ? clock : `${clock}:${two(seconds % 60)}`;
}

/** The date that a cell shows for a serial number; whole seconds, since a cell rounds no further. */
export function dateOf(serial: number): Date {
  const wall = new Date(FIRST_DAY + Math.round(serial * 86400) * 1000);
  return new Date(
    wall.getUTCFullYear(),
    wall.getUTCMonth(),
    wall.getUTCDate(),
    wall.getUTCHours(),
    wall.getUTCMinutes(),
    wall.getUTCSeconds(),
  );
}
