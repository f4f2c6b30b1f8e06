import { invalid } from "../calc-error";
import { wholeUp } from "../numeric/whole";
import {
  CEILING_RATE,
  CLUSTER_RATE,
  FREE_FORM_RATE,
  HELIUM_RIBBON_RATE,
  NET_RATE,
  RIGGING_HOURS,
  START_BUFFER,
  STRIKE_RATE,
  USEFUL_TIME,
  WALL_RATE,
} from "../practice";
import type { Practice } from "../practice";
import { UNITS } from "../units";

/** Balloons per person-hour by style of work. Source: common practice. */
export const STYLE_RATES = {
  clusters: CLUSTER_RATE,
  "free-form": FREE_FORM_RATE,
  helium: HELIUM_RIBBON_RATE,
  ceiling: CEILING_RATE,
  net: NET_RATE,
  wall: WALL_RATE,
  strike: STRIKE_RATE,
} as const satisfies Record<string, Practice>;

/** A style of work that has a rate. */
export type BuildStyle = keyof typeof STYLE_RATES;

/** The styles, for lists of choices. */
export const BUILD_STYLES = Object.keys(STYLE_RATES) as readonly BuildStyle[];

/** Last date serial that Excel knows, 31 December 9999. Source: Excel specifications and limits. */
export const LAST_SERIAL = 2958465;

/**
 * BUILD_HOURS: work of one person to build or strike balloons, with the rigging of the pieces they make.
 * Source: rates per person-hour and rigging by common practice.
 *
 * @param count balloons
 * @param style what is done with them
 * @param pace speed as a ratio to the usual rate: 2 is twice as fast
 * @param pieces pieces to rig, whatever the pace; none where nothing is rigged
 * @param rigging time to rig one piece, s; default by common practice
 * @returns person-time, s
 * @throws CalcError `#VALUE!` where `pace` is not above 0
 */
export function buildDuration(
  count: number,
  style: BuildStyle = "clusters",
  pace = 1,
  pieces = 0,
  rigging = RIGGING_HOURS.value * UNITS.h.si,
): number {
  if (!(pace > 0)) throw invalid("pace", "be above 0", pace, "1 is the usual pace, 2 twice as fast");
  return (count / (STYLE_RATES[style].value * pace)) * UNITS.h.si + pieces * rigging;
}

/**
 * COUNT_CREW: people who get the work done within a window of time.
 *
 * @param work person-time, s
 * @param window time from the key to the finished room, s
 * @param useful share of the window that is work; default by common practice
 * @returns people, whole; 0 where there is no work
 * @throws CalcError `#VALUE!` where `window` or `useful` is not above 0
 */
export function crewCount(work: number, window: number, useful = USEFUL_TIME.value): number {
  if (!(window > 0)) throw invalid("window", "be above 0 h", window);
  if (!(useful > 0)) throw invalid("useful", "be above 0 and at most 1", useful);
  return wholeUp(work / (window * useful));
}

const SECONDS_PER_DAY = UNITS.d.si;

function earlier(name: string, serial: number, duration: number): number {
  if (!(serial >= 0 && serial <= LAST_SERIAL)) {
    throw invalid(name, `be a date from 0 to ${LAST_SERIAL} as Excel counts days`, serial);
  }
  const start = serial - duration / SECONDS_PER_DAY;
  if (start < 0) {
    const days = duration / SECONDS_PER_DAY;
    throw invalid(
      name,
      `lie at least ${Number(days.toPrecision(3))} days after the first date Excel knows`,
      serial,
      "type the date with the time",
    );
  }
  return start;
}

/**
 * START_BY: latest start so that the room is ready in time.
 *
 * @param ready date and time the room must be ready, Excel serial (days, the fraction is the time of day)
 * @param work person-time, s
 * @param crew people who share it evenly
 * @param buffer time added for what goes wrong, as a share of the work; default by common practice
 * @returns date and time, Excel serial
 * @throws CalcError `#VALUE!` where `crew` is below 1, `ready` is no Excel date or the start would lie before
 *   the first of them
 */
export function startBy(ready: number, work: number, crew = 1, buffer = START_BUFFER.value): number {
  if (!(crew >= 1)) throw invalid("crew", "be 1 or more", crew);
  return earlier("ready", ready, (work * (1 + buffer)) / crew);
}
