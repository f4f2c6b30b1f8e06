import { attempt, required } from "../attempt";
import { CalcError } from "../calc-error";
import { entryAt } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import { isWithheld, sumKnown, type Known } from "../withheld";
import { goodsOf, type Goods } from "./goods";
import { goodsAmounts, goodsUse } from "./goods-amounts";
import { awayOf, eventStages, momentsOf } from "./event-stages";
import { itemNeeds, partDemands, type Away, type ItemNeed } from "./item-needs";
import type { Job } from "./job";
import { check, saidOf, type Problem } from "../problem";
import { jobProblems } from "./job-problems";
import { materialsOf, type Materials } from "./materials";
import { pieceWork, type PieceWork } from "./piece-work";
import type { PlannedPiece } from "./plan-parts";
import { returnedOf } from "./returned";
import { purchasesOf, type Purchases } from "./purchases";
import type { EventScope, JobScope } from "./scope";
import { requiredTerm, termOf, type Terms } from "./terms";
import { eventTravel, type EventTravel } from "./travel";
import { eventTrips, type EventTrips } from "./trips";
import type { WorkTable } from "./work-table";

/** Everything that one scenario of a job takes and pays, before it is rounded into rows. */
export interface ScenarioCosts {
  readonly pieces: readonly PlannedPiece[];
  readonly work: readonly PieceWork[];
  readonly travel: readonly EventTravel[];
  /** In the order of travel. */
  readonly trips: readonly EventTrips[];
  readonly needs: readonly ItemNeed[];
  readonly purchases: Purchases;
  readonly materials: Materials;
  readonly goods: Goods;
  /** All problems, each once. */
  readonly problems: readonly Problem[];
}

const NOTHING_BOUGHT: Purchases = { items: [], orders: [], delivery: 0, problems: [] };

/**
 * Works out one scenario: counts, needs, purchases, goods, work and travel.
 *
 * @param job the tables
 * @param scope its events
 * @param pieces that are built with one option of each event in force
 * @param work the decorator's own minutes
 * @returns all of it; what cannot be known is withheld where it is needed and named among the problems
 */
export function scenarioCosts(
  job: Job,
  scope: JobScope,
  pieces: readonly PlannedPiece[],
  work: WorkTable,
): ScenarioCosts {
  const works = pieces.map((piece) => pieceWork(piece, work));
  const worksOf = (event: EventScope): readonly PieceWork[] =>
    works.filter((_, index) => entryAt(pieces, index).event === event);
  const problems = [...jobProblems(job, scope, pieces)];
  const events = scope.events.filter((event) => pieces.some((piece) => piece.event === event));
  const [first = scope.events[0]] = events;
  const terms = first?.terms;
  const charged = {
    costing: chargedBy(terms, "costing", "used share" as const),
    worth: chargedBy(terms, "leftover worth", 1),
  };
  const use = goodsUse(job, pieces);
  // How much there is to load does not hang on how often it is driven.
  const load = goodsAmounts(use, new Map(events.map(({ name }) => [name, 0])));
  const trips = events.map((event) => eventTrips(job, event, pieces, load));
  const travel = events.map((event, place) =>
    eventTravel(event, worksOf(event), entryAt(trips, place).trips, work),
  );
  problems.push(...trips.flatMap((of) => of.problems), ...travel.flatMap((of) => of.problems));
  const demands = partDemands(pieces);
  const { away, unknown } = awayByEvent(travel, worksOf);
  if (travel.length > 1) problems.push(...unknown);
  const needs = stopped(problems, [], () => itemNeeds(demands, away, returnedOf(job)));
  const purchases = stopped(problems, NOTHING_BOUGHT, () =>
    purchasesOf(job, needs, terms && termOf(terms, "missing balloon each")),
  );
  problems.push(...purchases.problems);
  const materials = materialsOf(job, pieces, purchases, {
    costing: charged.costing,
    "leftover worth": charged.worth,
  });
  const byEvent = new Map(travel.map((of) => [of.event.name, of.trips]));
  const goods = goodsOf(use, byEvent, charged);
  problems.push(...materials.problems, ...goods.problems, ...moneyProblems(events));
  return { pieces, work: works, travel, trips, needs, purchases, materials, goods, problems: once(problems) };
}

/** When each event is away; one whose hours cannot be told overlaps every other. */
function awayByEvent(
  travel: readonly EventTravel[],
  worksOf: (event: EventScope) => readonly PieceWork[],
): { readonly away: Away; readonly unknown: readonly Problem[] } {
  const away = new Map<string, { readonly out: number; readonly back: number }>();
  const unknown: Problem[] = [];
  for (const of of travel) {
    const { name } = of.event;
    let why = "ready and end with their dates are not given";
    try {
      const span = awayOf(eventStages(of, worksOf(of.event)), momentsOf(of.event.terms));
      if (span !== undefined) {
        away.set(name, span);
        continue;
      }
    } catch (error) {
      if (!(error instanceof CalcError)) throw error;
      why = error.message;
    }
    const what = `when "${name}" is away is not known, nothing comes back from it in time for another event: ${why}`;
    unknown.push(check("events", what, "give each event its ready and end with dates"));
  }
  return { away, unknown };
}

/** A term that decides how things are charged; a doubtful one stops the job elsewhere. */
function chargedBy<Name extends "costing" | "leftover worth", Value>(
  terms: Terms | undefined,
  name: Name,
  usual: Value,
): (Terms[Name]["value"] & {}) | Value {
  return terms?.[name].value ?? usual;
}

/** Computes, or puts down why the whole job stops. */
function stopped<Value>(problems: Problem[], otherwise: Value, compute: () => Value): Value {
  try {
    return compute();
  } catch (error) {
    if (!(error instanceof CalcError)) throw error;
    problems.push({
      weight: "stop",
      table: "pieces",
      what: error.message,
      todo: "mend the row",
      reach: { of: "job" },
    });
    return otherwise;
  }
}

function once(problems: readonly Problem[]): readonly Problem[] {
  const seen = new Set<string>();
  return problems.filter((problem) => {
    const key = `${saidOf(problem)}\n${problem.reach.of === "item" ? problem.reach.key : ""}`;
    return !seen.has(key) && seen.add(key);
  });
}

/** Terms without which money cannot be known. */
function moneyProblems(events: readonly { readonly terms: Terms }[]): readonly Problem[] {
  const wanted = [
    ["pay", "work"],
    ["travel", "travel"],
    ["distance", "travel"],
    ["per km", "travel"],
    ["margin", "price"],
  ] as const;
  return wanted.flatMap(([name, of]): readonly Problem[] => {
    const event = events.find(
      ({ terms }) => terms[name].value === undefined && terms[name].doubt === undefined,
    );
    if (event === undefined) return [];
    const found = attempt(() => requiredTerm(event.terms, name));
    const what = isWithheld(found) ? found.sentence : name;
    return [{ weight: "stop", table: "terms", what, todo: `type ${name} in terms`, reach: { of } }];
  });
}

/**
 * Balloons of a piece, second ones inside not counted.
 *
 * @param piece planned
 * @returns balloons of all of it
 */
export function pieceBalloons({ piece }: PlannedPiece): Known {
  return sumKnown(piece.parts.map(({ balloons }) => balloons));
}

/**
 * Helium to order for some pieces.
 *
 * @param pieces planned
 * @returns m3
 */
export function heliumOf(pieces: readonly PlannedPiece[]): Known {
  return attempt(() => sum(pieces.flatMap(({ parts }) => parts.map(({ helium }) => required(helium)))));
}
