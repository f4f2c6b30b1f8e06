import { attempt, required } from "../attempt";
import { entryAt, present } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import { orNone } from "../numeric/tally";
import { UNITS } from "../units";
import { isWithheld, whenKnown, withheld, type Known } from "../withheld";
import type { PlannedGood } from "./goods";
import { rowsForPart } from "./goods-use";
import { check, type Problem } from "../problem";
import type { PlannedPiece } from "./plan-parts";
import { piecePrice, type PiecePrice } from "./pricing";
import { pieceBalloons, type ScenarioCosts } from "./scenario-costs";
import { stopping } from "./status";
import { requiredTerm, type Terms } from "./terms";
import type { EventTravel } from "./travel";
import { nearestCent, wholeCents } from "./whole-cents";

/** Name of the row of an event that holds what belongs to no piece. */
export const TRAVEL_NAME = "travel and loading";

/** A row of costs: a piece, or the travel and loading of an event. Money in the sheet's currency, whole cents. */
export interface CostRow extends PiecePrice {
  readonly event: string;
  readonly name: string;
  readonly quantity: Known;
  readonly balloons: Known;
  /** Person-hours. */
  readonly hours: Known;
  readonly materials: Known;
  readonly goods: Known;
  readonly work: Known;
  readonly travel: Known;
  /** Materials, goods, work and travel. */
  readonly cost: Known;
  /** Cash paid out for balloons and goods. */
  readonly bought: Known;
  readonly problems: readonly Problem[];
}

/** Amounts of a row before they are rounded; those that cannot be known are withheld. */
interface Draft {
  readonly event: string;
  readonly name: string;
  readonly terms: Terms;
  readonly fixed: number | undefined;
  readonly quantity: Known;
  readonly balloons: Known;
  /** s */
  readonly time: Known;
  readonly materials: Known;
  readonly goods: Known;
  readonly work: Known;
  readonly travel: Known;
  readonly bought: Known;
  readonly problems: readonly Problem[];
}

/**
 * The costs of a scenario as rows: one for each piece, then travel and loading for each event. Materials and goods are shared in
 * whole cents that add up to their totals; work and travel are rounded row by row.
 *
 * @param costs worked out
 * @returns rows by event; where travel is spread its row is shared out over the pieces by their cost
 */
export function costRows(costs: ScenarioCosts): readonly CostRow[] {
  const drafts = costs.travel.flatMap((travel) => {
    const pieces = costs.pieces.flatMap((piece, place) =>
      piece.event === travel.event ? [pieceDraft(costs, piece, place)] : [],
    );
    const last = travelDraft(costs, travel);
    const isSpread = travel.event.terms["spread travel"].value === true;
    return isSpread && pieces.length > 0 ? spread(pieces, last) : [...pieces, last];
  });
  const column = (name: "materials" | "goods" | "bought"): readonly Known[] =>
    inCents(drafts.map((draft) => draft[name]));
  const [materials, goods, bought] = [column("materials"), column("goods"), column("bought")];
  return drafts.map((draft, index) =>
    rowOf(draft, entryAt(materials, index), entryAt(goods, index), entryAt(bought, index)),
  );
}

/** Whole cents of the amounts that are known, adding up to their total. */
function inCents(amounts: readonly Known[]): readonly Known[] {
  const cents = wholeCents(amounts.map((amount) => (isWithheld(amount) ? 0 : amount)));
  return amounts.map((amount, index) => (isWithheld(amount) ? amount : entryAt(cents, index)));
}

function rowOf(draft: Draft, materials: Known, goods: Known, bought: Known): CostRow {
  const work = whenKnown([draft.work], nearestCent);
  const travel = whenKnown([draft.travel], nearestCent);
  const cost = whenKnown([materials, goods, work, travel], (...columns) => nearestCent(sum(columns)));
  const { each, price, margin } = piecePrice(cost, draft.quantity, draft.fixed, draft.terms);
  return {
    event: draft.event,
    name: draft.name,
    quantity: draft.quantity,
    balloons: draft.balloons,
    hours: whenKnown([draft.time], (seconds) => seconds / UNITS.h.si),
    materials,
    goods,
    work,
    travel,
    cost,
    each,
    price,
    margin,
    bought,
    problems: [...draft.problems, ...belowCost({ price, cost })],
  };
}

/**
 * A price that does not pay what it costs.
 *
 * @param row its price and cost
 * @param name of the piece, where the sentence stands beside no row of it
 * @returns one check at most
 */
export function belowCost({ price, cost }: Pick<CostRow, "price" | "cost">, name = ""): readonly Problem[] {
  if (isWithheld(price) || isWithheld(cost) || price >= cost) return [];
  const of = name === "" ? "" : ` of "${name}"`;
  const what = `price ${price.toFixed(2)}${of} is below the cost of ${cost.toFixed(2)}`;
  return [check("COST_PLAN", what, "raise the price")];
}

/** An amount, or the sentence that takes it away. */
const unless = (sentence: string | undefined, compute: () => number): Known =>
  sentence === undefined ? attempt(compute) : withheld(sentence);

function paid(terms: Terms, seconds: Known): number {
  return (required(seconds) / UNITS.h.si) * requiredTerm(terms, "pay");
}

function pieceDraft(costs: ScenarioCosts, planned: PlannedPiece, place: number): Draft {
  const { piece, event } = planned;
  const job = stopping(costs.problems, "job");
  const material = entryAt(costs.materials.pieces, place);
  const goods = goodsShare(
    costs,
    (good) => entryAt(good.shares, place),
    (good) => serves(good, planned),
  );
  const noGoods = job ?? goods.why ?? costs.goods.uncovered.get(place);
  const noMaterials = job ?? material.why;
  const time = entryAt(costs.work, place).total;
  const own = costs.problems.filter(
    ({ reach }) => reach.of === "good" || reach.of === "work" || reach.of === "price",
  );
  const stops = [noMaterials, noGoods].flatMap((what) =>
    costs.problems.filter((problem) => problem.what === what),
  );
  return {
    event: piece.event,
    name: piece.name,
    terms: event.terms,
    fixed: piece.parts.find(({ cells }) => cells["price each"] !== undefined)?.cells["price each"],
    quantity: piece.quantity,
    balloons: pieceBalloons(planned),
    time,
    materials: unless(noMaterials, () => material.pays),
    goods: unless(noGoods, () => goods.pays),
    work: unless(job, () => paid(event.terms, time)),
    travel: 0,
    bought: unless(noMaterials ?? noGoods, () => material.bought + goods.bought),
    problems: [
      ...planned.problems,
      ...material.problems,
      ...stops,
      ...own.filter(({ weight, reach }) => weight === "stop" && reach.of !== "good"),
    ],
  };
}

function travelDraft(costs: ScenarioCosts, travel: EventTravel): Draft {
  const { event } = travel;
  const job = stopping(costs.problems, "job");
  const goods = goodsShare(costs, (good) => present(good.overhead.get(event.name)), isOverhead);
  const shown = costs.problems.filter(
    ({ reach, table, row, weight }) =>
      weight !== "note" &&
      (reach.of === "travel" ||
        reach.of === "work" ||
        reach.of === "price" ||
        reach.of === "job" ||
        (reach.of === "none" && !(table === "pieces" && row !== undefined))),
  );
  return {
    event: event.name,
    name: TRAVEL_NAME,
    terms: event.terms,
    fixed: undefined,
    quantity: 1,
    balloons: 0,
    time: travel.work,
    materials: unless(job, () => 0),
    goods: unless(job ?? goods.why, () => goods.pays),
    work: unless(job, () => paid(event.terms, travel.work)),
    travel: unless(job, () => required(travel.cost)),
    bought: unless(job ?? goods.why, () => goods.bought),
    problems: shown,
  };
}

/** What a row bears of all goods, and why that cannot be known where one of its goods is stopped. */
function goodsShare(
  costs: ScenarioCosts,
  shareOf: (good: PlannedGood) => number,
  takes: (good: PlannedGood) => boolean,
): { readonly pays: number; readonly bought: number; readonly why: string | undefined } {
  const { goods } = costs.goods;
  const unknown = goods.find((good) => good.charge === undefined && takes(good));
  return {
    pays: sum(goods.map((good) => shareOf(good) * orNone(good.charge?.pays))),
    bought: sum(goods.map((good) => shareOf(good) * orNone(good.charge?.bought))),
    why: unknown?.why ?? (unknown && `price of "${unknown.good.item}" is not known`),
  };
}

function serves({ good }: PlannedGood, piece: PlannedPiece): boolean {
  return piece.parts.some((part) => rowsForPart(good, piece, part).length > 0);
}

function isOverhead({ good }: PlannedGood): boolean {
  return good.lines.some(
    ({ cells }) => cells.per === "event" || cells.per === "trip" || cells.per === undefined,
  );
}

/** Travel shared out over pieces by what they cost, or evenly where they cost nothing. */
function spread(pieces: readonly Draft[], travel: Draft): readonly Draft[] {
  const weights = pieces.map((draft) =>
    attempt(() => sum([draft.materials, draft.goods, draft.work].map(required))),
  );
  const all = attempt(() => sum(weights.map(required)));
  return pieces.map((draft, index) => {
    const share = attempt(() => {
      const total = required(all);
      return total === 0 ? 1 / pieces.length : required(entryAt(weights, index)) / total;
    });
    const added = (name: "goods" | "work" | "travel" | "bought" | "time"): Known =>
      attempt(() => required(draft[name]) + required(share) * required(travel[name]));
    return {
      ...draft,
      time: added("time"),
      goods: added("goods"),
      work: added("work"),
      travel: added("travel"),
      bought: added("bought"),
      problems: index === pieces.length - 1 ? [...draft.problems, ...travel.problems] : draft.problems,
    };
  });
}
