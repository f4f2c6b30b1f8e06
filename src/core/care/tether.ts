import { elongation } from "../gas/balloon-shape";
import type { LiftConditions } from "../gas/lift";
import { netLift } from "../gas/lift";
import { rubberMass } from "../gas/rubber-mass";
import { TETHER_SAFETY } from "../practice";
import { slidingMass } from "./anchor";
import { assertGust } from "./take-down";
import { windDrag } from "./wind";

/**
 * TETHER_GRAMS: weight that holds a bouquet of helium balloons down. In wind the weight must not slide
 * either: every balloon catches the full wind, none shelters behind another, and the pull of the balloons
 * is taken off what presses the weight on the floor.
 * Source: Coulomb friction, m g = drag/mu + lift, times a safety factor; drag by `windDrag` on a ball;
 * friction by common practice.
 *
 * @param count balloons
 * @param across inflated diameter, m
 * @param safety factor
 * @param wind gust, m/s
 * @param rubber mass of one empty balloon, kg
 * @param conditions air and gas
 * @returns mass, kg; 0 where nothing lifts and no wind blows
 * @throws `#N/A` above the take-down gust
 */
export function tetherMass(
  count: number,
  across: number,
  safety = TETHER_SAFETY.value,
  wind = 0,
  rubber = rubberMass(across),
  conditions: LiftConditions = {},
): number {
  assertGust(wind);
  const lift = Math.max(0, netLift(across, rubber, conditions));
  const drag = windDrag(across, across * elongation(across), wind, "ball");
  return safety * count * (lift + slidingMass(drag));
}
