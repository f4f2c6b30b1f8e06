import type { CellValue } from "../workbook/model";
import type { Translation } from "./translation";
import type { CellOutcome, FormulaCell } from "./sheet-cells";
import { TRUSTED_FUNCTIONS } from "./trusted-functions";

/** Relative difference up to which two computations of one number count as the same; and how far from 0 is still 0. */
const SAME_RESULT = 1e-9;
const SAME_ZERO = 1e-9;
/** Functions whose results are not to be had twice, and what only places a reference. */
export const NOT_COMPARED = new Set(["NOW", "TODAY", "RAND", "RANDBETWEEN", "RANDARRAY", ":", "SINGLE"]);
/** These find cells that the text of a formula does not name. */
const MAKES_REFERENCES = new Set(["CHOOSE", "INDEX", "INDIRECT", "OFFSET", "VLOOKUP", "HLOOKUP"]);
/** Errors that sound functions and operators give for what they read. */
const OF_INPUTS = new Set(["#DIV/0!", "#N/A", "#NUM!", "#CALC!"]);

/** What a formula had before it, as far as the errors of its result are concerned. */
export interface Evidence {
  /** Whether a function of ours failed with this error. */
  readonly isOurs: (code: string) => boolean;
  /** Whether it reads a cell that passes a test. */
  readonly reads: (test: (value: CellValue) => boolean) => boolean;
}

/** Functions of a formula that are not known to agree with what Excel stores. */
export function untrusted({ calls }: Pick<Translation, "calls">): readonly string[] {
  return [...calls].filter(
    (name) => !name.startsWith("BLN_") && !NOT_COMPARED.has(name) && !TRUSTED_FUNCTIONS.has(name),
  );
}

/**
 * Why a result may not take the place of what is stored; undefined where it may. A value that was stored may be old,
 * because an input changed without recalculation, or better than ours: the functions of the formula decide.
 */
export function objection(
  cell: Pick<FormulaCell, "stored">,
  translation: Pick<Translation, "calls" | "reads">,
  outcome: CellOutcome,
  evidence: Evidence,
): string | undefined {
  const { stored } = cell;
  // Nothing is stored, or what a program without these functions stores.
  if (stored.value === null || codeOf(stored.value) === "#NAME?") return undefined;
  const pairs = differences(stored, outcome);
  if (pairs.length === 0) return undefined;
  const unknown = untrusted(translation);
  if (unknown.length > 0) return `${unknown.join(", ")} may compute otherwise than Excel`;
  // A name of ours that is no function here may be one where the value comes from, also where IFERROR hides it.
  if (evidence.isOurs("#NAME?"))
    return outcome.sentences?.[0]?.sentence ?? "it calls a function that is not known here";
  const isExplained = ([before, now]: Pair): boolean => {
    const code = codeOf(now);
    return code === undefined || codeOf(before) !== undefined || isCaused(code, translation, evidence);
  };
  return pairs.every(isExplained) ? undefined : "no input explains the error";
}

type Pair = readonly [before: CellValue, now: CellValue];

/** Cells of two results that are not the same, also where one of them fills more cells. */
export function differences(stored: CellOutcome, outcome: CellOutcome): readonly Pair[] {
  const before = stored.table ?? [[stored.value]];
  const now = outcome.table ?? [[outcome.value]];
  const height = Math.max(before.length, now.length);
  const width = Math.max(before[0]?.length ?? 0, now[0]?.length ?? 0);
  const pairs: Pair[] = [];
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      const pair = [before[row]?.[column] ?? null, now[row]?.[column] ?? null] as const;
      if (!isSameResult(...pair)) pairs.push(pair);
    }
  }
  return pairs;
}

/** Whether two values are one result: numbers to nine digits, a blank like what it looks like. */
export function isSameResult(before: CellValue, now: CellValue): boolean {
  if (typeof before === "number" && typeof now === "number") {
    return (
      Math.abs(before - now) <= Math.max(SAME_ZERO, SAME_RESULT * Math.max(Math.abs(before), Math.abs(now)))
    );
  }
  if (before === null || now === null) return [null, 0, ""].includes((before ?? now) as null);
  const [code, other] = [codeOf(before), codeOf(now)];
  return code === undefined && other === undefined ? before === now : code === other;
}

function isCaused(
  code: string,
  { calls, reads }: Pick<Translation, "calls" | "reads">,
  { isOurs, reads: isRead }: Evidence,
): boolean {
  const makesReferences = [...calls].some((name) => MAKES_REFERENCES.has(name));
  if (isOurs(code) || code === "#SPILL!" || isRead((value) => codeOf(value) === code)) return true;
  if (reads.length === 0 && !makesReferences) return false;
  if (code === "#VALUE!") return makesReferences || isRead((value) => typeof value === "string");
  return code === "#REF!" ? makesReferences : OF_INPUTS.has(code);
}

/** The text of an error. */
export function codeOf(value: CellValue): string | undefined {
  return typeof value === "object" ? value?.error : undefined;
}

/** Whether a value that is no error may take the place of what is stored, as `objection` tells it for any result. */
export function mayStand({ stored, pattern }: FormulaCell, value: CellValue): boolean {
  if (stored.table !== undefined) return false;
  return pattern?.isTrusted === true || isSameResult(stored.value, value);
}
