import { type CellRange, MAX_COLUMNS, MAX_ROWS } from "../formula/address";
import type { FormulaContext } from "./translation";

/** Whether a range reaches the end of the sheet or has more cells than a person fills. */
export function isVast({ firstRow, firstColumn, lastRow, lastColumn }: CellRange): boolean {
  const cells = (lastRow - firstRow + 1) * (lastColumn - firstColumn + 1);
  return lastRow === MAX_ROWS - 1 || lastColumn === MAX_COLUMNS - 1 || cells > 2 ** 20;
}

/** These must see whole columns and not only the part in use. */
const COUNTS_CELLS = new Set(["ROW", "COLUMN", "COUNTBLANK", "AREAS"]);

/** Whether a function asks for cells of a range that are not in use. */
export function mustSeeAll(range: CellRange, called = ""): boolean {
  return COUNTS_CELLS.has(called) && isVast(range);
}

/**
 * The part of a range that lies within the cells in use. What lies beyond is blank: without it, whole columns cost no more
 * than their content.
 */
export function usedPart(
  range: CellRange,
  { lastRow, lastColumn }: Pick<FormulaContext, "lastRow" | "lastColumn">,
): CellRange {
  return {
    ...range,
    lastRow: Math.min(range.lastRow, Math.max(range.firstRow, lastRow)),
    lastColumn: Math.min(range.lastColumn, Math.max(range.firstColumn, lastColumn)),
  };
}
