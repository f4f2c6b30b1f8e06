import { catalogue } from "../functions/catalogue";
import type { CatalogueFunction, Cell, Measure, PlainCell } from "../functions/definition";
import { functionForRows } from "../functions/help/each";
import { dateOf, isDate, plainDate } from "./dates";

/** A cell of a result as Google Sheets takes it. */
type SheetsCell = PlainCell | Date;

const byName = new Map(catalogue.map((fn) => [fn.name, fn]));

function received(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(received);
  return isDate(value) ? plainDate(value) : value;
}

function given(value: PlainCell, measure: Measure): SheetsCell {
  return measure === "datetime" && typeof value === "number" ? dateOf(value) : value;
}

// A table with an error in one of its cells cannot be given here, and a text in its place would be left out of sums
// without a word: the whole call fails instead.
function refuseGaps({ result }: CatalogueFunction, rows: readonly (readonly Cell[])[]): void {
  const gaps = rows.flatMap((row, index) =>
    row.flatMap((cell) => (typeof cell === "object" ? [{ ...cell, row: index + 1 }] : [])),
  );
  const [first] = gaps;
  if (first === undefined) return;
  const place = result.kind === "list" ? `row ${first.row}: ` : "";
  const others = gaps.length === 1 ? "" : ` (and ${gaps.length - 1} more)`;
  throw new Error(`${first.error} ${place}${first.sentence}${others}`);
}

/** What the numbers of a result are; where another function is called for each row, it says so. */
function measureIn(fn: CatalogueFunction, args: readonly unknown[], column: number): Measure {
  const { result } = fn;
  if (result.kind === "table") return result.columns[column]?.measure ?? "text";
  const called = fn.name === "EACH" ? functionForRows(catalogue, args[0])?.result : undefined;
  return called?.kind === "value" ? called.measure : result.measure;
}

function tableOf(
  fn: CatalogueFunction,
  args: readonly unknown[],
  rows: readonly (readonly Cell[])[],
): SheetsCell[][] {
  refuseGaps(fn, rows);
  const measureOf = (column: number): Measure => measureIn(fn, args, column);
  return rows.map((row) => row.map((cell, column) => given(cell as PlainCell, measureOf(column))));
}

/**
 * Calls a function of the catalogue with what Google Sheets sends: bare values, ranges as rows, dates as `Date`, error cells
 * as their text. An error is thrown with its code in front, since its sentence is all that the cell's note shows.
 */
export function call(name: string, args: ArrayLike<unknown>): SheetsCell | SheetsCell[][] {
  const fn = byName.get(name);
  if (fn === undefined) throw new Error(`#NAME? this version has no function ${name}`);
  const taken = Array.from(args, received);
  const outcome = fn.call(taken);
  if (outcome.kind === "error") throw new Error(`${outcome.code} ${outcome.sentence}`);
  if (outcome.kind === "table") return tableOf(fn, taken, outcome.rows);
  return given(outcome.value, fn.result.kind === "table" ? "text" : fn.result.measure);
}
