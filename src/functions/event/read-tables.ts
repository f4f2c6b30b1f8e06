import type { Job, Sort } from "../../core/event/job";
import { palettes, pieces } from "../event-tables";
import { cellsOfRow, rangeRows } from "../read-range";
import { isBlank } from "../read-scalar";
import { readJob } from "./read-job";

/** Columns in order, for ranges without a header row. */
const IN_ORDER: Readonly<Partial<Record<Sort, readonly string[]>>> = {
  pieces: pieces.columns.map(({ name }) => name),
  palettes: palettes.columns.map(({ name }) => name),
};

/**
 * Reads tables that stand in places of their own. A range without a header row has its columns in order.
 *
 * @param ranges each with the sort that its place is for
 * @returns the job
 */
export function readTables(ranges: readonly (readonly [Sort, unknown])[]): Job {
  const job = readJob(ranges.map(([, range]) => range));
  const isHeadless = ranges.map(([sort, range]) => !job.given.has(sort) && isFilled(range));
  if (!isHeadless.includes(true)) return job;
  const headed = ranges.map(([sort, range], index) => {
    const header = IN_ORDER[sort];
    if (isHeadless[index] !== true || header === undefined) return range;
    const rows = rangeRows(range).map(cellsOfRow);
    const width = Math.max(...rows.map((row) => row.length));
    return [header.slice(0, width), ...rows];
  });
  const read = readJob(headed);
  // Where that does not help either, what is wrong is said of the range as it was typed.
  return ranges.every(([sort], index) => isHeadless[index] !== true || read.given.has(sort)) ? read : job;
}

const isFilled = (range: unknown): boolean =>
  rangeRows(range).some((row) => cellsOfRow(row).some((cell) => !isBlank(cell)));
