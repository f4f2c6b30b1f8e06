import { overflow } from "../calc-error";

/**
 * A balloon of a drawing: centre and radius in m; x to the right of the middle, y up from the base, z towards
 * the viewer.
 */
export interface Placement {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly radius: number;
  /** 1 for the row, ring or cluster nearest the base, or the left end of what lies along a line. */
  readonly row: number;
}

/** Most balloons of a drawing. */
export const MOST_PLACEMENTS = 20_000;

/**
 * Refuses drawings of more balloons than `MOST_PLACEMENTS`.
 *
 * @param count balloons
 * @throws `#NUM!`
 */
export function refuseLargeDrawing(count: number): void {
  if (count > MOST_PLACEMENTS)
    throw overflow(`a drawing of more than ${MOST_PLACEMENTS} balloons is not made`);
}

/**
 * The same balloons with the lowest one standing on the base.
 *
 * @param places balloons, in any height
 * @returns balloons in the same order
 */
export function standing<Place extends Placement>(places: readonly Place[]): readonly Place[] {
  const lowest = places.reduce((least, { y, radius }) => Math.min(least, y - radius), Infinity);
  return places.map((place) => ({ ...place, y: place.y - lowest }));
}
