import { catalogue } from "../functions/catalogue";
import type { CatalogueFunction, Cell, Measure, PlainCell } from "../functions/define";
import { dateOf, isDate, serialOf } from "./dates";

/** A cell of a result as Google Sheets takes it. */
type SheetsCell = PlainCell | Date;

const byName = new Map(catalogue.map((fn) => [fn.name, fn]));

function received(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(received);
  return isDate(value) ? serialOf(value) : value;
}

function given(value: PlainCell, measure: Measure): SheetsCell {
  return measure === "datetime" && typeof value === "number" ? dateOf(value) : value;
}

// A table with an error in one of its cells cannot be given here, and a text in its place would be left out of sums
// without a word: the whole call fails instead.
function refuseGaps(rows: readonly (readonly Cell[])[]): void {
  const gaps = rows.flat().filter((cell) => typeof cell === "object");
  const [first] = gaps;
  if (first === undefined) return;
  const others = gaps.length === 1 ? "" : ` (and ${gaps.length - 1} more)`;
  throw new Error(`${first.error} ${first.sentence}${others}`);
}

function tableOf({ result }: CatalogueFunction, rows: readonly (readonly Cell[])[]): SheetsCell[][] {
  refuseGaps(rows);
  const measureOf = (column: number): Measure => {
    if (result.kind === "table") return result.columns[column]?.measure ?? "text";
    return result.measure;
  };
  return rows.map((row) => row.map((cell, column) => given(cell as PlainCell, measureOf(column))));
}

/**
 * Calls a function of the catalogue with what Google Sheets sends: bare values, ranges as rows, dates as `Date`, error cells
 * as their text. An error is thrown with its code in front, since its sentence is all that the cell's note shows.
 */
export function call(name: string, args: ArrayLike<unknown>): SheetsCell | SheetsCell[][] {
  const fn = byName.get(name);
  if (fn === undefined) throw new Error(`#NAME? this version has no function ${name}`);
  const outcome = fn.call(Array.from(args, received));
  if (outcome.kind === "error") throw new Error(`${outcome.code} ${outcome.sentence}`);
  if (outcome.kind === "table") return tableOf(fn, outcome.rows);
  return given(outcome.value, fn.result.kind === "table" ? "text" : fn.result.measure);
}
