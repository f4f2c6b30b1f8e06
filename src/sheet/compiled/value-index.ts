import type { CellValue } from "../../workbook/model";
import type { ColumnValues } from "../column-values";
import { isPattern } from "../wildcards";
import type { Area } from "./areas";
import { needsUniver } from "./signals";

type Key = number | string;

/** Where each value of a part of a column stands first, counted from its first row. */
interface ValueIndex {
  readonly first: ReadonlyMap<Key, number>;
  /** Whether it holds numbers only, in ascending order and without a gap. */
  readonly isAscending: boolean;
  /** What kinds of values it holds, by `typeof`. */
  readonly kinds: ReadonlySet<string>;
}

interface Indexes {
  readonly version: number;
  readonly byRows: Map<string, ValueIndex>;
}

const indexes = new WeakMap<ColumnValues, Indexes>();

/** The index of a column, kept as long as nothing in the column is taken away or replaced. */
function indexOf(area: Area): ValueIndex {
  const column = area.values.column(area.firstColumn);
  let kept = indexes.get(column);
  if (kept?.version !== column.version) {
    kept = { version: column.version, byRows: new Map() };
    indexes.set(column, kept);
  }
  const key = `${String(area.firstRow)}:${String(area.lastRow)}`;
  let index = kept.byRows.get(key);
  if (index === undefined) {
    index = made(area, column);
    kept.byRows.set(key, index);
  }
  return index;
}

function made(area: Area, { values }: ColumnValues): ValueIndex {
  const first = new Map<Key, number>();
  const kinds = new Set<string>();
  const end = Math.min(area.lastRow, values.length - 1);
  let last = -Infinity;
  let isAscending = true;
  for (let row = area.firstRow; row <= end; row++) {
    const value = area.settled(values[row]);
    const key = keyOf(value);
    kinds.add(typeof value);
    if (typeof value === "number" && value >= last) last = value;
    else isAscending = false;
    if (key !== undefined && !first.has(key)) first.set(key, row - area.firstRow);
  }
  return { first, isAscending, kinds };
}

/** Numbers match numbers, texts match texts in any case, logical values match each other. */
function keyOf(value: CellValue): Key | undefined {
  switch (typeof value) {
    case "number":
      return value;
    case "string":
      return `text:${value.toLowerCase()}`;
    case "boolean":
      return `logical:${String(value)}`;
    default:
      return undefined;
  }
}

/** The first cell of a single row or column that equals a value; undefined where none does. */
export function exactPosition(area: Area, wanted: CellValue): number | undefined {
  const key = keyOf(wanted);
  if (key === undefined || (typeof wanted === "string" && isPattern(wanted))) return needsUniver();
  if (area.width === 1) return indexOf(area).first.get(key);
  if (area.height > 1) return needsUniver();
  for (let column = 0; column < area.width; column++) {
    if (column + area.firstColumn >= area.values.columns.length) return undefined;
    if (keyOf(area.at(0, column)) === key) return column;
  }
  return undefined;
}

/** The last cell of a column of ascending numbers that is not above one; undefined where all are. */
export function lastUpTo(area: Area, wanted: CellValue): number | undefined {
  if (area.width > 1 || wanted === null) return needsUniver();
  const { isAscending, kinds } = indexOf(area);
  // Values of other kinds never match.
  if (!kinds.has(typeof wanted)) return undefined;
  if (typeof wanted !== "number" || !isAscending) return needsUniver();
  const { values } = area.values.column(area.firstColumn);
  let low = area.firstRow;
  let high = Math.min(area.lastRow, values.length - 1);
  while (low <= high) {
    const middle = (low + high) >> 1;
    if (Number(values[middle]) <= wanted) low = middle + 1;
    else high = middle - 1;
  }
  return high < area.firstRow ? undefined : high - area.firstRow;
}
