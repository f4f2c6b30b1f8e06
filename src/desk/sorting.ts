import type { GridValue } from "./grid-reading";

/** Excel's order of kinds when sorting upwards: numbers, texts, FALSE and TRUE; blanks come last either way. */
function rankOf(value: GridValue): number {
  return typeof value === "number" ? 0 : typeof value === "string" ? 1 : 2;
}

function compare(a: GridValue, b: GridValue): number {
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
      return (isAscending ? compare(x, y) : compare(y, x)) || a - b;
    });
}
