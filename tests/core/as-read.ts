import type { Doubtful } from "../../src/core/stock/doubtful";
import { isWithheld, type Known } from "../../src/core/withheld";

/** Rows as the reader gives them where nothing is doubtful. */
export function asRead<Row extends { readonly row: number }>(
  rows: readonly Row[],
  table = "table",
): readonly Doubtful<Row>[] {
  return rows.map((value) => ({
    row: value.row,
    place: `${table} row ${value.row}`,
    cells: value,
    doubts: [],
    value,
  }));
}

/** A row of which only some cells could be read. */
export function doubtful<Row>(
  row: number,
  cells: Partial<Row>,
  doubt: string,
  table = "table",
): Doubtful<Row> {
  const place = `${table} row ${row}`;
  return { row, place, cells, doubts: [`${place}: ${doubt}`], value: undefined };
}

/** A number that must be known. */
export function known(value: Known | undefined): number {
  if (value === undefined || isWithheld(value)) throw new Error(`not known: ${JSON.stringify(value)}`);
  return value;
}
