import { type Placement, refuseLargeDrawing } from "./drawing";
import { outlinePlaces } from "./outline";
import type { Corner } from "./polygon";

/**
 * Drawing of `outlineCount`. Neighbours are exactly at the spacing; x and y are the outline's own, y from its
 * lowest corner.
 *
 * @param corners corners of the outline in order, m
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons, row by row of the lattice
 * @throws CalcError as `outlineCount`; `#NUM!` for more than 20000 balloons
 */
export function outlinePlacements(
  corners: readonly Corner[],
  balloon: number,
  spacing = 1,
): readonly Placement[] {
  const places = outlinePlaces(corners, balloon, spacing);
  refuseLargeDrawing(places.length);
  const base = corners.reduce((least, { y }) => Math.min(least, y), Infinity);
  const first = places[0]?.row ?? 1;
  return places.map(({ x, y, row }) => ({ x, y: y - base, z: 0, radius: balloon / 2, row: row - first + 1 }));
}
