import { grouped } from "../stock/grouped";
import { lookAlikes, nameKey } from "../palette/names";
import type { PieceCells } from "./cells";
import type { Job, Line } from "./job";
import type { Problem } from "../problem";
import { resolvedTerms, type LearnedTerms, type Terms } from "./terms";

/** Word in the column event that puts a row into every event. */
export const EVERY_EVENT = "every";

/** An event of the job: its terms, and the options that its pieces name. */
export interface EventScope {
  /** As first written; empty where the job names no event. */
  readonly name: string;
  readonly terms: Terms;
  /** Options as first written, in the order of pieces. */
  readonly options: readonly string[];
  /** The option that the terms choose, as its pieces write it; undefined where none is chosen. */
  readonly chosen: string | undefined;
}

/** One event with one option in force; all other events have theirs chosen or none. */
export interface Scenario {
  readonly event: string;
  readonly option: string;
  /** Option in force by event, in the order of events; empty for rows that name none. */
  readonly inForce: readonly (readonly [event: string, option: string])[];
}

/** A row of pieces within one event. */
export interface ScopedLine {
  readonly event: string;
  readonly line: Line<PieceCells>;
}

/** The events of a job and the rows that belong to each. */
export interface JobScope {
  readonly events: readonly EventScope[];
  readonly lines: readonly ScopedLine[];
  readonly problems: readonly Problem[];
}

/**
 * Sorts the rows of pieces into the events of the job. A job that names no event is one event without a name.
 *
 * @param job the tables
 * @param learned what past jobs say
 * @returns events in the order of the table events, then of pieces; rows that fit none are problems
 */
export function jobScope(job: Job, learned: LearnedTerms = {}): JobScope {
  const problems: Problem[] = [];
  const names = eventNames(job);
  const lines = job.pieces.flatMap((line) =>
    eventsOfLine(line, names, problems).map((event) => ({ event, line })),
  );
  problems.push(...unlistedEvents(job));
  const used = new Set(lines.map(({ event }) => event));
  const events = names.map((name): EventScope => {
    if (!used.has(name) && lines.length > 0) problems.push(eventWithoutPieces(name));
    const terms = resolvedTerms(job, name, learned);
    const own = lines.filter(({ event }) => event === name);
    const options = distinct(own.map(({ line }) => line.cells.option ?? ""));
    return { name, terms, options, chosen: chosenOption(terms, options) };
  });
  problems.push(...optionProblems(events));
  return { events, lines, problems };
}

/** Names by their keys, each as first written, blanks left out. */
function distinct(names: readonly string[]): readonly string[] {
  const byKey = grouped(
    names.filter((name) => name.trim() !== ""),
    nameKey,
  );
  return [...byKey.values()].map(([first]) => first.trim());
}

function eventNames(job: Job): readonly string[] {
  const listed = job.events.map(({ cells }) => cells.event ?? "");
  const named = job.pieces.map(({ cells }) => cells.event ?? "");
  const names = distinct([...listed, ...named]).filter((name) => nameKey(name) !== EVERY_EVENT);
  return names.length === 0 ? [""] : names;
}

function eventsOfLine(
  line: Line<PieceCells>,
  names: readonly string[],
  problems: Problem[],
): readonly string[] {
  const written = line.cells.event ?? "";
  const key = nameKey(written);
  const [first = ""] = names;
  if (key === EVERY_EVENT) return names;
  if (key === "") {
    if (names.length === 1) return [first];
    problems.push(stop(line, `event must be given, one of ${quoted(names)}, or every`, "type the event"));
    return [first];
  }
  return names.filter((name) => nameKey(name) === key);
}

/** Rows whose event is not in the table of events: most likely a slip, and then it would be priced with the wrong terms. */
function unlistedEvents(job: Job): readonly Problem[] {
  const listed = distinct(job.events.map(({ cells }) => cells.event ?? ""));
  const keys = new Set([EVERY_EVENT, "", ...listed.map(nameKey)]);
  if (listed.length === 0) return [];
  return job.pieces.flatMap((line) => {
    const event = line.cells.event ?? "";
    if (keys.has(nameKey(event))) return [];
    const [like] = lookAlikes(event, listed);
    const hint = like === undefined ? "" : `; did you mean "${like}"`;
    return [
      stop(line, `event must be one of the events, found "${event}"${hint}`, "type the event as in events"),
    ];
  });
}

function eventWithoutPieces(name: string): Problem {
  return {
    weight: "note",
    table: "events",
    what: `event "${name}" has no pieces and costs nothing`,
    todo: "add its pieces or take the row out",
    reach: { of: "none" },
  };
}

function chosenOption(terms: Terms, options: readonly string[]): string | undefined {
  const wanted = terms.option.value;
  return wanted === undefined ? undefined : options.find((option) => nameKey(option) === nameKey(wanted));
}

function optionProblems(events: readonly EventScope[]): readonly Problem[] {
  const anywhere = distinct(events.flatMap(({ options }) => options));
  return events.flatMap(({ terms, options, chosen, name }): readonly Problem[] => {
    const { value, origin } = terms.option;
    const mayBeElsewhere = origin === "you" && events.some((event) => event.chosen !== undefined);
    if (value === undefined || chosen !== undefined || (mayBeElsewhere && options.length === 0)) return [];
    const [like] = lookAlikes(value, anywhere);
    const hint = like === undefined ? "" : `; did you mean "${like}"`;
    const known = options.length === 0 ? "an option of the pieces" : `one of ${quoted(options)}`;
    const at = name === "" ? "" : ` for ${name}`;
    return [
      {
        weight: "stop",
        table: origin === "you" ? "terms" : "events",
        what: `option must be ${known}${at}, found "${value}"${hint}`,
        todo: "type an option of the pieces",
        reach: { of: "job" },
      },
    ];
  });
}

function stop(line: Line<PieceCells>, what: string, todo: string): Problem {
  const sentence = `${line.place}: ${what}`;
  return { weight: "stop", table: "pieces", row: line.row, what: sentence, todo, reach: { of: "job" } };
}

const quoted = (names: readonly string[]): string => names.map((name) => `"${name}"`).join(", ");

/**
 * The events with each option that may be built: only the chosen one where the terms choose.
 *
 * @param scope events of the job
 * @returns one scenario for each event and option; events without options have one
 */
export function scenariosOf(scope: JobScope): readonly Scenario[] {
  return scope.events.flatMap(({ name, options, chosen }) => {
    const open = chosen === undefined ? options : [chosen];
    return (open.length === 0 ? [""] : open).map((option) => ({
      event: name,
      option,
      inForce: scope.events.map(
        (other) => [other.name, other.name === name ? option : (other.chosen ?? "")] as const,
      ),
    }));
  });
}

/**
 * Why one plan of the whole job cannot be made yet: pieces name options and the terms choose none.
 *
 * @param scope events of the job
 * @returns the sentence, or undefined where every event is settled
 */
export function unsettledOption(scope: JobScope): string | undefined {
  const open = scope.events.find(({ options, chosen }) => options.length > 0 && chosen === undefined);
  return open && `option must be chosen in terms, one of ${quoted(open.options)}`;
}

/**
 * The scenario in which every event has its chosen option, or the rows that name none.
 *
 * @param scope events of the job
 * @returns options in force
 */
export function chosenScenario(scope: JobScope): Scenario["inForce"] {
  return scope.events.map(({ name, chosen }) => [name, chosen ?? ""] as const);
}
