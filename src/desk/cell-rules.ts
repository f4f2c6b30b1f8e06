import { cellAddress, contains } from "../formula/address";
import { typedFormula } from "../formula/names";
import { parseFormula, shiftFormula } from "../formula/shift";
import type { CellCheck, Comparison } from "../workbook/cell-checks";
import type { GridValue } from "./grid-reading";

/** A choice of a list: what a person reads and what goes into the cell. */
export interface Choice {
  readonly text: string;
  readonly value: GridValue;
}

/** What a formula gives, rows of cells; undefined where it cannot be told. */
export type Evaluate = (formula: string) => readonly (readonly GridValue[])[] | undefined;

/** The check of a cell; the first one where there are several. */
export function checkAt(checks: readonly CellCheck[], row: number, column: number): CellCheck | undefined {
  return checks.find(({ ranges }) => ranges.some((range) => contains(range, row, column)));
}

/** A formula of a check as it reads for one of its cells: the file writes it for the first one. */
export function formulaFor(
  { ranges }: Pick<CellCheck, "ranges">,
  formula: string,
  row: number,
  column: number,
): string {
  const [first] = ranges;
  if (!first) return formula;
  return shiftFormula(parseFormula(formula), row - first.firstRow, column - first.firstColumn);
}

/** The formulas of a check as they read for a cell; those that are not there are left out. */
export function formulasOf(check: CellCheck, row: number, column: number): readonly string[] {
  return [check.formula1, check.formula2]
    .filter((formula) => formula !== "")
    .map((formula) => formulaFor(check, formula, row, column));
}

/** A constant of a check, such as `10` or `"air,helium"`; undefined for anything that has to be looked up. */
export function constantOf(formula: string): number | string | undefined {
  const quoted = /^"((?:[^"]|"")*)"$/.exec(formula)?.[1];
  if (quoted !== undefined) return quoted.replaceAll('""', '"');
  const number = formula === "" ? NaN : Number(formula);
  return Number.isFinite(number) ? number : undefined;
}

/** The choices of a list; undefined where they cannot be told. */
export function choicesOf(formula: string, evaluate: Evaluate): readonly Choice[] | undefined {
  const constant = constantOf(formula);
  if (constant !== undefined) {
    return String(constant)
      .split(",")
      .map((word) => word.trim())
      .filter((word) => word !== "")
      .map((text) => ({ text, value: Number.isFinite(Number(text)) ? Number(text) : text }));
  }
  return evaluate(formula)
    ?.flat()
    .filter((value) => value !== null && value !== "")
    .map((value) => ({ text: textOf(value), value }));
}

const COMPARE: Readonly<Record<Comparison, (value: number, a: number, b: number) => boolean>> = {
  between: (value, a, b) => value >= Math.min(a, b) && value <= Math.max(a, b),
  notBetween: (value, a, b) => value < Math.min(a, b) || value > Math.max(a, b),
  equal: (value, a) => value === a,
  notEqual: (value, a) => value !== a,
  lessThan: (value, a) => value < a,
  lessThanOrEqual: (value, a) => value <= a,
  greaterThan: (value, a) => value > a,
  greaterThanOrEqual: (value, a) => value >= a,
};
const LIMITS: Readonly<Record<Comparison, (a: string, b: string) => string>> = {
  between: (a, b) => `from ${a} to ${b}`,
  notBetween: (a, b) => `below ${a} or above ${b}`,
  equal: (a) => a,
  notEqual: (a) => `other than ${a}`,
  lessThan: (a) => `below ${a}`,
  lessThanOrEqual: (a) => `${a} or less`,
  greaterThan: (a) => `above ${a}`,
  greaterThanOrEqual: (a) => `${a} or more`,
};
const NOUNS = {
  whole: "a whole number ",
  decimal: "a number ",
  date: "a date ",
  time: "a time ",
  textLength: "a text whose length is ",
};
/** Longest list that a sentence names. */
const MOST_NAMED = 12;

/** Why a cell must not hold a value, as a sentence; undefined where it may, or where that cannot be told. */
export function checkFault(
  check: CellCheck,
  place: { readonly row: number; readonly column: number },
  value: GridValue,
  evaluate: Evaluate,
): string | undefined {
  if (value === null || value === "") return undefined;
  const { row, column } = place;
  const at = (formula: string): string => formulaFor(check, formula, row, column);
  const fault = (must: string): string =>
    check.fault === undefined
      ? `${cellAddress(row, column)} must be ${must}, found ${typeof value === "string" ? `"${value}"` : textOf(value)}`
      : `${cellAddress(row, column)}: ${check.fault}`;
  if (check.kind === "list") {
    const choices = choicesOf(at(check.formula1), evaluate);
    if (choices?.some((choice) => isAlike(choice, value)) !== false) return undefined;
    const names = choices.slice(0, MOST_NAMED).map(({ text }) => text);
    const list = choices.length > MOST_NAMED ? `${names.join(", ")} ...` : names.join(", ");
    return fault(choices.length === 0 ? "left empty: its list has no entries" : `one of ${list}`);
  }
  if (check.kind === "custom") {
    const formula = at(check.formula1);
    const given = evaluate(formula)?.[0]?.[0] ?? null;
    // Excel takes TRUE and every number but 0 for a yes, and nothing else.
    if (given === null || given === true || (typeof given === "number" && given !== 0)) return undefined;
    return fault(`such that =${typedFormula(formula)} holds`);
  }
  const [a, b = 0] = [check.formula1, check.formula2].map((formula) => numberOf(at(formula), evaluate));
  if (a === undefined) return undefined;
  const must = NOUNS[check.kind] + LIMITS[check.comparison](String(a), String(b));
  const measured = check.kind === "textLength" ? textOf(value).length : value;
  if (typeof measured !== "number") return fault(must);
  if (check.kind === "whole" && !Number.isInteger(measured)) return fault(must);
  return COMPARE[check.comparison](measured, a, b) ? undefined : fault(must);
}

function isAlike({ text, value }: Choice, found: GridValue): boolean {
  if (typeof value === "number" || typeof found === "number") return value === found;
  return text.toLowerCase() === textOf(found).trim().toLowerCase();
}

function numberOf(formula: string, evaluate: Evaluate): number | undefined {
  const constant = constantOf(formula) ?? (formula === "" ? undefined : evaluate(formula)?.[0]?.[0]);
  return typeof constant === "number" ? constant : undefined;
}

function textOf(value: GridValue): string {
  return typeof value === "boolean" ? (value ? "TRUE" : "FALSE") : String(value ?? "");
}
