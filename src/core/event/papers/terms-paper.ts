import type { JobPlan } from "../job-plan";
import type { TermName } from "../term-cells";
import { TERM_NAMES, type ResolvedTerm } from "../terms";
import { nameKey } from "../../palette/names";
import { unavailable } from "../../calc-error";

/** A term as it is in force, under the heading that it stands under. */
export interface TermLine {
  readonly section: string;
  readonly term: ResolvedTerm;
  /** Where its value comes from, as a person says it. */
  readonly from: string;
}

/** First term of each section, in the order of the terms. */
const SECTIONS: readonly (readonly [first: TermName, section: string])[] = [
  ["breakage", "buying"],
  ["pay", "work"],
  ["travel", "travel"],
  ["gas loss", "gas and air"],
  ["margin", "price"],
  ["ready", "dates"],
  ["job spread", "learning"],
];

/**
 * Every assumption behind the numbers of a job, and where it comes from.
 *
 * @param plan of the job
 * @param event as typed; empty where the job has one
 * @returns terms in their order
 * @throws CalcError `#N/A` where the event is not one of the job's, or several could be meant
 */
export function termLines(plan: JobPlan, event: string): readonly TermLine[] {
  const { events } = plan.scope;
  const found =
    events.length === 1 && (event.trim() === "" || events[0]?.name === "")
      ? events[0]
      : events.find(({ name }) => nameKey(name) === nameKey(event));
  if (found === undefined) {
    const names = events.map(({ name }) => `"${name}"`).join(", ");
    throw unavailable(
      `event must be one of ${names}, found ${event.trim() === "" ? "nothing" : `"${event.trim()}"`}`,
    );
  }
  let section = "";
  return TERM_NAMES.map((name) => {
    section = SECTIONS.find(([first]) => first === name)?.[1] ?? section;
    const term = found.terms[name] as ResolvedTerm;
    return { section, term, from: term.origin === "past jobs" ? term.why : term.origin };
  });
}
