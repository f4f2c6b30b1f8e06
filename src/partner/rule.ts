import type { CellRange } from "../formula/address";
import { healedTypedFormula } from "../formula/heal";
import { typedFormula, withSigns } from "../formula/names";
import { oursTest } from "../formula/ours";
import { resolveReference } from "../formula/resolve";
import { cellKey, type Scope, type SheetArea, type SheetCell } from "../formula/scope";
import { tokenize } from "../formula/tokens";
import { storedError } from "../workbook/cell-markup";
import { isErrorCode, isSameNumber } from "../workbook/cell-values";
import { type KeptFormula, keptRange, type KeptValue } from "./kept-formulas";

/** A formula where it stands. */
export interface StandingFormula extends SheetCell {
  /** Without its equals sign, as typed or as a file keeps it. */
  readonly formula: string;
  /** As the file stores it, where the workbook is a file. */
  readonly stored?: string;
  readonly kind?: NonNullable<KeptFormula["kind"]>;
  /** What it fills, where that may be more than its own cell. */
  readonly range?: CellRange;
}

/** A workbook as the rule sees it: an open file, or a sheet in Excel. */
export interface Cells {
  readonly scope: Scope;
  readonly formulas: readonly StandingFormula[];
  /** Values in rows: an error is its code, blank is the empty text. */
  values(area: SheetArea): KeptFormula["values"];
  isProtected(sheet: string): boolean;
}

/** A cell that stays as it is, and why. */
export interface LeftCell extends SheetCell {
  readonly why: string;
}

/** What a copy or a putting back would do, before anything is done. */
export interface CopyPlan {
  readonly formulas: readonly KeptFormula[];
  readonly left: readonly LeftCell[];
}

/** Errors that say only that there is no result yet. */
const NO_RESULT_YET = new Set<KeptValue>(["#NAME?", "#BUSY!", "#GETTING_DATA"]);

/** What a partner copy turns into values, and what it leaves alone. */
export function planCopy(cells: Cells): CopyPlan {
  const formulas: KeptFormula[] = [];
  const left: LeftCell[] = [];
  for (const standing of goingFormulas(cells)) {
    const { sheet, row, column, formula, ...rest } = standing;
    const place = { sheet, row, column };
    const values = cells.values({ sheet, range: keptRange(standing) });
    const [first = ""] = values[0] ?? [];
    if (cells.isProtected(sheet)) left.push({ ...place, why: "its sheet is protected" });
    else if (NO_RESULT_YET.has(first)) {
      left.push({ ...place, why: `it shows ${String(first)}: repair or recalculate it first` });
    } else {
      formulas.push({ ...place, formula: `=${typedFormula(healedTypedFormula(formula))}`, ...rest, values });
    }
  }
  return { formulas, left };
}

/** Formulas that use ours, and those that take the spill of such a one: without its formula there is no spill to take. */
function goingFormulas({ scope, formulas }: Cells): readonly StandingFormula[] {
  const usesOurs = oursTest(scope);
  const going = new Set<string>();
  const takersOf = new Map<string, string[]>();
  for (const standing of formulas) {
    const key = cellKey(standing);
    if (usesOurs(healedTypedFormula(standing.formula), standing.sheet)) going.add(key);
    for (const spill of spillsTaken(standing, scope)) {
      const takers = takersOf.get(spill) ?? [];
      takers.push(key);
      takersOf.set(spill, takers);
    }
  }
  // A set gives what is added while it is walked, too.
  for (const key of going) for (const taker of takersOf.get(key) ?? []) going.add(taker);
  return formulas.filter((standing) => going.has(cellKey(standing)));
}

/** Keys of the cells whose whole spill a formula takes, such as `B3#`. */
function spillsTaken(standing: StandingFormula, scope: Scope): readonly string[] {
  const { formula } = standing;
  if (!formula.includes("#") && !/ANCHORARRAY/i.test(formula)) return [];
  const tokens = withSigns(tokenize(formula));
  return tokens.flatMap((token, at) => {
    if (token.kind !== "spill") return [];
    const sheet = tokens[at - 2]?.kind === "sheet" ? (tokens[at - 2]?.text ?? "") : "";
    const area = resolveReference(scope, sheet + (tokens[at - 1]?.text ?? ""), standing);
    return area === undefined
      ? []
      : [cellKey({ sheet: area.sheet, row: area.range.firstRow, column: area.range.firstColumn })];
  });
}

/** What stands in the cells of a kept formula now. */
export interface Standing {
  /** Formulas in these cells, without their equals signs. */
  readonly formulas: readonly string[];
  readonly values: KeptFormula["values"];
}

/** LibreOffice writes booleans and errors as formulas. */
const CONSTANT = /^(?:(?:true|false)(?:\(\))?|#[A-Z_/0]+[!?A]?)$/i;

/** Why a kept formula is not put back where its sheet can be written; undefined where it is. */
export function whyLeft(kept: KeptFormula, { formulas, values }: Standing): string | undefined {
  if (!formulas.every((formula) => CONSTANT.test(formula))) return "another formula stands there now";
  return isSameRows(kept.values, values) ? undefined : "it holds another value now, or rows have moved";
}

/** Whether cells hold the same, as far as any program that saved them in between can keep it. */
export function isSameRows(a: KeptFormula["values"], b: KeptFormula["values"]): boolean {
  return a.length === b.length && a.every((row, i) => row.every((cell, j) => isSameCell(cell, b[i]?.[j])));
}

/** Serials of 2000 to 2100, and a second: an .ods file keeps a date with its time to the second only. */
const MOMENTS = { first: 36526, last: 73050, within: 1 / 86400 } as const;

function isSameMoment(a: number, b: number): boolean {
  const { first, last, within } = MOMENTS;
  return a >= first && b >= first && a < last && b < last && Math.abs(a - b) < within;
}

function isSameCell(a: KeptValue, b: KeptValue | undefined): boolean {
  if (typeof a === "number" && typeof b === "number") return isSameNumber(a, b) || isSameMoment(a, b);
  return a === b || (isErrorCode(a) && isErrorCode(b) && storedError(a) === storedError(b));
}
