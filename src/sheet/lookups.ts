import type { CellValue } from "../workbook/model";
import { CellError } from "./plain-functions";
import { isPattern, wildcardTest } from "./wildcards";

/** How XLOOKUP and XMATCH find a value: exactly, else the next smaller or larger, by wildcards, by a regular expression. */
export const MATCH = { exact: 0, smaller: -1, larger: 1, wildcards: 2, expression: 3 } as const;
/** The order in which they look; `binary` trusts the list to be sorted. */
export const SEARCH = { first: 1, last: -1, binary: 2, binaryDown: -2 } as const;

/** Order of two values as Excel sorts them; undefined where they are of different kinds, which never match. */
function orderOf(a: CellValue, b: CellValue): number | undefined {
  const [left, right] = [kindOf(a), kindOf(b)];
  if (left === undefined || left !== right) return undefined;
  const [x, y] = [folded(a), folded(b)];
  return x < y ? -1 : x > y ? 1 : 0;
}

function kindOf(value: CellValue): "number" | "string" | "boolean" | undefined {
  const kind = typeof value;
  return kind === "number" || kind === "string" || kind === "boolean" ? kind : undefined;
}

function folded(value: CellValue): number | string {
  return typeof value === "string" ? value.toLowerCase() : Number(value);
}

/** A test by the pattern of a text. Throws CellError for a pattern that cannot be read. */
export function expressionTest(pattern: string, flags = ""): (text: string) => boolean {
  const expression = expressionOf(pattern, flags);
  return (text) => expression.test(text);
}

/** A regular expression as Excel's functions take it. Throws CellError where it cannot be read. */
export function expressionOf(pattern: string, flags = ""): RegExp {
  try {
    return new RegExp(pattern, `u${flags}`);
  } catch {
    throw new CellError("#VALUE!");
  }
}

function testOf(value: CellValue, matchMode: number): (cell: CellValue) => boolean {
  const isText = typeof value === "string";
  if (matchMode === MATCH.wildcards && isText && isPattern(value)) {
    const matches = wildcardTest(value.toLowerCase());
    return (cell) => typeof cell === "string" && matches(cell.toLowerCase());
  }
  if (matchMode === MATCH.expression && isText) {
    const matches = expressionTest(value);
    return (cell) => typeof cell === "string" && matches(cell);
  }
  if (value === null) return (cell) => cell === null || cell === "";
  return (cell) => orderOf(cell, value) === 0;
}

/** The position of a value in a list; undefined where it is not there. Throws CellError for modes that do not exist. */
export function positionOf(
  value: CellValue,
  list: readonly CellValue[],
  matchMode: number,
  searchMode: number,
): number | undefined {
  const isKnown = [0, 1, -1, 2, 3].includes(matchMode) && [1, -1, 2, -2].includes(searchMode);
  const isBinary = Math.abs(searchMode) === SEARCH.binary;
  const isPatterned = matchMode === MATCH.wildcards || matchMode === MATCH.expression;
  if (!isKnown || (isBinary && isPatterned)) throw new CellError("#VALUE!");
  if (isBinary) return binaryPosition(value, list, matchMode, searchMode === SEARCH.binary ? 1 : -1);
  const test = testOf(value, matchMode);
  const exact = searchMode === SEARCH.first ? list.findIndex(test) : list.findLastIndex(test);
  if (exact >= 0) return exact;
  const side = matchMode === MATCH.smaller ? -1 : matchMode === MATCH.larger ? 1 : 0;
  return side === 0 ? undefined : nearest(value, list, side, searchMode === SEARCH.last);
}

/** The value that lies next to the one looked for on one side of it. */
function nearest(
  value: CellValue,
  list: readonly CellValue[],
  side: -1 | 1,
  takesLast: boolean,
): number | undefined {
  let best: number | undefined;
  for (const [at, cell] of list.entries()) {
    if (orderOf(cell, value) !== side) continue;
    const closer = best === undefined ? side : (orderOf(list[best] ?? null, cell) ?? 0);
    if (closer === side || (closer === 0 && takesLast)) best = at;
  }
  return best;
}

function binaryPosition(
  value: CellValue,
  list: readonly CellValue[],
  matchMode: number,
  direction: 1 | -1,
): number | undefined {
  let low = 0;
  let high = list.length - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const order = (orderOf(list[middle] ?? null, value) ?? 1) * direction;
    if (order === 0) return middle;
    if (order < 0) low = middle + 1;
    else high = middle - 1;
  }
  if (matchMode === MATCH.exact) return undefined;
  const wantsBefore = (matchMode === MATCH.smaller) === (direction === 1);
  const at = wantsBefore ? high : low;
  return at >= 0 && at < list.length ? at : undefined;
}
