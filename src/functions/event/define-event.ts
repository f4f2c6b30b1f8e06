import type { Job, Sort } from "../../core/event/job";
import { withheld } from "../../core/withheld";
import { define } from "../define";
import type { CatalogueFunction, Common, Computed, DrawnPiece, ResultSpec } from "../definition";
import { withheldRow } from "../result-rows";
import type { ArgumentsOf, Param, TableParam } from "../param";
import { readJob } from "./read-job";

const RANGES: readonly (readonly [name: string, text: string])[] = [
  ["pieces", "A table of the job, known by its headings, in any order: the pieces (name, kind)."],
  ["palettes", "Palettes (palette, colour)."],
  ["prices", "Price list (supplier, bag, price); one range for each supplier's sheet."],
  ["stock", "Balloons on the shelf (colour, count)."],
  ["delivery", "Delivery (supplier, charge)."],
  ["goods", "What is no balloon (item, per)."],
  ["work", "Your own minutes (task and minutes or where)."],
  ["terms", "Terms (term, value)."],
  ["events", "Events (event and terms as columns)."],
  ["vehicles", "Vehicles (vehicle, m3)."],
  ["names", "Your synonyms (written, means)."],
  ["past_jobs", "Past jobs (job)."],
  ["more", "One more table."],
  ["more_2", "One more table."],
];

/** The ranges of every event function: all optional, named for guidance, accepted in any order. */
export const EVENT_RANGES: readonly TableParam[] = RANGES.map(([name, text]) => ({
  name,
  text,
  kind: "table",
  columns: [],
  optional: true,
  raw: true,
  anyPlace: true,
}));

interface EventDefinition<Before extends readonly Param[], Result extends ResultSpec> extends Common<Result> {
  /** Scalars before the ranges. */
  readonly before?: Before;
  /** Tables without which there is no answer; a list in it means any one of its tables. */
  readonly needs: readonly (Sort | readonly Sort[])[];
  /** True where ranges that cannot be told apart are part of the answer instead of its end. */
  readonly answersAlways?: true;
  readonly compute: (job: Job, ...before: ArgumentsOf<Before>) => Computed<Result>;
  /** The pieces of the job, for pictures; none where its tables fail. */
  readonly drawPieces?: (job: Job) => readonly DrawnPiece[];
}

/** Why the tables of a job do not make a plan; empty where they do. */
export function missing(job: Job, needs: readonly (Sort | readonly Sort[])[]): readonly string[] {
  const unread = job.problems.filter(({ reach }) => reach.of === "tables").map(({ what }) => what);
  const absent = needs
    .map((need) => (typeof need === "string" ? [need] : need))
    .filter((sorts) => !sorts.some((sort) => job.given.has(sort)))
    .map((sorts) => `${sorts.join(" or ")} must be given, found nothing`);
  return [...unread, ...absent];
}

/**
 * Makes a function of the event level: the tables of the job in any order after a few scalars. Where the tables fail it spills
 * its header and one row that says why, or gives `#N/A` where it gives one value.
 */
export function defineEvent<
  const Before extends readonly Param[] = [],
  const Result extends ResultSpec = ResultSpec,
>(definition: EventDefinition<Before, Result>): CatalogueFunction {
  const { before, needs, answersAlways, compute, drawPieces, ...common } = definition;
  const scalars: readonly Param[] = before ?? [];
  const answer = (...args: readonly unknown[]): unknown => {
    const job = readJob(args.slice(scalars.length));
    const reasons = answersAlways === true ? [] : missing(job, needs);
    if (reasons.length === 0) return compute(job, ...(args.slice(0, scalars.length) as never));
    const sentence = reasons.join("; ");
    const { result } = definition;
    return result.kind === "table" ? [withheldRow(result.columns, sentence)] : withheld(sentence);
  };
  return define({
    ...common,
    params: [...scalars, ...EVENT_RANGES],
    keepsShape: true,
    compute: answer as never,
    ...(drawPieces && {
      drawPieces: (...args: readonly unknown[]): readonly DrawnPiece[] => {
        const job = readJob(args.slice(scalars.length));
        return missing(job, needs).length > 0 ? [] : drawPieces(job);
      },
    }),
  });
}
