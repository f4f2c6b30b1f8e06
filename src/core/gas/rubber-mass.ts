import { piecewiseLinear } from "../numeric/piecewise";
import { fromSi } from "../units";

/**
 * Weight of an empty round latex balloon by printed size: [in, g]. Source: common practice, as kitchen
 * scales show; makes differ by a fifth.
 */
export const RUBBER_GRAMS: readonly (readonly [inches: number, grams: number])[] = [
  [5, 1],
  [9, 2],
  [10, 2.6],
  [11, 3.2],
  [12, 3.7],
  [14, 5.2],
  [16, 7],
  [18, 9],
  [24, 18],
  [30, 31],
  [36, 50],
];

const LOG_TABLE = RUBBER_GRAMS.map(([inches, grams]) => [Math.log(inches), Math.log(grams)] as const);

/**
 * Mass of the rubber of a round latex balloon that is filled to its printed size.
 * Source: common practice, `RUBBER_GRAMS`, power laws between its sizes and beyond them.
 *
 * @param across printed size, m
 * @returns mass, kg
 */
export function rubberMass(across: number): number {
  return Math.exp(piecewiseLinear(LOG_TABLE, Math.log(fromSi(across, "in")))) / 1000;
}
