import type { SheetRange } from "../rectangles";

/** Ends a computation here: the formula, or this cell of it, is Univer's to compute. */
export class NeedsUniver extends Error {}

/** Thrown again and again: making an error costs more than most formulas. */
const NEEDS_UNIVER = new NeedsUniver("the formula is not computed here");

export function needsUniver(): never {
  throw NEEDS_UNIVER;
}

/** Ends a computation that needs other results first: those that are still pending in `range`. */
export class NeedsResults extends Error {
  range: SheetRange = { sheet: 0, firstRow: 0, firstColumn: 0, lastRow: 0, lastColumn: 0 };
}

const NEEDS_RESULTS = new NeedsResults("cells are not computed yet");

/** Names all that an area waits for at once: cell by cell, long ranges would be read again for each of them. */
export function needsResults(range: SheetRange): never {
  NEEDS_RESULTS.range = range;
  throw NEEDS_RESULTS;
}
