import { required } from "../attempt";
import { sum } from "../numeric/sums";
import { orNone } from "../numeric/tally";
import { stages, type Stage } from "./clock";
import type { PieceWork } from "./piece-work";
import { requiredTerm, termOf, type Terms } from "./terms";
import type { EventTravel } from "./travel";

/** A day on which the times of an event without dates lie; any whole serial far from the first. */
export const DAY_WITHOUT_DATE = 1000;

/** True for a date with its time, false for a time of day alone. */
export function isDated(moment: number): boolean {
  return moment >= 1;
}

/** A moment of a term as a serial: a time alone lies on the day of the event, or the next where it is before `after`. */
function momentOf(
  terms: Terms,
  name: "ready" | "access" | "start" | "end" | "clear by",
  after?: number,
): number | undefined {
  const value = termOf(terms, name);
  if (value === undefined || isDated(value)) return value;
  const ready = termOf(terms, "ready");
  const day = ready !== undefined && isDated(ready) ? Math.floor(ready) : DAY_WITHOUT_DATE;
  const moment = day + value;
  return after !== undefined && moment < after ? moment + 1 : moment;
}

/** Moments of an event, Excel serials or times on `DAY_WITHOUT_DATE`; undefined where they are not given. */
export interface Moments {
  readonly ready: number | undefined;
  readonly access: number | undefined;
  readonly end: number | undefined;
  readonly clearBy: number | undefined;
  readonly hasDates: boolean;
}

/**
 * The moments that an event's terms give.
 *
 * @param terms of the event
 * @returns moments in the order of the clock: an end before ready is on the next day
 * @throws CalcError where a term cannot be read
 */
export function momentsOf(terms: Terms): Moments {
  const ready = momentOf(terms, "ready");
  const access = momentOf(terms, "access");
  const end = momentOf(terms, "end", ready);
  return {
    ready,
    access: access !== undefined && ready !== undefined && access > ready ? access - 1 : access,
    end,
    clearBy: momentOf(terms, "clear by", end ?? ready),
    hasDates: isDated(orNone(termOf(terms, "ready") ?? termOf(terms, "end"))),
  };
}

/**
 * The stages of an event by the clock.
 * Source: `stages`; minutes of the task event are shop work.
 *
 * @param travel crew, trips and loading of the event
 * @param works person-time of its pieces
 * @returns stages with their work and, where the terms give them, their hours
 * @throws CalcError where a number or a term that they need is withheld
 */
export function eventStages(travel: EventTravel, works: readonly PieceWork[]): readonly Stage[] {
  const { terms } = travel.event;
  const all = (name: "shop" | "site" | "rigging" | "strike"): number =>
    sum(works.map((work) => required(work[name])));
  const crew = required(travel.crew);
  const { ready, end } = momentsOf(terms);
  return stages({
    shop: all("shop") + travel.task,
    building: all("site"),
    rigging: all("rigging"),
    strike: all("strike"),
    loading: required(travel.loading),
    travel: requiredTerm(terms, "travel"),
    trips: required(travel.trips),
    crew,
    collectCrew: termOf(terms, "collect crew") ?? crew,
    collect: requiredTerm(terms, "collect"),
    stay: requiredTerm(terms, "stay"),
    buffer: requiredTerm(terms, "buffer"),
    ready,
    end,
    dayStart: requiredTerm(terms, "day start"),
    dayEnd: requiredTerm(terms, "day end"),
  });
}

/**
 * When an event's things are away: from loading to the last unloading back, or to the end where nothing is collected.
 *
 * @param list stages of the event
 * @returns Excel serials; undefined where the hours or the dates are not known
 */
export function awayOf(
  list: readonly Stage[],
  { hasDates, end, ready }: Moments,
): { readonly out: number; readonly back: number } | undefined {
  const out = list.find(({ stage }) => stage === "loading")?.start;
  const back = list.findLast(({ end: last }) => last !== undefined)?.end ?? end ?? ready;
  return hasDates && out !== undefined && back !== undefined
    ? { out, back: Math.max(back, end ?? back) }
    : undefined;
}
