import { CalcError } from "../calc-error";
import { dangersOf } from "./dangers";
import type { Job, Line, Sort } from "./job";
import { saidOf, WEIGHTS, type Problem } from "../problem";
import { jobPlan } from "./job-plan";
import { respelledNames, slippedNames } from "./names";
import { priceChecks } from "./option-plan";
import { roundFoil } from "./part-gas";
import { unsettledOption } from "./scope";

/** Whether a job can go out, and everything that a person has to know before it does. */
export interface Readiness {
  /** True where nothing stops, endangers or forbids it. */
  readonly isReady: boolean;
  /** How many of each weight, in words. */
  readonly summary: string;
  /** Worst first, each sentence once. */
  readonly problems: readonly Problem[];
}

/** Finds problems of a job. Models add theirs to `FINDERS`. */
type Finder = (job: Job) => readonly Problem[];

/** Bare heights above this are more often feet than metres. Source: common practice, a room is about 3 m high. */
const ROOM_HEIGHT = 4;

const FINDERS: readonly Finder[] = [
  (job) => job.problems,
  missingTables,
  planProblems,
  unreadRows,
  respelledNames,
  slippedNames,
  tallPieces,
  unsecuredPieces,
];

/**
 * READY_PLAN: one verdict over all tables of a job, and every reason.
 *
 * @param job the tables
 * @returns the verdict; what a finder cannot work out is a stop
 */
export function readiness(job: Job): Readiness {
  const seen = new Set<string>();
  const found = FINDERS.flatMap((finder) => attempted(() => finder(job))).filter((problem) => {
    const said = saidOf(problem);
    return !seen.has(said) && seen.add(said);
  });
  const problems = WEIGHTS.flatMap((weight) => found.filter((problem) => problem.weight === weight));
  const counts = WEIGHTS.filter((weight) => weight !== "note").flatMap((weight) => {
    const count = problems.filter((problem) => problem.weight === weight).length;
    return count === 0 ? [] : [`${count} ${weight === "check" ? "to check" : weight}`];
  });
  return {
    isReady: !problems.some(({ weight }) => ["stop", "unsafe", "no go"].includes(weight)),
    summary: counts.join(", ") || "nothing to check",
    problems,
  };
}

function attempted(find: () => readonly Problem[]): readonly Problem[] {
  try {
    return find();
  } catch (error) {
    if (error instanceof CalcError)
      return [problem("stop", "pieces", error.message, "mend what the sentence names")];
    throw error;
  }
}

function problem(
  weight: Problem["weight"],
  table: string,
  what: string,
  todo: string,
  row?: number,
): Problem {
  return {
    weight,
    table,
    ...(row !== undefined && { row }),
    what,
    todo,
    reach: { of: weight === "stop" ? "job" : "none" },
  };
}

function missingTables(job: Job): readonly Problem[] {
  const problems: Problem[] = [];
  if (!job.given.has("pieces"))
    problems.push(
      problem("stop", "pieces", "pieces must be given, found nothing", "give the table of pieces"),
    );
  if (!hasPrices(job))
    problems.push(
      problem(
        "note",
        "price_list",
        "no price list or stock is given, so nothing is said about buying",
        "give the price list",
      ),
    );
  if (!hasTerms(job))
    problems.push(
      problem(
        "note",
        "terms",
        "no terms are given, so nothing is said about work, travel and price",
        "give a table of terms",
      ),
    );
  return problems;
}

const hasPrices = (job: Job): boolean => job.given.has("price_list") || job.given.has("stock");
const hasTerms = (job: Job): boolean => job.given.has("terms") || job.given.has("events");

/** What the plans of the job find, for the options in force and every other that may be built. */
function planProblems(job: Job): readonly Problem[] {
  if (!job.given.has("pieces")) return [];
  const plan = jobPlan(job);
  const open = unsettledOption(plan.scope);
  const choice = open === undefined ? [] : [problem("check", "terms", open, "type the option in terms")];
  const found = [plan.chosen, ...plan.scenarios.map(({ inForce }) => inForce)].flatMap((inForce) => {
    const costs = plan.costsOf(inForce);
    const foils = costs.pieces.flatMap(({ parts }) => parts.flatMap(({ part }) => roundFoil(part)));
    return [...costs.problems, ...dangersOf(costs), ...foils];
  });
  const prices = hasPrices(job) && hasTerms(job) ? priceChecks(plan) : [];
  return [...choice, ...found.filter((one) => isAsked(job, one)), ...prices];
}

/** A table that was not given asks for nothing: the job is then planned by other means. */
function isAsked(job: Job, { reach, table }: Problem): boolean {
  if (!hasPrices(job) && reach.of === "item") return false;
  const isPlanned =
    table !== "terms" &&
    !(["goods", "vehicles"] as const).some((sort) => sort === table && !job.given.has(sort));
  return hasTerms(job) || isPlanned;
}

/** Rows that no plan has asked for: their doubts change nothing, but nobody should find them later. */
function unreadRows(job: Job): readonly Problem[] {
  const of = (table: Sort, lines: readonly Line<unknown>[]): readonly Problem[] =>
    lines.flatMap(({ doubts, row }) =>
      doubts.map((what) => problem(table === "pieces" ? "stop" : "note", table, what, "mend the row", row)),
    );
  return [
    ...of("pieces", job.pieces),
    ...of("palettes", job.palettes),
    ...of("price_list", job.price_list),
    ...of("delivery", job.delivery),
    ...of("stock", job.stock),
    ...of("goods", job.goods),
    ...of("work", job.work),
    ...of("terms", job.terms),
    ...of("events", job.events),
    ...of("vehicles", job.vehicles),
    ...of("names", job.names),
    ...of("past_jobs", job.past_jobs),
  ];
}

function tallPieces(job: Job): readonly Problem[] {
  return job.pieces.flatMap(({ cells: { height = 0, where }, place, row }) =>
    height > ROOM_HEIGHT && where !== "outdoors"
      ? [
          problem(
            "check",
            "pieces",
            `${place}: height is ${Number(height.toFixed(2))} m indoors`,
            "type feet as 6 ft",
            row,
          ),
        ]
      : [],
  );
}

/** Standing pieces outdoors whose ballast nobody has asked for. */
function unsecuredPieces(job: Job): readonly Problem[] {
  const hasGust =
    job.terms.some(({ cells }) => cells.term === "gust" && cells.value !== undefined) ||
    job.events.some(({ cells }) => cells.gust !== undefined);
  return job.pieces.flatMap(({ cells: { kind, where, base }, place, row }) => {
    const stands = kind === "column" || kind === "bouquet" || kind === "foil";
    if (!stands || where !== "outdoors" || (hasGust && base !== undefined)) return [];
    const what = `${place}: stands outdoors without ${hasGust ? "base" : base === undefined ? "gust and base" : "gust"}`;
    return [
      problem("check", "pieces", what, "type the gust in terms and the base in pieces for its ballast", row),
    ];
  });
}
