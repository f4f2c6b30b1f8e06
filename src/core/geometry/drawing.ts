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

/**
 * The same balloons elsewhere.
 *
 * @param places balloons
 * @param by distances along each direction, m
 * @returns balloons in the same order
 */
export function moved<Place extends Placement>(
  places: readonly Place[],
  by: Partial<Pick<Placement, "x" | "y" | "z">>,
): readonly Place[] {
  const { x = 0, y = 0, z = 0 } = by;
  return places.map((place) => ({ ...place, x: place.x + x, y: place.y + y, z: place.z + z }));
}

/**
 * How far balloons reach to the sides.
 *
 * @param places balloons
 * @returns left and right end, m; infinities without balloons
 */
export function sidesOf(places: readonly Placement[]): readonly [left: number, right: number] {
  return places.reduce<readonly [number, number]>(
    ([left, right], { x, radius }) => [Math.min(left, x - radius), Math.max(right, x + radius)],
    [Infinity, -Infinity],
  );
}

/**
 * How high balloons reach.
 *
 * @param places balloons
 * @returns m, 0 without balloons
 */
export function topOf(places: readonly Placement[]): number {
  return places.reduce((most, { y, radius }) => Math.max(most, y + radius), 0);
}

/**
 * The same balloons as far to the left of the middle as to the right.
 *
 * @param places balloons
 * @returns balloons in the same order
 */
export function centred<Place extends Placement>(places: readonly Place[]): readonly Place[] {
  if (places.length === 0) return places;
  const [left, right] = sidesOf(places);
  return moved(places, { x: -(left + right) / 2 });
}
