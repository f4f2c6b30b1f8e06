import { invalid } from "../calc-error";
import { airVolume } from "../gas/fill";
import { wholeUp } from "../numeric/whole";
import { ASSEMBLED_PACKING } from "../practice";

/**
 * TRANSPORT_CUBIC_METRES: room that loose balloons, bagged or in pieces that give way, take in a van; rigid
 * pieces take their `boxVolume`.
 * Source: volume of the balloons over the packed share, which is common practice (`ASSEMBLED_PACKING` for
 * pieces, `BAGGED_PACKING` for bags).
 *
 * @param count balloons
 * @param balloon inflated diameter, m
 * @param packing share of the room that is balloon; assembled pieces by default
 * @returns volume, m3
 * @throws CalcError `#VALUE!` where `packing` is not above 0
 */
export function transportVolume(count: number, balloon: number, packing = ASSEMBLED_PACKING.value): number {
  if (!(packing > 0)) throw invalid("packing", "be above 0 and at most 1", packing);
  return airVolume(balloon, count) / packing;
}

/**
 * BOX_CUBIC_METRES: room that rigid pieces take in a van: each its own box, since nothing fits between a column's
 * balloons.
 *
 * @param width m, above 0
 * @param height m, above 0
 * @param depth m, above 0; round pieces are as deep as wide
 * @param pieces how many
 * @returns volume, m3
 */
export function boxVolume(width: number, height: number, depth = width, pieces = 1): number {
  return width * height * depth * pieces;
}

/**
 * COUNT_TRIPS: journeys of one van.
 *
 * @param cubicMetres room that the load takes, m3
 * @param van room in the van, m3
 * @returns trips, whole; 0 where there is no load
 * @throws CalcError `#VALUE!` where `van` is not above 0
 */
export function tripCount(cubicMetres: number, van: number): number {
  if (!(van > 0)) throw invalid("van", "be above 0 m3", van);
  return wholeUp(cubicMetres / van);
}
