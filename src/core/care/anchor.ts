import { invalid } from "../calc-error";
import { STANDARD_GRAVITY } from "../gas/atmosphere";
import { ANCHOR_SAFETY, FLOOR_FRICTION } from "../practice";
import { assertGust } from "./take-down";
import { windDrag, windExposure } from "./wind";

/**
 * Weight in the middle of a base that keeps a horizontal push from tipping it over the edge.
 * Source: equilibrium of moments, m g b/2 = F h.
 *
 * @param push N
 * @param lever height of the push above the ground, m
 * @param baseAcross width of the base along the wind, m, above 0
 * @returns kg
 */
export function tippingMass(push: number, lever: number, baseAcross: number): number {
  return (2 * push * lever) / (STANDARD_GRAVITY * baseAcross);
}

/**
 * Weight that keeps a base from sliding. Source: Coulomb friction, m g mu = F; mu by common practice.
 *
 * @param push N
 * @returns kg
 */
export function slidingMass(push: number): number {
  return push / (FLOOR_FRICTION.value * STANDARD_GRAVITY);
}

/**
 * ANCHOR_KILOGRAMS: ballast in the base of a free-standing piece, against tipping and sliding, whichever
 * needs more. The weight of the piece itself is left out, on the safe side. Helium in the piece pulls the
 * base up: its net lift is added to the ballast; air-filled pieces have none.
 * Source: statics with a safety factor (common practice) on the drag of `windDrag`.
 *
 * @param width m
 * @param height m
 * @param baseAcross narrowest width of the base, m, above 0; for an arch, of its footing along the wind,
 * both feet together carry the ballast
 * @param gust m/s
 * @param form a word of `WIND_FORMS`
 * @param safety factor
 * @param lift net lift of helium in the piece, kg
 * @returns kg
 * @throws `#VALUE!` for a base or piece of no size or another form, `#N/A` above the take-down gust
 */
export function anchorMass(
  width: number,
  height: number,
  baseAcross: number,
  gust: number,
  form = "column",
  safety = ANCHOR_SAFETY.value,
  lift = 0,
): number {
  if (baseAcross <= 0) throw invalid("base_across", "be above 0 m", baseAcross);
  assertGust(gust);
  const push = windDrag(width, height, gust, form);
  const lever = windExposure(width, height, form).lever * height;
  return safety * (Math.max(tippingMass(push, lever, baseAcross), slidingMass(push)) + lift);
}
