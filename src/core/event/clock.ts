import { invalid } from "../calc-error";
import { wholeUp } from "../numeric/whole";
import { UNITS } from "../units";

const DAY = UNITS.d.si;

/** Person-time of a job by place and the habits that turn it into hours of the clock. All durations in s. */
export interface ClockInput {
  /** Person-time of the work before leaving. */
  readonly shop: number;
  readonly building: number;
  readonly rigging: number;
  readonly strike: number;
  /** Person-time to load or to unload all trips once. */
  readonly loading: number;
  /** One way. */
  readonly travel: number;
  /** Whole, 0 or more: drives out with a load. */
  readonly trips: number;
  /** Whole, 1 or more. */
  readonly crew: number;
  readonly collectCrew: number;
  readonly collect: boolean;
  /** True where the crew waits at the venue until the strike. */
  readonly stay: boolean;
  /** Added to work, not to driving, as a share. */
  readonly buffer: number;
  /** Excel serial; absent where the hours are not known. */
  readonly ready?: number | undefined;
  readonly end?: number | undefined;
  /** Parts of a day between which the shop works. */
  readonly dayStart: number;
  readonly dayEnd: number;
}

/** Stages of a job in the order of the clock. */
export const STAGES = [
  "shop",
  "loading",
  "driving",
  "unloading",
  "site building",
  "site rigging",
  "ready",
  "strike",
  "loading back",
  "driving back",
  "unloading back",
] as const;

/** One of `STAGES`. */
export type StageName = (typeof STAGES)[number];

/** A stage with its work and, where they are known, its hours. */
export interface Stage {
  readonly stage: StageName;
  readonly where: "shop" | "road" | "site";
  /** Person-time, s. */
  readonly work: number;
  readonly people: number;
  /** Excel serials. */
  readonly start?: number | undefined;
  readonly end?: number | undefined;
}

/**
 * Person-time behind the wheel, out and home, for every person of the crew once and one driver for each further trip.
 *
 * @param input travel, crews, trips and habits
 * @returns delivery and collection, s
 */
export function drivingWork(
  input: Pick<ClockInput, "travel" | "trips" | "crew" | "collectCrew" | "collect" | "stay">,
): { readonly delivery: number; readonly collection: number } {
  const { travel, crew, collect, stay } = input;
  const further = 2 * Math.max(0, input.trips - 1);
  const collectors = collect && !stay ? 2 * input.collectCrew : 0;
  return {
    delivery: travel * ((stay && collect ? 1 : 2) * crew + further),
    collection: collect ? travel * ((stay ? crew : collectors) + further) : 0,
  };
}

/**
 * Kilometres of a job: every trip out and home, once more to collect, one round less where the crew waits.
 *
 * @param distance one way, m
 * @param trips drives out with a load, whole
 * @param collect true where the piece is fetched again
 * @param stay true where the crew waits at the venue
 * @returns distance, m
 */
export function drivenDistance(distance: number, trips: number, collect: boolean, stay: boolean): number {
  const rounds = trips * (collect ? 2 : 1) - (stay && collect ? 1 : 0);
  return 2 * distance * Math.max(0, rounds);
}

/**
 * People who get the site ready between access and ready.
 *
 * @param work person-time on site, unloading included, s
 * @param window from access to ready, s, above 0
 * @param buffer share added to the work
 * @returns people, whole; 0 where there is no work
 * @throws CalcError `#VALUE!` where ready does not lie after access
 */
export function peopleNeeded(work: number, window: number, buffer: number): number {
  if (!(window > 0)) throw invalid("ready", "lie after access", { written: `${window / UNITS.h.si} h` });
  return wholeUp((work * (1 + buffer)) / window);
}

/**
 * Where work that ends at a moment begins if it is done between two hours of the day only.
 *
 * @param end latest end, Excel serial
 * @param duration time of the clock, s
 * @param dayStart part of a day at which the shop opens
 * @param dayEnd part of a day at which it closes, after `dayStart`
 * @returns start and end, Excel serials; both `end` where there is nothing to do
 * @throws CalcError `#VALUE!` where `dayEnd` does not lie after `dayStart`, or the start lies before Excel's first date
 */
export function backwards(
  end: number,
  duration: number,
  dayStart: number,
  dayEnd: number,
): { readonly start: number; readonly end: number } {
  if (!(dayEnd > dayStart)) throw invalid("day end", "lie after day start", { written: "an earlier hour" });
  if (duration === 0) return { start: end, end };
  const length = dayEnd - dayStart;
  let day = Math.floor(end);
  let latest = Math.min(end, day + dayEnd);
  if (latest <= day + dayStart) {
    day -= 1;
    latest = day + dayEnd;
  }
  const days = duration / DAY;
  const today = latest - (day + dayStart);
  if (days <= today) return checked(latest - days, latest);
  // A remainder of rounding must not open one more day.
  const before = days - today;
  const whole = Math.max(1, Math.ceil(before / length - 1e-9));
  return checked(day - whole + dayEnd - (before - (whole - 1) * length), latest);
}

function checked(start: number, end: number): { readonly start: number; readonly end: number } {
  if (start < 1)
    throw invalid("ready", "lie far enough after Excel's first date", { written: "too early a date" });
  return { start, end };
}

/**
 * The stages of a job. Work on site ends at ready; unloading, driving and loading lie before it, shop work before those
 * within the hours of the shop, on as many days as it takes. The strike begins when the event ends.
 * Source: durations are person-time x (1 + buffer) / people, driving without buffer and one trip after another.
 *
 * @param input work and habits
 * @returns every stage that has work or an hour; without `ready` or `end` theirs have no hours
 * @throws CalcError as `backwards`
 */
export function stages(input: ClockInput): readonly Stage[] {
  const { crew, collectCrew, buffer } = input;
  const clock = (work: number, people: number): number => ((work * (1 + buffer)) / people) * (1 / DAY);
  const driving = drivingWork(input);
  const legs = (input.travel * (1 + 2 * Math.max(0, input.trips - 1))) / DAY;
  const stage = (
    name: StageName,
    where: Stage["where"],
    work: number,
    people: number,
    hours: { readonly start: number; readonly end: number } | undefined,
  ): Stage => ({ stage: name, where, work, people, ...hours });

  const before = hoursBefore(input, clock, legs);
  const list: Stage[] = [
    stage("shop", "shop", input.shop, crew, before.shop),
    stage("loading", "shop", input.loading, crew, before.loading),
    stage("driving", "road", driving.delivery, crew, before.driving),
    stage("unloading", "site", input.loading, crew, before.unloading),
    stage("site building", "site", input.building, crew, before.building),
    stage("site rigging", "site", input.rigging, crew, before.rigging),
    stage("ready", "site", 0, 0, before.ready),
  ];
  if (!input.collect) return list;
  let at = input.end;
  const next = (duration: number): { readonly start: number; readonly end: number } | undefined => {
    if (at === undefined) return undefined;
    const start = at;
    at += duration;
    return { start, end: at };
  };
  return [
    ...list,
    stage("strike", "site", input.strike, collectCrew, next(clock(input.strike, collectCrew))),
    stage("loading back", "site", input.loading, collectCrew, next(clock(input.loading, collectCrew))),
    stage("driving back", "road", driving.collection, collectCrew, next(legs)),
    stage("unloading back", "shop", input.loading, collectCrew, next(clock(input.loading, collectCrew))),
  ];
}

type Hours = { readonly start: number; readonly end: number } | undefined;

function hoursBefore(
  input: ClockInput,
  clock: (work: number, people: number) => number,
  legs: number,
): Readonly<Record<"shop" | "loading" | "driving" | "unloading" | "building" | "rigging" | "ready", Hours>> {
  const { ready, crew } = input;
  if (ready === undefined) {
    return {
      shop: undefined,
      loading: undefined,
      driving: undefined,
      unloading: undefined,
      building: undefined,
      rigging: undefined,
      ready: undefined,
    };
  }
  const rigging = { start: ready - clock(input.rigging, crew), end: ready };
  const building = { start: rigging.start - clock(input.building, crew), end: rigging.start };
  const unloading = { start: building.start - clock(input.loading, crew), end: building.start };
  const driving = { start: unloading.start - legs, end: unloading.start };
  const loading = { start: driving.start - clock(input.loading, crew), end: driving.start };
  const shop = backwards(loading.start, clock(input.shop, crew) * DAY, input.dayStart, input.dayEnd);
  return { shop, loading, driving, unloading, building, rigging, ready: { start: ready, end: ready } };
}
