import { attempt, required } from "../attempt";
import { orNone } from "../numeric/tally";
import { UNITS } from "../units";
import { isWithheld, sumKnown, whenKnown, withheld, type Known } from "../withheld";
import { sinking } from "./dangers";
import type { PartKind } from "./cells";
import type { Problem } from "../problem";
import type { JobPlan } from "./job-plan";
import { rowCheck, type Part, type Piece } from "./part";
import { partAir, partLift, partTether, roundFoil } from "./part-gas";
import { partRoom } from "./part-room";
import { buildingWork, leadingPart, riggingWork } from "./part-work";
import type { PlannedPart, PlannedPiece } from "./plan-parts";
import type { EventScope } from "./scope";
import { statusOf } from "./status";
import type { WorkTable } from "./work-table";

/** A row of PART_PLAN. Sizes and ribbon in m, air and helium in m3, lift and tether in kg. */
export interface PartPlanRow {
  readonly event: string;
  readonly option: string;
  readonly name: string;
  readonly part: PartKind | "";
  readonly quantity: Known;
  readonly "balloons each": Known;
  readonly balloons: Known;
  readonly clusters: Known;
  readonly metres: Known;
  readonly m2: Known;
  /** Empty for a sleeve. */
  readonly inflated: Known | "";
  readonly air: Known;
  readonly helium: Known;
  /** Of one piece. */
  readonly lift: Known;
  /** Of one piece. */
  readonly tether: Known;
  readonly ribbon: Known;
  /** Person-hours. */
  readonly hours: Known;
  readonly m3: Known;
  readonly status: string;
}

/**
 * PART_PLAN: what every row of pieces comes to. Where pieces name options, all of them are listed, or the chosen one.
 *
 * @param plan of the job
 * @returns one row for each part and event, in the order of pieces
 */
export function partPlan({ scope, work, scenarios, piecesOf }: JobPlan): readonly PartPlanRow[] {
  const rows = new Map<string, PartPlanRow>();
  const keyOf = (event: string, place: string): string => `${event}\n${place}`;
  for (const { event, inForce } of scenarios) {
    const plain = inForce.map(([name]) => [name, ""] as const);
    const withoutOption = new Map(
      piecesOf(plain)
        .filter(({ piece }) => piece.event === event)
        .map((planned) => [planned.piece.name, planned.piece] as const),
    );
    for (const planned of piecesOf(inForce)) {
      if (planned.piece.event !== event) continue;
      const rigging = riggingByPart(planned.piece, withoutOption.get(planned.piece.name), work);
      for (const part of planned.parts) {
        const key = keyOf(event, part.part.place);
        if (!rows.has(key)) rows.set(key, rowOf(part, planned, orNone(rigging.get(part.part)), work));
      }
    }
  }
  const unplaced = scope.problems.filter(({ table, row }) => table === "pieces" && row !== undefined);
  return scope.lines.flatMap(({ event, line }) => {
    const row = rows.get(keyOf(event, line.place));
    if (row === undefined) return [];
    const own = unplaced.filter((problem) => problem.what.startsWith(`${line.place}:`));
    return own.length === 0 ? [row] : [{ ...row, status: statusOf(own) }];
  });
}

/**
 * Rigging of a piece by the part that it stands on: what rows without option need stands on the first of them, what an option
 * adds on its own first row, so that each option adds up.
 */
function riggingByPart(
  piece: Piece,
  withoutOption: Piece | undefined,
  work: WorkTable,
): ReadonlyMap<Part, Known> {
  const all = attempt(() => riggingWork(piece, work));
  const leading = leadingPart(piece);
  const added = piece.parts.find(({ option }) => option !== "");
  const plain = piece.parts.find(({ option }) => option === "");
  if (added === undefined || plain === undefined || withoutOption === undefined)
    return new Map(leading === undefined ? [] : [[leading, all]]);
  const base = attempt(() => riggingWork(withoutOption, work));
  if (isWithheld(base)) return new Map([[plain, all]]);
  return new Map([
    [plain, base],
    [added, whenKnown([all], (whole) => Math.max(0, whole - base))],
  ]);
}

function rowOf(
  { part, colours, helium, ribbon }: PlannedPart,
  { piece, event }: PlannedPiece,
  rigging: Known,
  work: WorkTable,
): PartPlanRow {
  const { quantity, place } = part;
  const isParked = quantity === 0;
  const times = (value: number | undefined): Known =>
    isWithheld(part.balloons) && value === undefined
      ? part.balloons
      : whenKnown([quantity], (pieces) => pieces * orNone(value));
  const sure = (compute: () => number): Known =>
    isParked ? 0 : part.unread === undefined ? attempt(compute, place) : withheld(part.unread);
  const inner = colours.inner;
  const building = sure(() => buildingWork(part, required(inner), event.terms, work));
  const lift = sure(() => partLift(part, required(inner), event.terms));
  const tether = sure(() => partTether(part, required(inner), event.terms));
  return {
    event: part.event,
    option: part.option,
    name: part.name,
    part: part.kind ?? "",
    quantity,
    "balloons each": isParked && isWithheld(part.each) ? 0 : part.each,
    balloons: part.balloons,
    clusters: sure(() => required(quantity) * required(part.clusters)),
    metres: times(part.metres),
    m2: times(part.area),
    inflated: part.inflated ?? "",
    air: sure(() => partAir(part)),
    helium: sure(() => required(helium)),
    lift,
    tether,
    ribbon: sure(() => required(ribbon)),
    hours: whenKnown([sumKnown([building, rigging])], (seconds) => seconds / UNITS.h.si),
    m3: sure(() => partRoom(part, piece)),
    status: statusOf(partProblems({ part, colours, helium, ribbon }, piece, event, lift, tether)),
  };
}

function partProblems(
  planned: PlannedPart,
  piece: Piece,
  { terms }: EventScope,
  lift: Known,
  tether: Known,
): readonly Problem[] {
  const { part, colours, ribbon } = planned;
  const { place } = part;
  const problems = [...part.problems, ...piece.problems.filter(({ what }) => what.startsWith(`${place}:`))];
  if (part.quantity === 0 || isWithheld(part.balloons)) return problems;
  if (isWithheld(colours.inner)) problems.push(...colours.problems);
  if (isWithheld(ribbon))
    problems.push({ ...rowCheck(part, ribbon.sentence), weight: "stop", reach: { of: "job" } });
  if (part.gas === "air") return problems;
  problems.push(...roundFoil(part));
  if (isWithheld(lift)) problems.push(rowCheck(part, lift.sentence));
  problems.push(...sinking(planned, terms));
  if (isWithheld(tether) && !isWithheld(lift)) {
    const isUnsafe = terms.gust.value !== undefined;
    problems.push({
      ...rowCheck(part, tether.sentence),
      weight: isUnsafe ? "unsafe" : "check",
    });
  }
  return problems;
}
