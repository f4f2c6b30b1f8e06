import { RANGE_OPERATOR, type Translation } from "./translation";

/** Results that change although nothing they read does. */
export const CHANGING = new Set(["NOW", "TODAY", "RAND", "RANDBETWEEN", "RANDARRAY"]);
/** Formulas that read other cells than their text says. */
export const WANDERING = new Set(["OFFSET", "INDIRECT", "CELL", "INFO", RANGE_OPERATOR]);

/** Whether a formula calls one of some functions. */
export function callsAny(translation: Translation | undefined, names: ReadonlySet<string>): boolean {
  if (translation === undefined) return false;
  for (const name of translation.calls) if (names.has(name)) return true;
  return false;
}
