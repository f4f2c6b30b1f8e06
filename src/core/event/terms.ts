import { unavailable } from "../calc-error";
import { nameKey } from "../palette/names";
import {
  BREAKAGE_FOIL,
  BREAKAGE_INDOORS,
  BREAKAGE_OUTDOORS,
  DAY_END_HOUR,
  DAY_START_HOUR,
  GAS_LOSS,
  ROOM_HUMIDITY,
  SPARES_CONFIDENCE,
  START_BUFFER,
  TETHER_SAFETY,
} from "../practice";
import { kelvinFromCelsius } from "../units";
import type { EventCells, TermCells, TermName } from "./term-cells";
import type { Job, Line } from "./job";

/** Where the value of a term comes from. */
export type TermOrigin = "you" | "this event" | "past jobs" | "trade default" | "not given";

/** A term as it is in force for one event. */
export interface ResolvedTerm<Name extends TermName = TermName> {
  readonly term: Name;
  /** Undefined where it is not given and has no default. */
  readonly value: TermCells[Name] | undefined;
  readonly origin: TermOrigin;
  readonly why: string;
  /** Sentence of the row that cannot be read; the value is not known then. */
  readonly doubt?: string;
}

/** All terms of one event, each with its origin. */
export type Terms = { readonly [Name in TermName]: ResolvedTerm<Name> };

/** What past jobs say about a term that nobody typed. */
export type LearnedTerms = {
  readonly [Name in TermName]?: { readonly value: TermCells[Name]; readonly why: string };
};

interface Default<Value> {
  readonly value?: Value;
  readonly why: string;
}

const practised = ({ value, why }: { readonly value: number; readonly why: string }): Default<number> => ({
  value,
  why: `common practice: ${why}`,
});
const plain = <Value>(value: Value, why: string): Default<Value> => ({ value, why });
const absent = (why: string): Default<never> => ({ why });
const ROOM_KELVIN = kelvinFromCelsius(20);
const OURS = "ours, no source";

/** The terms with their defaults. Source: common practice where the reason says so, else a neutral value. */
const DEFAULTS: { readonly [Name in TermName]: Default<TermCells[Name]> } = {
  breakage: practised(BREAKAGE_INDOORS),
  "breakage outdoors": practised(BREAKAGE_OUTDOORS),
  "breakage foil": practised(BREAKAGE_FOIL),
  confidence: practised(SPARES_CONFIDENCE),
  costing: plain("used share", "left-overs keep their worth for the next job"),
  "leftover worth": plain(1, "left-overs are sold at the next job"),
  "missing balloon each": absent("what nobody sells has no price"),
  pay: absent("what an hour costs is yours to say"),
  crew: absent("as many as the time on site needs, else one"),
  pace: plain(1, "the usual pace"),
  buffer: practised(START_BUFFER),
  "day start": { ...practised(DAY_START_HOUR), value: DAY_START_HOUR.value / 24 },
  "day end": { ...practised(DAY_END_HOUR), value: DAY_END_HOUR.value / 24 },
  travel: absent("the way to the venue is yours to say"),
  distance: absent("the way to the venue is yours to say"),
  "per km": absent("what a kilometre costs is yours to say"),
  collect: plain(true, "pieces are taken down and fetched"),
  "collect crew": absent("as the crew"),
  stay: plain(false, "the crew drives home between"),
  "spread travel": plain(false, "travel stays a row of its own"),
  lengths: plain("m", "what a bare number means"),
  distances: plain("km", "what a bare number means"),
  "gas loss": practised(GAS_LOSS),
  purity: plain(1, "pure helium"),
  treated: plain(false, "balloons as they come"),
  "tether safety": practised(TETHER_SAFETY),
  humidity: practised(ROOM_HUMIDITY),
  temperature: plain(ROOM_KELVIN, "20 C"),
  altitude: plain(0, "sea level"),
  "fill temperature": plain(ROOM_KELVIN, "20 C"),
  "fill altitude": plain(0, "sea level"),
  gust: absent("the wind at the venue is yours to look up"),
  "room m3": absent("the room is yours to measure"),
  margin: absent("what you earn is yours to say"),
  basis: plain("price", "a margin is a share of the price"),
  discount: plain(0, "none"),
  tax: plain(0, "none"),
  deposit: plain(0, "none"),
  minimum: plain(0, "none"),
  "tax included": plain(false, "prices are before tax"),
  "round to": absent("prices are rounded to the cent"),
  ending: absent("prices end as they come"),
  budget: absent("what the client can spend"),
  option: absent("the option that is built"),
  ready: absent("when the room must be ready"),
  access: absent("when the room opens for you"),
  start: absent("when guests come"),
  end: absent("when guests go"),
  "clear by": absent("when the room must be empty"),
  "job spread": plain(0.3, OURS),
  "own spread": plain(0.4, OURS),
  "fullness job spread": plain(0.1, OURS),
  "fullness own spread": plain(0.15, OURS),
  "breakage weight": plain(200, OURS),
  "breakage likeness": plain(0.01, OURS),
  sure: plain(0.9, OURS),
};

/** Names of all terms, in the order in which papers list them. */
export const TERM_NAMES = Object.keys(DEFAULTS) as readonly TermName[];

interface Typed {
  readonly values: ReadonlyMap<TermName, TermCells[TermName]>;
  readonly doubts: ReadonlyMap<TermName, string>;
  /** Sentence of a row whose term cannot be read: it may be any term that was not typed elsewhere. */
  readonly unread: string | undefined;
}

function typedTerms(job: Job): Typed {
  const values = new Map<TermName, TermCells[TermName]>();
  const doubts = new Map<TermName, string>();
  const places = new Map<TermName, string>();
  let unread: string | undefined;
  for (const { cells, doubts: found, place } of job.terms) {
    const { term, value } = cells;
    const [doubt] = found;
    if (term === undefined) unread ??= doubt;
    else if (doubt !== undefined) doubts.set(term, doubt);
    else if (value !== undefined) {
      const before = values.get(term);
      if (before !== undefined && before !== value)
        doubts.set(term, `${place}: ${term} must stand once, as in ${places.get(term) ?? "another row"}`);
      values.set(term, value);
      places.set(term, place);
    }
  }
  return { values, doubts, unread };
}

/**
 * The terms in force for one event: its own row of events wins over the terms of the job, what was typed over what past
 * jobs taught, and that over the trade default.
 *
 * @param job the tables of the job
 * @param event the event as named, or empty where the job names none
 * @param learned what past jobs say
 * @returns every term with its origin; a row that cannot be read leaves its term unknown
 */
export function resolvedTerms(job: Job, event = "", learned: LearnedTerms = {}): Terms {
  const typed = typedTerms(job);
  const key = nameKey(event);
  const rows = job.events.filter(
    ({ cells }) => nameKey(cells.event ?? "") === key || job.events.length === 1,
  );
  const resolved = TERM_NAMES.map((term) => [term, resolve(term, typed, rows, learned)] as const);
  return Object.fromEntries(resolved) as unknown as Terms;
}

function resolve<Name extends TermName>(
  term: Name,
  typed: Typed,
  rows: readonly Line<EventCells>[],
  learned: LearnedTerms,
): ResolvedTerm<Name> {
  const { value: usual, why } = DEFAULTS[term] as Default<TermCells[Name]>;
  for (const { cells, doubts } of rows) {
    const own = cells[term] as TermCells[Name] | undefined;
    if (own !== undefined) return { term, value: own, origin: "this event", why };
    const doubt = doubts.find((sentence) => sentence.includes(`: ${term} `));
    if (doubt !== undefined) return { term, value: undefined, origin: "this event", why, doubt };
  }
  const doubt = typed.doubts.get(term);
  if (doubt !== undefined) return { term, value: undefined, origin: "you", why, doubt };
  const value = typed.values.get(term) as TermCells[Name] | undefined;
  if (value !== undefined) return { term, value, origin: "you", why };
  if (typed.unread !== undefined) return { term, value: undefined, origin: "you", why, doubt: typed.unread };
  const taught = learned[term] as { readonly value: TermCells[Name]; readonly why: string } | undefined;
  if (taught !== undefined) return { term, value: taught.value, origin: "past jobs", why: taught.why };
  return { term, value: usual, origin: usual === undefined ? "not given" : "trade default", why };
}

/**
 * The value of a term, which may be not given.
 *
 * @param terms of one event
 * @param name the term
 * @returns its value in force, or undefined where it is not given
 * @throws CalcError `#N/A` where its row cannot be read
 */
export function termOf<Name extends TermName>(terms: Terms, name: Name): TermCells[Name] | undefined {
  const { value, doubt } = terms[name] as ResolvedTerm<Name>;
  if (doubt !== undefined) throw unavailable(doubt);
  return value;
}

/**
 * The value of a term that a number needs.
 *
 * @param terms of one event
 * @param name the term
 * @returns its value in force
 * @throws CalcError `#N/A` where it is not given or its row cannot be read
 */
export function requiredTerm<Name extends TermName>(terms: Terms, name: Name): TermCells[Name] {
  const value = termOf(terms, name);
  if (value === undefined) throw unavailable(`${name} must be given in terms${NONE_HINTS[name] ?? ""}`);
  return value;
}

/** Terms whose silence may mean that there is none, which is typed. */
const NONE_HINTS: Readonly<Partial<Record<TermName, string>>> = {
  pay: "; type none if nobody is paid",
  travel: "; type none if there is no way to go",
  distance: "; type none if there is no way to go",
  "per km": "; type none if driving costs nothing",
  margin: "; type none to sell at cost",
};
