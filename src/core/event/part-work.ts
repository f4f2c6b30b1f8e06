import { required } from "../attempt";
import { invalid } from "../calc-error";
import { present } from "../numeric/entry-at";
import {
  COUNT_SIZE_MINUTES,
  COUNT_STYLE_MINUTES,
  LAYERED_MINUTES,
  LONG_GARLAND_METRES,
  LONG_GARLAND_MINUTES,
  RIGGING_MINUTES,
  SLEEVE_RATE,
  STRIKE_RATE,
} from "../practice";
import { UNITS } from "../units";
import { isWithheld } from "../withheld";
import { STYLE_RATES } from "../work/build";
import type { WorkStyle } from "./cells";
import type { Problem } from "../problem";
import { rowCheck, type Part, type Piece } from "./part";
import { requiredTerm, type Terms } from "./terms";
import { taskOf, workOf, type WorkTable, type Worked } from "./work-table";

const HOUR = UNITS.h.si;
const MINUTE = UNITS.min.si;

/** Person-time for one balloon by style, s. Source: common practice. */
export function usualBalloonTime(style: WorkStyle): number {
  return HOUR / (style === "sleeve" ? SLEEVE_RATE.value : STYLE_RATES[style].value);
}

const worked = ({ name, kind, style }: Part): Worked => ({ name, kind: kind ?? "", style });

/**
 * Person-time to build all pieces of a part, without rigging.
 * Source: balloons x minutes / pace + inner balloons x minutes of layering; minutes by common practice or typed.
 *
 * @param part counted
 * @param inner balloons inside others in one piece
 * @param terms pace
 * @param work the decorator's own minutes
 * @returns person-time, s
 * @throws CalcError where a number is withheld or the pace is not above 0
 */
export function buildingWork(part: Part, inner: number, terms: Terms, work: WorkTable): number {
  const pace = requiredTerm(terms, "pace");
  if (!(pace > 0)) throw invalid("pace", "be above 0", pace, "1 is the usual pace, 2 twice as fast");
  const each = workOf(work, worked(part), "minutes per balloon") ?? usualBalloonTime(part.style);
  const layered = taskOf(work, "layered", "minutes per balloon") ?? LAYERED_MINUTES.value * MINUTE;
  const quantity = required(part.quantity);
  if (quantity === 0) return 0;
  return (required(part.balloons) * each) / pace + quantity * inner * layered;
}

/**
 * Person-time to strike all pieces of a part. Source: rate by common practice or typed.
 *
 * @param part counted
 * @param work the decorator's own minutes
 * @returns person-time, s
 * @throws CalcError where the count is withheld
 */
export function strikeWork(part: Part, work: WorkTable): number {
  const each = taskOf(work, "strike", "minutes per balloon") ?? HOUR / STRIKE_RATE.value;
  return required(part.balloons) * each;
}

/** Rigging of one piece by one of its parts, s. Source: common practice. */
function usualRigging(part: Part, isOnlyPart: boolean): number {
  const { kind, style, metres = 0 } = part;
  if (kind === undefined || kind === "count" || (kind === "tied ball" && isOnlyPart)) {
    if (style === "helium" || style === "ceiling" || style === "net")
      return COUNT_STYLE_MINUTES[style].value * MINUTE;
    const each = required(part.each);
    return present(COUNT_SIZE_MINUTES.find(({ upTo }) => each <= upTo)).value * MINUTE;
  }
  const isLong = kind === "garland" || kind === "mix";
  const further = isLong ? Math.max(0, metres - LONG_GARLAND_METRES.value) : 0;
  return (RIGGING_MINUTES[kind].value + further * LONG_GARLAND_MINUTES.value) * MINUTE;
}

/**
 * Person-time to rig one piece: what its first filled row says, else the largest that one of its parts needs.
 * Source: minutes by common practice or typed.
 *
 * @param piece counted
 * @param work the decorator's own minutes
 * @returns person-time for one piece, s
 * @throws CalcError where it depends on a number that is withheld
 */
export function riggingOfOne(piece: Piece, work: WorkTable): number {
  const built = piece.parts.filter(({ quantity }) => quantity !== 0);
  const typed = built.find(({ cells }) => cells.rigging !== undefined)?.cells.rigging;
  if (typed !== undefined) return typed;
  const minutes = built.map(
    (part) => workOf(work, worked(part), "minutes per piece") ?? usualRigging(part, built.length === 1),
  );
  return Math.max(0, ...minutes);
}

/**
 * Person-time to rig all of a piece, once for each.
 *
 * @param piece counted
 * @param work the decorator's own minutes
 * @returns person-time, s
 * @throws CalcError as `riggingOfOne`
 */
export function riggingWork(piece: Piece, work: WorkTable): number {
  const quantity = required(piece.quantity);
  return quantity === 0 ? 0 : quantity * riggingOfOne(piece, work);
}

/**
 * Rows whose rigging or price is not read because another row of their piece has its own.
 *
 * @param parts of one piece
 * @returns checks
 */
export function secondValues(parts: readonly Part[]): readonly Problem[] {
  return (["rigging", "price each"] as const).flatMap((column) => {
    const [first, ...others] = parts.filter(({ cells }) => cells[column] !== undefined);
    return others
      .filter(({ cells }) => cells[column] !== first?.cells[column])
      .map((part) => rowCheck(part, `${part.place}: ${column} is not read, ${first?.place ?? ""} has it`));
  });
}

/**
 * The first part of a piece that is built: rigging and the box of the whole piece stand on it.
 *
 * @param piece counted
 * @returns the part, or the first of all where none is built
 */
export function leadingPart(piece: Piece): Part | undefined {
  return piece.parts.find(({ quantity }) => isWithheld(quantity) || quantity > 0) ?? piece.parts[0];
}
