import { overflow, unavailable } from "../calc-error";
import { wholeUp } from "../numeric/whole";
import { pressureAtAltitude } from "./atmosphere";
import { massOfType, volumeOfType, type HeliumType } from "./balloon-type";
import { heliumDensity } from "./helium";
import { moistAirDensity } from "./moist-air";
import { insidePressure } from "./overpressure";
import { rubberMass } from "./rubber-mass";

/** The air round a balloon and the gas inside. */
export interface LiftConditions {
  /** Air and gas temperature, K. */
  readonly temperature?: number;
  /** Geometric altitude, m. */
  readonly altitude?: number;
  /** Share of the gas that is helium; the rest is air. */
  readonly purity?: number;
  /** Relative humidity of the air, share. */
  readonly humidity?: number;
}

/**
 * Lift of a cubic metre of balloon gas before any rubber is carried.
 * Source: Archimedes; air by CIPM-2007, helium by NISTIR 8474 at the balloon's overpressure, pressure by
 * ISO 2533:1975.
 *
 * @param conditions defaults 20 C, sea level, pure helium, half-saturated air
 * @returns kg/m3
 */
export function liftDensity(conditions: LiftConditions = {}): number {
  const { temperature = 293.15, altitude = 0, purity = 1, humidity = 0.5 } = conditions;
  const outside = pressureAtAltitude(altitude);
  const inside = insidePressure(outside);
  const gas =
    purity * heliumDensity(inside, temperature) + (1 - purity) * moistAirDensity(temperature, inside, 0);
  return moistAirDensity(temperature, outside, humidity) - gas;
}

/**
 * LIFT_GRAMS: what one helium balloon can carry beyond its own weight; negative when it does not float.
 * Source: `liftDensity`, `volumeOfType`, weight by `massOfType` unless given.
 *
 * @param across inflated diameter of latex, flat diameter of round foil, m
 * @param empty mass of the empty balloon, kg
 * @param conditions air and gas
 * @param type latex or foil
 * @returns mass, kg
 */
export function netLift(
  across: number,
  empty?: number,
  conditions: LiftConditions = {},
  type: HeliumType = "latex",
): number {
  return volumeOfType(across, type) * liftDensity(conditions) - (empty ?? massOfType(across, type));
}

/**
 * COUNT_TO_LIFT: helium balloons that carry a load, without reserve.
 * Source: `netLift`.
 *
 * @param load mass, kg
 * @param across inflated diameter, m
 * @param rubber mass of one empty balloon, kg
 * @param conditions air and gas
 * @returns whole balloons
 * @throws `#N/A` when one balloon does not even lift itself, `#NUM!` above 1e9 balloons
 */
export function countToLift(
  load: number,
  across: number,
  rubber = rubberMass(across),
  conditions: LiftConditions = {},
): number {
  const lift = netLift(across, rubber, conditions);
  if (lift <= 0) throw unavailable("a balloon of this size does not lift its own rubber");
  const count = wholeUp(load / lift);
  if (count > 1e9) throw overflow("more than 1e9 balloons would be needed");
  return count;
}
