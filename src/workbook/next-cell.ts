import { type CellRange, rangeAddress } from "../formula/address";
import { storedError } from "./cell-markup";
import type { CellChange, CellFormula, CellValue } from "./model";

/** What a cell is to hold. */
export interface NextCell {
  readonly value: CellValue;
  readonly formula?: CellFormula | undefined;
}

/** What a cell holds once its change is made. */
export function nextOf(current: NextCell | undefined, change: CellChange | undefined): NextCell {
  const old = current?.formula;
  let formula = change?.formula === undefined ? old : (change.formula ?? undefined);
  if (formula !== undefined && (formula.kind === "array" || formula.kind === "dynamic")) {
    const range = change?.range ?? formula.range;
    if (range !== undefined) formula = { ...formula, range };
  }
  return { value: change?.value === undefined ? (current?.value ?? null) : change.value, formula };
}

/** The ranges that a cell with this content fills: one, or none. */
export function filledBy({ formula }: NextCell): readonly CellRange[] {
  return formula?.range === undefined ? [] : [formula.range];
}

/** Whether a file holds both values alike. */
export function sameValue(a: CellValue, b: CellValue): boolean {
  if (typeof a === "object" && typeof b === "object" && a !== null && b !== null) {
    return storedError(a.error) === storedError(b.error);
  }
  return a === b;
}

/** Whether two formulas differ in no more than the range they fill. */
export function sameFormula(a: CellFormula | undefined, b: CellFormula | undefined): boolean {
  return a?.text === b?.text && a?.kind === b?.kind;
}

/** Whether two formulas fill the same range. */
export function sameRange(a: CellRange | undefined, b: CellRange | undefined): boolean {
  return a === b || (a !== undefined && b !== undefined && rangeAddress(a) === rangeAddress(b));
}
