import type { CellCondition } from "../workbook/conditions";

/** A bar behind a number: where it begins and ends, from 0 at the left of the cell to 1, and its colour. */
export interface CellBar {
  readonly from: number;
  readonly to: number;
  readonly color: string;
}

/** The condition that shows bars. */
export type BarCondition = Extract<CellCondition, { readonly color: string }>;

/** The colour of bars of negative numbers where the file says none. */
const NEGATIVE = "#ff0000";

/** The bar of a number between where the shortest and the longest one end. */
export function barOf(
  { bar, color, isFromZero, negativeColor = NEGATIVE }: BarCondition,
  low: number,
  high: number,
  value: number,
): CellBar {
  // Bars of Excel 2007 all begin at the left, leave a tenth at either end and know no axis.
  if (!isFromZero) return { from: 0, to: 0.1 + 0.8 * between(low, high, value), color };
  const first = bar[0].kind === "min" ? Math.min(0, low) : low;
  const last = bar[1].kind === "max" ? Math.max(0, high) : high;
  const [axis, end] = [between(first, last, 0), between(first, last, value)];
  return { from: Math.min(axis, end), to: Math.max(axis, end), color: value < 0 ? negativeColor : color };
}

/** The share of the way from one number to another, from 0 to 1. */
function between(low: number, high: number, value: number): number {
  return Math.max(0, Math.min(1, (value - low) / (high - low || 1)));
}
