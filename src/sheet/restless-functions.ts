import { RANGE_OPERATOR } from "./translation";

/** Results that change although nothing they read does. */
export const CHANGING = new Set(["NOW", "TODAY", "RAND", "RANDBETWEEN", "RANDARRAY"]);
/** Formulas that read other cells than their text says. */
export const WANDERING = new Set(["OFFSET", "INDIRECT", "CELL", "INFO", RANGE_OPERATOR]);

/** Whether one of some functions is among the calls of a formula. */
export function callsAny(calls: ReadonlySet<string>, names: ReadonlySet<string>): boolean {
  for (const name of calls) if (names.has(name)) return true;
  return false;
}
