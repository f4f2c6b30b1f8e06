import { CalcError } from "../calc-error";
import { UNITS } from "../units";
import { withheld, type Known } from "../withheld";
import type { Job } from "./job";
import type { Problem } from "../problem";
import { breakageOf, lessonsOf, type Lesson } from "./learning";
import { jobsWithoutPopped } from "./overlooked";
import { statusOf } from "./status";
import { requiredTerm, resolvedTerms } from "./terms";

/** A row of LEARN_PLAN. Minutes for pace and rigging, shares for breakage, ratios for fullness. */
export interface LearnPlanRow {
  readonly measure: string;
  readonly of: string;
  readonly jobs: Known;
  readonly default: Known;
  /** Empty without jobs. */
  readonly "own alone": Known | "";
  readonly estimate: Known;
  readonly low: Known;
  readonly high: Known;
  readonly "own weight": Known;
  readonly table: string;
  readonly column: string;
  readonly status: string;
}

/**
 * LEARN_PLAN: what the decorator's past jobs teach, and how sure that is.
 *
 * @param job with past jobs; its events do not keep any of them out here
 * @returns one row for each lesson, then one for each past job that cannot be read
 */
export function learnPlan(job: Job): readonly LearnPlanRow[] {
  const terms = resolvedTerms(job);
  const usual = resolvedTerms({ ...job, terms: [], events: [] });
  const doubtful = job.past_jobs.flatMap(({ doubts }) => (doubts.length === 0 ? [] : [doubts.join("; ")]));
  let lessons: readonly Lesson[] = [];
  const failures: string[] = [];
  try {
    lessons = lessonsOf(job.past_jobs, terms, (term) => requiredTerm(usual, term));
  } catch (error) {
    if (!(error instanceof CalcError)) throw error;
    failures.push(error.message);
  }
  const unsaid = (lesson: Lesson): readonly Problem[] =>
    lesson.measure === "breakage"
      ? jobsWithoutPopped(job.past_jobs.filter(({ cells }) => breakageOf(cells) === lesson.of))
      : [];
  return [
    ...lessons.map((lesson) => rowOf(lesson, unsaid(lesson))),
    ...[...failures, ...doubtful].map(gapRow),
  ];
}

function rowOf(lesson: Lesson, problems: readonly Problem[]): LearnPlanRow {
  const unit = lesson.table === "work" ? UNITS.min.si : 1;
  const { ownAlone, jobs, ownWeight } = lesson;
  const own = Math.round(ownWeight * 100);
  const count = `${jobs} ${jobs === 1 ? "job" : "jobs"}`;
  const sureness =
    jobs === 0 ? "no jobs yet, the trade default" : `${count}: ${own} % yours, ${100 - own} % trade default`;
  return {
    measure: lesson.measure,
    of: lesson.of,
    jobs,
    default: lesson.usual / unit,
    "own alone": ownAlone === undefined ? "" : ownAlone / unit,
    estimate: lesson.estimate / unit,
    low: lesson.low / unit,
    high: lesson.high / unit,
    "own weight": ownWeight,
    table: lesson.table,
    column: lesson.column,
    status: problems.length > 0 ? statusOf(problems) : `ok: ${sureness}`,
  };
}

function gapRow(sentence: string): LearnPlanRow {
  const gap = withheld(sentence);
  return {
    measure: "",
    of: "",
    jobs: gap,
    default: gap,
    "own alone": gap,
    estimate: gap,
    low: gap,
    high: gap,
    "own weight": gap,
    table: "past_jobs",
    column: "",
    status: `stop: ${sentence}`,
  };
}
