import { BALLOON_OVERPRESSURE } from "../practice";

/**
 * Absolute pressure inside an inflated latex balloon. One share serves all sizes: past the first stretch
 * the pressure of a rubber membrane hardly changes with size (Mueller & Strehlow, Rubber and Rubber
 * Balloons, 2004, after Mooney and Rivlin).
 * Source: common practice, 2.5 %.
 *
 * @param outside air pressure, Pa
 * @returns pressure, Pa
 */
export function insidePressure(outside: number): number {
  return outside * (1 + BALLOON_OVERPRESSURE.value);
}
