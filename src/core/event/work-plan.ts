import { CalcError } from "../calc-error";
import { floatDuration } from "../gas/float";
import { UNITS } from "../units";
import { isWithheld, withheld, type Known } from "../withheld";
import type { Stage } from "./clock";
import { DAY_WITHOUT_DATE, eventStages, momentsOf, type Moments } from "./event-stages";
import { settledCosts } from "./goods-plan";
import type { Problem } from "../problem";
import type { JobPlan } from "./job-plan";
import type { PlannedPiece } from "./plan-parts";
import type { ScenarioCosts } from "./scenario-costs";
import { statusOf } from "./status";
import { requiredTerm } from "./terms";
import type { EventTravel } from "./travel";

/** A row of WORK_PLAN. */
export interface WorkPlanRow {
  readonly event: string;
  readonly stage: string;
  readonly where: string;
  /** Person-hours; empty on the row that counts people. */
  readonly "person-hours": Known | "";
  readonly people: Known;
  /** Excel serial to the minute, a time of day in words where the event has no date, or empty. */
  readonly start: Known | string;
  readonly end: Known | string;
  readonly status: string;
}

const DAY_WORDS: Readonly<Record<number, string>> = { 0: "", [-1]: " the day before", 1: " the day after" };

/**
 * A moment of an event without a date in words: `15:19 the day before`.
 *
 * @param serial on or round `DAY_WITHOUT_DATE`
 * @returns hours and minutes, to the nearest minute
 */
export function clockText(serial: number): string {
  const minutes = Math.round(serial * 1440);
  const day = Math.floor(minutes / 1440) - DAY_WITHOUT_DATE;
  const ofDay = minutes - (day + DAY_WITHOUT_DATE) * 1440;
  const clock = `${Math.floor(ofDay / 60)}:${String(ofDay % 60).padStart(2, "0")}`;
  return `${clock}${DAY_WORDS[day] ?? (day < 0 ? ` ${-day} days before` : ` ${day} days after`)}`;
}

const noGo = (what: string, todo: string): Problem => ({
  weight: "no go",
  table: "WORK_PLAN",
  what,
  todo,
  reach: { of: "none" },
});

/**
 * What cannot go by the clock: work on site before access, a strike that ends too late, helium that is down before the end.
 * Source: `floatDuration` of each helium balloon.
 *
 * @param costs worked out
 * @param travel of the event
 * @param list its stages
 * @returns problems, each with the stage it concerns
 */
export function clockProblems(
  costs: ScenarioCosts,
  travel: EventTravel,
  list: readonly Stage[],
): readonly { readonly stage: Stage["stage"]; readonly problem: Problem }[] {
  const moments = momentsOf(travel.event.terms);
  const found: { readonly stage: Stage["stage"]; readonly problem: Problem }[] = [];
  const say = (serial: number): string => momentText(serial, moments);
  const unloading = list.find(({ stage }) => stage === "unloading");
  const late = minutesAfter(moments.access, unloading?.start);
  if (late !== undefined && moments.access !== undefined)
    found.push({
      stage: "unloading",
      problem: noGo(
        `work on site starts ${minutesText(late)} before access at ${say(moments.access)}`,
        "take more people, or build more in the shop",
      ),
    });
  const loaded = list.find(({ stage }) => stage === "loading back");
  const over = minutesAfter(loaded?.end, moments.clearBy);
  if (over !== undefined && moments.clearBy !== undefined)
    found.push({
      stage: "loading back",
      problem: noGo(
        `the strike ends ${minutesText(over)} after clear by at ${say(moments.clearBy)}`,
        "take more people to collect",
      ),
    });
  const { end } = moments;
  if (end === undefined) return found;
  for (const planned of costs.pieces.filter((piece) => piece.event === travel.event)) {
    for (const text of sinking(planned, list, end)) found.push({ stage: text.stage, problem: text.problem });
  }
  return found;
}

function sinking(
  { piece, parts, event }: PlannedPiece,
  list: readonly Stage[],
  end: number,
): readonly { readonly stage: Stage["stage"]; readonly problem: Problem }[] {
  return parts.flatMap(({ part }) => {
    const { inflated } = part;
    if (part.gas !== "helium" || part.type !== "latex" || part.quantity === 0) return [];
    if (inflated === undefined || isWithheld(inflated)) return [];
    const stage = part.built === "shop" ? ("shop" as const) : ("site building" as const);
    const filled = list.find((candidate) => candidate.stage === stage)?.start;
    if (filled === undefined) return [];
    const { terms } = event;
    const floats = floatDuration(
      inflated,
      requiredTerm(terms, "treated"),
      requiredTerm(terms, "temperature"),
      undefined,
      requiredTerm(terms, "altitude"),
    );
    const needed = (end - filled) * UNITS.d.si;
    if (needed <= floats) return [];
    const hours = (seconds: number): string => (seconds / UNITS.h.si).toFixed(1);
    const what = `"${piece.name}" is filled ${hours(needed)} h before the end and floats ${hours(floats)} h`;
    return [{ stage, problem: noGo(what, "fill later, treat the balloons, or take larger ones") }];
  });
}

/** How many minutes a moment lies after a limit; undefined where it does not, or either is not known. */
function minutesAfter(moment: number | undefined, limit: number | undefined): number | undefined {
  if (moment === undefined || limit === undefined) return undefined;
  const minutes = Math.round((moment - limit) * 1440);
  return minutes > 0 ? minutes : undefined;
}

function minutesText(minutes: number): string {
  if (minutes < 60) return `${minutes} min`;
  return `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

/** The time of day of a moment, whatever its date. */
function momentText(serial: number, { hasDates }: Moments): string {
  return clockText(hasDates ? (serial % 1) + DAY_WITHOUT_DATE : serial);
}

/**
 * WORK_PLAN: the stages of each event by the clock, and how many people the time on site asks for.
 *
 * @param plan of the job
 * @returns rows by event, the last of each counts people
 * @throws CalcError `#N/A` where an option must be chosen
 */
export function workPlan(plan: JobPlan): readonly WorkPlanRow[] {
  const costs = settledCosts(plan);
  return costs.travel.flatMap((travel) => {
    const works = costs.work.filter((_, place) => costs.pieces[place]?.event === travel.event);
    try {
      return eventRows(costs, travel, eventStages(travel, works));
    } catch (error) {
      if (!(error instanceof CalcError)) throw error;
      return [gapRow(travel, error.message)];
    }
  });
}

function eventRows(
  costs: ScenarioCosts,
  travel: EventTravel,
  list: readonly Stage[],
): readonly WorkPlanRow[] {
  const moments = momentsOf(travel.event.terms);
  const problems = clockProblems(costs, travel, list);
  const at = (serial: number | undefined): number | string => {
    if (serial === undefined) return "";
    // Whole minutes: a spreadsheet would cut the seconds off, where the papers round them.
    return moments.hasDates ? Math.round(serial * 1440) / 1440 : clockText(serial);
  };
  const rows = list.map(({ stage, where, work, people, start, end }): WorkPlanRow => ({
    event: travel.event.name,
    stage,
    where,
    "person-hours": work / UNITS.h.si,
    people,
    start: at(start),
    end: at(end),
    status: statusOf(problems.filter((found) => found.stage === stage).map(({ problem }) => problem)),
  }));
  const { people, crew } = travel;
  const isShort = !isWithheld(people) && !isWithheld(crew) && people > crew;
  return [
    ...rows,
    {
      event: travel.event.name,
      stage: "people needed",
      where: "site",
      "person-hours": "",
      people,
      start: "",
      end: "",
      status: isShort
        ? `check: a crew of ${crew} is less than the time on site asks for`
        : statusOf(travel.problems),
    },
  ];
}

function gapRow(travel: EventTravel, sentence: string): WorkPlanRow {
  const gap = withheld(sentence);
  return {
    event: travel.event.name,
    stage: "",
    where: "",
    "person-hours": gap,
    people: gap,
    start: gap,
    end: gap,
    status: `stop: ${sentence}`,
  };
}
