import type { TermRowCells } from "../../core/event/term-cells";
import type { Job, Line, Sort } from "../../core/event/job";
import type { Problem } from "../../core/problem";
import { SORTS } from "../../core/event/job";
import { withNames } from "../../core/event/names";
import { cellsOfRow, rangeRows } from "../read-range";
import type { ScalarValue } from "../read-scalar";
import { searchSteps } from "../search-steps";
import { keptByKey } from "./kept";
import { linesOf, type BareUnits, type RangeLines } from "./lines";
import { filledRows, recognise, type Recognised, type Unknown } from "./recognise";

/** Ranges and jobs that are remembered: all papers of a job ask for the same ones. Source: ours. */
const MOST_RANGES = 32;
const MOST_JOBS = 8;

/** A range by its content: the same cells are the same object, so that what follows from them can be kept too. */
interface Range {
  readonly id: number;
  readonly table: Recognised | Unknown;
  readonly lines: (name: string, units: BareUnits) => RangeLines;
}

let ranges = 0;
const rangeOf = keptByKey<Range>(MOST_RANGES);
const jobOf = keptByKey<Job>(MOST_JOBS);

function read(range: unknown): Range | undefined {
  const { rows, count } = filledRows(range);
  if (count === 0) return undefined;
  return rangeOf(JSON.stringify([rows, count]), () => {
    const table = recognise(rows, count);
    const linesKept = keptByKey<RangeLines>(4);
    ranges += 1;
    return {
      id: ranges,
      table,
      lines: (name, units) =>
        linesKept([name, units.lengths, units.distances].join(), () =>
          "failure" in table ? { lines: [], notes: [] } : linesOf(table, name, units),
        ),
    };
  });
}

const isOneCell = (range: unknown): boolean => {
  const rows = rangeRows(range);
  return rows.length <= 1 && cellsOfRow(rows[0]).length <= 1;
};

interface Given {
  readonly range: Range;
  readonly table: Recognised;
  /** How sentences call it: its sort, with a number from the second one of a sort. */
  readonly name: string;
  /** Its place among the ranges of the call, from 1. */
  readonly place: number;
}

/**
 * Reads the tables of an event, in any order, each known by its header.
 *
 * @param args ranges as a worksheet sends them; blank ones are not given
 * @returns the job; the same object for the same content, as long as it is remembered
 */
export function readJob(args: readonly unknown[]): Job {
  const found = args.map((arg) => read(arg));
  const key = found.map((range, index) => (range ? range.id : isOneCell(args[index]) ? "" : "blank")).join();
  const mostSteps = searchSteps();
  return jobOf(`${String(mostSteps)} ${key}`, () => {
    const problems: Problem[] = [];
    const given: Given[] = [];
    const counts = new Map<Sort, number>();
    const places = new Map<Range, number>();
    for (const [index, range] of found.entries()) {
      const place = index + 1;
      const called = `table ${place}`;
      if (range === undefined) {
        if (!isOneCell(args[index])) problems.push(note("tables", `${called} is blank`));
        continue;
      }
      const { table } = range;
      const twin = places.get(range);
      places.set(range, twin ?? place);
      if (twin !== undefined) {
        const what = `${called} must be given once, found the same cells as table ${twin}`;
        problems.push({ ...failed("tables", what), todo: "leave one of them out", reach: { of: "job" } });
        continue;
      }
      if ("failure" in table) {
        problems.push(failed("tables", table.failure(called)));
        continue;
      }
      const count = (counts.get(table.sort) ?? 0) + 1;
      counts.set(table.sort, count);
      given.push({ range, table, name: count === 1 ? table.sort : `${table.sort} ${count}`, place });
    }
    return { ...jobFrom(given, problems), mostSteps };
  });
}

const note = (table: string, what: string): Problem => ({
  weight: "note",
  table,
  what,
  todo: "",
  reach: { of: "none" },
});

const failed = (table: string, what: string): Problem => ({
  weight: "stop",
  table,
  what,
  todo: "give the tables of the job, each with its headings",
  reach: { of: "tables" },
});

function jobFrom(given: readonly Given[], found: readonly Problem[]): Job {
  const units = bareUnits(given);
  const lines: Record<Sort, Line<Record<string, ScalarValue>>[]> = Object.fromEntries(
    SORTS.map((sort) => [sort, []]),
  ) as never;
  const problems = [...found];
  for (const { range, table, name, place } of given) {
    const { sort, unread, findings } = table;
    const reading = range.lines(name, units);
    lines[sort].push(...reading.lines);
    const rest = unread.length === 0 ? "" : `; not read: ${unread.join(", ")}`;
    problems.push(note(name, `table ${place} read as ${name}, ${rowsText(reading.lines.length)}${rest}`));
    problems.push(...reading.notes.map((what) => note(name, what)));
    for (const { what, ...finding } of findings) problems.push({ ...finding, table: name, what: what(name) });
  }
  // The reader of each sort has checked that its cells are of the kinds that the row types name.
  return withNames({
    ...lines,
    terms: termsOnce(lines.terms as unknown as readonly Line<TermRowCells>[]),
    given: new Set(given.map(({ table }) => table.sort)),
    problems,
  } as unknown as Job);
}

const rowsText = (count: number): string => (count === 1 ? "1 row" : `${count} rows`);

function bareUnits(given: readonly Given[]): BareUnits {
  const metric: BareUnits = { lengths: "m", distances: "km" };
  const terms = given
    .filter(({ table }) => table.sort === "terms")
    .flatMap(({ range, name }) => range.lines(name, metric).lines);
  const value = (term: string): ScalarValue | undefined =>
    terms.find(({ cells }) => cells["term"] === term)?.cells["value"];
  return {
    lengths: value("lengths") === "ft" ? "ft" : "m",
    distances: value("distances") === "mi" ? "mi" : "km",
  };
}

/** A term that stands twice with two values is a doubt about the second. */
function termsOnce(rows: readonly Line<TermRowCells>[]): readonly Line<TermRowCells>[] {
  const first = new Map<string, Line<TermRowCells>>();
  return rows.map((line) => {
    const { term, value } = line.cells;
    if (term === undefined || value === undefined) return line;
    const other = first.get(term);
    if (other === undefined) {
      first.set(term, line);
      return line;
    }
    if (other.cells.value === value) return line;
    const doubt = `${line.place}: ${term} must stand once, found another value in ${other.place}`;
    return { ...line, doubts: [...line.doubts, doubt] };
  });
}
