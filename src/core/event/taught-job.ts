import type { PieceCells, WorkCells } from "./cells";
import type { Job, Line } from "./job";
import { KINDS } from "./kinds";
import { lessonsOf, othersOnly, type Lesson } from "./learning";
import { nameKey } from "../palette/names";
import { resolvedTerms, requiredTerm, type LearnedTerms } from "./terms";
import { workOf, workTable } from "./work-table";

/** A job with what past jobs teach filled in wherever its tables say nothing. */
export interface TaughtJob {
  readonly job: Job;
  readonly terms: LearnedTerms;
}

/**
 * Fills in what past jobs teach: typed beats learned, learned beats the trade default. Without past jobs the job stays as it
 * is.
 *
 * @param job the tables
 * @returns pieces with learned spacing and packing, work with learned minutes, terms with learned breakage
 */
export function taughtJob(job: Job): TaughtJob {
  if (job.past_jobs.length === 0) return { job, terms: {} };
  const events = job.events.flatMap(({ cells }) => (cells.event === undefined ? [] : [cells.event]));
  const named = job.pieces.flatMap(({ cells }) => (cells.event === undefined ? [] : [cells.event]));
  const terms = resolvedTerms(job, events[0]);
  const lessons = lessonsOf(othersOnly(job.past_jobs, [...events, ...named]), terms, (term) =>
    requiredTerm(resolvedTerms({ ...job, terms: [], events: [] }), term),
  ).filter(({ jobs }) => jobs > 0);
  return {
    job: {
      ...job,
      pieces: job.pieces.map((line) => withFullness(line, lessons)),
      work: [...job.work, ...learnedWork(job, lessons)],
    },
    terms: Object.fromEntries(
      lessons
        .filter(({ table }) => table === "terms")
        .map(({ column, estimate, jobs }) => [column, { value: estimate, why: whyOf(jobs) }]),
    ),
  };
}

/** Where a learned number comes from, as papers say it. */
function whyOf(jobs: number): string {
  return `${jobs} past ${jobs === 1 ? "job" : "jobs"}`;
}

function withFullness(line: Line<PieceCells>, lessons: readonly Lesson[]): Line<PieceCells> {
  const { cells } = line;
  const lesson = lessons.find(({ measure, of }) => measure === "fullness" && of === cells.kind);
  if (lesson === undefined) return line;
  const column = lesson.column as "spacing" | "packing";
  return cells[column] === undefined ? { ...line, cells: { ...cells, [column]: lesson.estimate } } : line;
}

// What stands in the table of work wins, also where it speaks of a kind's style.
function learnedWork(job: Job, lessons: readonly Lesson[]): readonly Line<WorkCells>[] {
  const typed = workTable(job);
  return lessons.flatMap(({ table, of, column, estimate }, index): readonly Line<WorkCells>[] => {
    if (table !== "work") return [];
    const name = column as "minutes per balloon" | "minutes per piece";
    const kind = Object.entries(KINDS).find(([candidate]) => candidate === of);
    const style = kind?.[1].style;
    const isTyped =
      typed.get(nameKey(of))?.[name] !== undefined ||
      (style !== undefined && workOf(typed, { name: of, kind: of, style }, name) !== undefined);
    const place = `past jobs: ${of}`;
    return isTyped
      ? []
      : [{ place, row: job.work.length + index + 1, cells: { task: of, [name]: estimate }, doubts: [] }];
  });
}
