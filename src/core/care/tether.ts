import { elongation } from "../gas/balloon-shape";
import type { HeliumType } from "../gas/balloon-type";
import type { LiftConditions } from "../gas/lift";
import { netLift } from "../gas/lift";
import { TETHER_SAFETY } from "../practice";
import { slidingMass } from "./anchor";
import { assertGust } from "./take-down";
import { velocityPressure, windDrag } from "./wind";

/**
 * Drag coefficient of a foil balloon face on, a disc. Source: flat plate, 1.17, Matthews, Aeronautical Engineer's Data
 * Book, fig. 5.13.
 */
const FOIL_DRAG = 1.17;
/**
 * Diameter of a full round foil balloon over its flat diameter. Source: Paulsen, Amer. Math. Monthly 101 (1994) 953.
 */
const FOIL_INFLATED_RATIO = 0.7627597635;

/**
 * Push of the wind on one floating balloon: a ball seen from its long side, or a round foil face on.
 * Source: `windDrag`; a disc by Matthews.
 *
 * @param across inflated diameter of latex, flat diameter of round foil, m
 * @param wind m/s
 * @param type latex or foil
 * @returns N
 */
export function balloonDrag(across: number, wind: number, type: HeliumType = "latex"): number {
  const long = across * elongation(across);
  // It floats well above the ground.
  if (type !== "foil") return windDrag(across, long, wind, "ball", undefined, 2 * long);
  return velocityPressure(wind) * FOIL_DRAG * (Math.PI / 4) * (FOIL_INFLATED_RATIO * across) ** 2;
}

/**
 * TETHER_GRAMS: weight that holds a bouquet of helium balloons down. In wind the weight must not slide
 * either: every balloon catches the full wind, none shelters behind another, and the pull of the balloons
 * is taken off what presses the weight on the floor.
 * Source: Coulomb friction, m g = drag/mu + lift, times a safety factor; drag by `windDrag` on a ball, of foil on a disc;
 * friction by common practice.
 *
 * @param count balloons
 * @param across inflated diameter of latex, flat diameter of round foil, m
 * @param safety factor
 * @param wind gust, m/s
 * @param empty mass of one empty balloon, kg
 * @param conditions air and gas
 * @param type latex or foil
 * @returns mass, kg; 0 where nothing lifts and no wind blows
 * @throws `#N/A` above the take-down gust
 */
export function tetherMass(
  count: number,
  across: number,
  safety = TETHER_SAFETY.value,
  wind = 0,
  empty?: number,
  conditions: LiftConditions = {},
  type: HeliumType = "latex",
): number {
  assertGust(wind);
  const lift = Math.max(0, netLift(across, empty, conditions, type));
  const drag = balloonDrag(across, wind, type);
  return safety * count * (lift + slidingMass(drag));
}
