import type { CellRange } from "../formula/address";

/** The smallest range that holds both. */
export function widenRange(a: CellRange, b: CellRange): CellRange {
  return {
    firstRow: Math.min(a.firstRow, b.firstRow),
    firstColumn: Math.min(a.firstColumn, b.firstColumn),
    lastRow: Math.max(a.lastRow, b.lastRow),
    lastColumn: Math.max(a.lastColumn, b.lastColumn),
  };
}

/** Spans such as `1:13` that also hold some columns; undefined where they stay as they are. */
export function widenSpans(spans: string | undefined, first: number, last: number): string | undefined {
  const bounds = spans?.match(/\d+/g)?.map(Number);
  if (bounds === undefined || bounds.length === 0) return undefined;
  const wide = `${String(Math.min(...bounds, first + 1))}:${String(Math.max(...bounds, last + 1))}`;
  const isWithin = first + 1 >= Math.min(...bounds) && last + 1 <= Math.max(...bounds);
  return isWithin ? undefined : wide;
}
