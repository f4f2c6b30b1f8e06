import { GAS_LOSS } from "../practice";
import { pressureAtAltitude, SEA_LEVEL_PRESSURE } from "./atmosphere";
import { latexVolume } from "./balloon-shape";
import { insidePressure } from "./overpressure";

/**
 * Volume of a round foil balloon over the cube of its flat diameter. Source: Paulsen, Amer. Math. Monthly
 * 101 (1994) 953.
 */
export const FOIL_VOLUME_RATIO = 0.152315527014821;

/**
 * AIR_LITRES: room inside round latex balloons. A pump moves this volume; the 2.5 % by which the rubber
 * squeezes it is left out, since decorators and capacity tables state the volume of the balloon.
 * Source: ellipsoid volume; elongation by common practice.
 *
 * @param across inflated diameter, m
 * @param count balloons
 * @returns volume, m3
 */
export function airVolume(across: number, count = 1): number {
  return count * latexVolume(across);
}

/**
 * Air pressure at an altitude as a share of sea level's: what a volume up there is as free gas at sea level.
 * Source: ISO 2533:1975.
 *
 * @param altitude geometric altitude, m
 * @returns share, 1 at sea level
 */
export function pressureShare(altitude: number): number {
  return altitude === 0 ? 1 : pressureAtAltitude(altitude) / SEA_LEVEL_PRESSURE;
}

/**
 * HELIUM_LITRES: helium to order for round latex balloons, as free gas at 101325 Pa and the room's temperature. Higher
 * up the air presses less, and a balloon of the same size holds less.
 * Source: Boyle's law at the balloon's overpressure; air pressure by ISO 2533:1975; loss and overpressure by common
 * practice.
 *
 * @param across inflated diameter, m
 * @param count balloons
 * @param gasLoss helium lost in neck, overfill and purge, as a share of what stays in the balloon
 * @param altitude geometric altitude where they are filled, m
 * @returns volume of free gas, m3
 */
export function heliumVolume(across: number, count = 1, gasLoss = GAS_LOSS.value, altitude = 0): number {
  return count * latexVolume(across) * insidePressure(pressureShare(altitude)) * (1 + gasLoss);
}

/**
 * FOIL_LITRES: gas in round foil balloons, two flat discs sealed at the rim and filled taut.
 * Source: Paulsen, Amer. Math. Monthly 101 (1994) 953: V = 0.1523 D^3.
 *
 * @param flatAcross diameter before filling, seam to seam, m
 * @param count balloons
 * @returns volume, m3
 */
export function foilVolume(flatAcross: number, count = 1): number {
  return count * FOIL_VOLUME_RATIO * flatAcross ** 3;
}
