import { cellAddress, type CellRange } from "../formula/address";
import { mayFill } from "../formula/ours";
import { parseFormula, shiftFormula } from "../formula/shift";
import type { GridValue } from "./grid-reading";

/** Excel's order of kinds when sorting upwards: numbers, texts, FALSE and TRUE; blanks come last either way. */
function rankOf(value: GridValue): number {
  return typeof value === "number" ? 0 : typeof value === "string" ? 1 : 2;
}

/** Excel's order of two values, neither of them blank. */
export function compareValues(a: GridValue, b: GridValue): number {
  const rank = rankOf(a) - rankOf(b);
  if (rank !== 0) return rank;
  if (typeof a === "string" && typeof b === "string")
    return a.localeCompare(b, "en", { sensitivity: "base", numeric: false });
  return Number(a) - Number(b);
}

/** The order of rows by what one column holds, as positions of the rows before; equal rows keep their order. */
export function sortedOrder(keys: readonly GridValue[], isAscending: boolean): readonly number[] {
  const isBlank = (value: GridValue | undefined): boolean =>
    value === null || value === undefined || value === "";
  return keys
    .map((_, index) => index)
    .sort((a, b) => {
      const [x = null, y = null] = [keys[a], keys[b]];
      if (isBlank(x) || isBlank(y)) return Number(isBlank(x)) - Number(isBlank(y)) || a - b;
      return (isAscending ? compareValues(x, y) : compareValues(y, x)) || a - b;
    });
}

/** A cell to be sorted, with what it holds as typed. */
export interface SortedCell {
  readonly content: GridValue;
}

function formulaOf(content: GridValue): string | undefined {
  return typeof content === "string" && content.startsWith("=") ? content.slice(1) : undefined;
}

/** Whether a formula points at cells of other rows without fixing them by `$`: they would be others after sorting. */
function leavesItsRow(formula: string, row: number): boolean {
  return parseFormula(formula).some(
    (piece) =>
      typeof piece !== "string" &&
      piece.some((end) => end.row !== undefined && !end.isRowFixed && end.row !== row),
  );
}

/**
 * Why rows cannot be sorted, as a sentence: `rows` is what their cells hold as typed, `values` what they show, and
 * `range` where they stand. Undefined where they can.
 */
export function sortFault(
  rows: readonly (readonly SortedCell[])[],
  values: readonly (readonly GridValue[])[],
  range: CellRange,
): string | undefined {
  for (const [down, cells] of rows.entries()) {
    const row = range.firstRow + down;
    for (const [across, { content }] of cells.entries()) {
      const address = cellAddress(row, range.firstColumn + across);
      const formula = formulaOf(content);
      if (formula === undefined) {
        if (content === null && (values[down]?.[across] ?? null) !== null)
          return `${address} is filled by a formula in another cell: leave it out of what is sorted`;
      } else if (mayFill(formula)) {
        return `${address} holds a formula that fills other cells too: leave it out of what is sorted`;
      } else if (leavesItsRow(formula, row)) {
        return `${address} points at another row, which would be another one after sorting: fix it by $, as in $B$2`;
      }
    }
  }
  return undefined;
}

/** Rows in another order; the formulas' references within their row follow it. */
export function reordered<Cell extends SortedCell>(
  rows: readonly (readonly Cell[])[],
  order: readonly number[],
): readonly (readonly Cell[])[] {
  return order.map((from, to) =>
    (rows[from] ?? []).map((cell) => {
      const formula = formulaOf(cell.content);
      if (formula === undefined) return cell;
      return { ...cell, content: `=${shiftFormula(parseFormula(formula), to - from, 0)}` };
    }),
  );
}
