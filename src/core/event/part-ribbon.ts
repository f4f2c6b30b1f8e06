import { required } from "../attempt";
import { invalid } from "../calc-error";
import { gatherLength, ribbonedCount } from "../geometry/ball";
import { RIBBON_KNOT_METRES } from "../practice";
import type { Part } from "./part";

/**
 * Ribbons on one piece of a part: one for each balloon; on a cover for those below its halfway line.
 *
 * @param part counted
 * @returns ribbons, whole; 0 where no ribbon was typed
 * @throws CalcError where the count is withheld
 */
export function ribbonCount({ cells, kind, each }: Part): number {
  if (cells.ribbon === undefined || cells.ribbon === 0) return 0;
  return kind === "cover" ? ribbonedCount(required(each), cells.covered) : required(each);
}

/**
 * Ribbon on all pieces of a part, knots and tails included. Those of a cover meet in one point below the finished ball.
 * Source: `gatherLength`; knot by common practice.
 *
 * @param part counted
 * @returns length, m; 0 where no ribbon was typed
 * @throws CalcError where the count is withheld, or a cover has no finished size
 */
export function partRibbon(part: Part): number {
  const { cells, kind, quantity, finished, place } = part;
  const { ribbon } = cells;
  const count = ribbonCount(part);
  if (ribbon === undefined || count === 0) return 0;
  const knots = count * RIBBON_KNOT_METRES.value;
  if (kind !== "cover") return required(quantity) * (count * ribbon + knots);
  if (finished === undefined)
    throw invalid(`${place}: ribbon`, "hang from a cover with a tied ball in the same piece", undefined);
  const hanging = gatherLength(required(part.each), finished, finished / 2 + ribbon, cells.covered);
  return required(quantity) * (hanging + knots);
}
