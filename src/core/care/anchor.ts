import { invalid } from "../calc-error";
import { STANDARD_GRAVITY } from "../gas/atmosphere";
import { ANCHOR_SAFETY, FLOOR_FRICTION } from "../practice";
import { assertGust } from "./take-down";
import { velocityPressure, windExposure } from "./wind";

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

/** Ballast of a piece and what it is for. */
export interface Anchoring {
  /** Push of the gust, N. */
  readonly push: number;
  /** Height of the middle of the push above the ground, m. */
  readonly centre: number;
  /** Ballast against tipping over, safety and lift included, kg. */
  readonly tipping: number;
  /** Ballast against sliding, safety and lift included, kg. */
  readonly sliding: number;
  /** Feet that share the ballast: two of an arch, else one. */
  readonly feet: number;
}

/**
 * ANCHOR_PLAN: ballast of a free-standing piece against tipping and against sliding. The weight of the piece itself is
 * left out, on the safe side. Helium in the piece pulls the base up, and so does the wind under a ball close to the ground:
 * both are added to the ballast.
 * Source: statics with a safety factor (common practice) on the push of `windExposure`.
 *
 * @param width m
 * @param height m
 * @param baseAcross narrowest width of the base, m, above 0; for an arch, of its footing along the wind
 * @param gust m/s
 * @param form a word of `WIND_FORMS`
 * @param safety factor
 * @param lift net lift of helium in the piece, kg
 * @param thickness of an arch's garland or of a pole, m
 * @param centre height of the middle of the push above the ground where the form's own does not hold, m
 * @returns push, its height, both ballasts and the feet
 * @throws `#VALUE!` for a base or piece of no size or another form, `#N/A` above the take-down gust
 */
export function anchoring(
  width: number,
  height: number,
  baseAcross: number,
  gust: number,
  form = "column",
  safety = ANCHOR_SAFETY.value,
  lift = 0,
  thickness?: number,
  centre?: number,
): Anchoring {
  if (baseAcross <= 0) throw invalid("base_across", "be above 0 m", baseAcross);
  assertGust(gust);
  const exposure = windExposure(width, height, form, thickness, centre);
  const push = velocityPressure(gust) * exposure.coefficient * exposure.area;
  const lifted = lift + (velocityPressure(gust) * exposure.lift * exposure.area) / STANDARD_GRAVITY;
  return {
    push,
    centre: exposure.centre,
    tipping: safety * (tippingMass(push, exposure.centre, baseAcross) + lifted),
    sliding: safety * (slidingMass(push) + lifted),
    feet: form.trim().toLowerCase() === "arch" ? 2 : 1,
  };
}

/**
 * ANCHOR_KILOGRAMS: ballast in the base of a free-standing piece, against tipping and sliding, whichever needs more; for
 * an arch in both feet together.
 * Source: `anchoring`.
 *
 * @param piece as `anchoring`
 * @returns kg
 * @throws as `anchoring`
 */
export function anchorMass(...piece: Parameters<typeof anchoring>): number {
  const { tipping, sliding } = anchoring(...piece);
  return Math.max(tipping, sliding);
}
