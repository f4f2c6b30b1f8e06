import type { CellValue } from "../workbook/model";
import { CellError, cellsOf, isCells, numberOf, type PlainArgument } from "./plain-functions";
import { codeOf } from "./trust";

type Rows = readonly (readonly CellValue[])[];

/** Numbers, then texts, then logical values, then errors. */
function rankOf(value: CellValue): number {
  return { number: 0, string: 1, boolean: 2 }[typeof value as "number" | "string" | "boolean"] ?? 3;
}

/** The order in which Excel numbers its errors. */
const ERRORS = ["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"];

function orderOf(a: CellValue, b: CellValue): number {
  const ranks = rankOf(a) - rankOf(b);
  if (ranks !== 0) return ranks;
  if (typeof a === "string" && typeof b === "string")
    return a.localeCompare(b, "en", { sensitivity: "accent" });
  if (rankOf(a) < 3) return Number(a) - Number(b);
  return ERRORS.indexOf(codeOf(a) ?? "") - ERRORS.indexOf(codeOf(b) ?? "");
}

function transposed(rows: Rows): Rows {
  return (rows[0] ?? []).map((_, column) => rows.map((row) => row[column] ?? null));
}

/** SORT: rows, or columns, by one or more of their cells; blanks come last in both directions. */
export function sorted(
  array: PlainArgument = null,
  index: PlainArgument = null,
  order: PlainArgument = null,
  byColumn: PlainArgument = null,
): Rows {
  const isByColumn = numberOf(cellsOf(byColumn)[0]) !== 0;
  const given = isCells(array) ? array : [[array]];
  const rows = isByColumn ? transposed(given) : given;
  const keys = index === null ? [1] : cellsOf(index).map((value) => Math.trunc(numberOf(value)));
  const orders = order === null ? [1] : cellsOf(order).map((value) => Math.trunc(numberOf(value)));
  const width = rows[0]?.length ?? 0;
  const isOdd = keys.some((key) => key < 1 || key > width) || orders.some((value) => Math.abs(value) !== 1);
  if (isOdd || (orders.length > 1 && orders.length !== keys.length)) throw new CellError("#VALUE!");
  const compare = (a: readonly CellValue[], b: readonly CellValue[]): number => {
    for (const [at, key] of keys.entries()) {
      const [x, y] = [a[key - 1] ?? null, b[key - 1] ?? null];
      if (x === null && y === null) continue;
      if (x === null || y === null) return x === null ? 1 : -1;
      const found = orderOf(x, y) * (orders[at] ?? orders[0] ?? 1);
      if (found !== 0) return found;
    }
    return 0;
  };
  const result = [...rows].sort(compare);
  return isByColumn ? transposed(result) : result;
}

/** UNIQUE: rows, or columns, that differ, each once; or only those that are there once. */
export function unique(
  array: PlainArgument = null,
  byColumn: PlainArgument = null,
  onceOnly: PlainArgument = null,
): Rows {
  const isByColumn = numberOf(cellsOf(byColumn)[0]) !== 0;
  const given = isCells(array) ? array : [[array]];
  const rows = isByColumn ? transposed(given) : given;
  const groups = new Map<string, (readonly CellValue[])[]>();
  for (const row of rows) {
    const key = JSON.stringify(row.map((value) => (typeof value === "string" ? value.toLowerCase() : value)));
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  const isOnce = numberOf(cellsOf(onceOnly)[0]) !== 0;
  const found = [...groups.values()].flatMap(([row = [], ...more]) =>
    isOnce && more.length > 0 ? [] : [row],
  );
  if (found.length === 0) throw new CellError("#CALC!");
  return isByColumn ? transposed(found) : found;
}
