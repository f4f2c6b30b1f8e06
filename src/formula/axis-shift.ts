import type { CellRange } from "./address";
import { MAX_COLUMNS, MAX_ROWS } from "./address";

export type Axis = "row" | "column";

/** Rows or columns of one sheet that come, go or change their place; all counted from 0. */
export type AxisShift =
  | { readonly kind: "insert"; readonly axis: Axis; readonly at: number; readonly count: number }
  | { readonly kind: "delete"; readonly axis: Axis; readonly at: number; readonly count: number }
  /** `to` is the row or column before which the block goes, counted before the move. */
  | {
      readonly kind: "move";
      readonly axis: Axis;
      readonly at: number;
      readonly count: number;
      readonly to: number;
    };

/** First and last index of a stretch of rows or columns. */
export type Span = readonly [first: number, last: number];

/** How many rows or columns a sheet has. */
export function lengthOf(axis: Axis): number {
  return axis === "row" ? MAX_ROWS : MAX_COLUMNS;
}

/** Where a row or column is after the shift; undefined for one that is deleted. */
export function movedIndex(shift: AxisShift, index: number): number | undefined {
  const { at, count } = shift;
  const isInBlock = index >= at && index < at + count;
  switch (shift.kind) {
    case "insert":
      return index < at ? index : index + count;
    case "delete":
      return isInBlock ? undefined : index < at ? index : index - count;
    case "move": {
      const { to } = shift;
      if (isInBlock) return index - at + (to <= at ? to : to - count);
      if (index >= to && index < at) return index + count;
      return index >= at + count && index < to ? index - count : index;
    }
  }
}

/**
 * Where a stretch of rows or columns is after the shift, as Excel moves a reference to it: it grows by what is inserted
 * inside, shrinks by what is deleted, and keeps what it held where a block moves. Undefined where nothing is left of it.
 * A stretch over the whole sheet stays as it is.
 */
export function movedSpan(shift: AxisShift, [first, last]: Span): Span | undefined {
  const end = lengthOf(shift.axis) - 1;
  if (first === 0 && last === end) return [first, last];
  const { at, count } = shift;
  switch (shift.kind) {
    case "insert": {
      const begin = first < at ? first : first + count;
      return begin > end ? undefined : [begin, Math.min(end, last < at ? last : last + count)];
    }
    case "delete": {
      const begin = first < at ? first : Math.max(at, first - count);
      const close = last < at ? last : Math.max(at - 1, last - count);
      return begin > close ? undefined : [begin, close];
    }
    case "move":
      return movedBlockSpan(shift, [first, last]);
  }
}

function movedBlockSpan(shift: AxisShift, [first, last]: Span): Span {
  const { at, count } = shift;
  const behind = at + count - 1;
  const image = (index: number): number => movedIndex(shift, index) ?? index;
  if (first >= at && last <= behind) return [image(first), image(last)];
  // Members that stay in their order, and the part of the block that belongs to the stretch.
  const ends = [
    ...(first < at ? [first, Math.min(last, at - 1)] : []),
    ...(last > behind ? [Math.max(first, behind + 1), last] : []),
  ].map(image);
  const moved: Span = [image(Math.max(first, at)), image(Math.min(last, behind))];
  const stayed: Span = [Math.min(...ends), Math.max(...ends)];
  if (last < at || first > behind) return stayed;
  const both: Span = [Math.min(stayed[0], moved[0]), Math.max(stayed[1], moved[1])];
  return both[1] - both[0] === last - first ? both : stayed;
}

/** Where a rectangle is after the shift; undefined where nothing is left of it. */
export function movedRange(shift: AxisShift, range: CellRange): CellRange | undefined {
  if (shift.axis === "row") {
    const rows = movedSpan(shift, [range.firstRow, range.lastRow]);
    return rows && { ...range, firstRow: rows[0], lastRow: rows[1] };
  }
  const columns = movedSpan(shift, [range.firstColumn, range.lastColumn]);
  return columns && { ...range, firstColumn: columns[0], lastColumn: columns[1] };
}
