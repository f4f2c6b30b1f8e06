import { invalid } from "../calc-error";
import { piecewiseLinear } from "../numeric/piecewise";
import { ARCH_SOLIDITY } from "../practice";

/** Forms that WIND_NEWTONS and ANCHOR_KILOGRAMS know. */
export const WIND_FORMS = ["column", "wall", "ball", "arch"] as const;

/** One of `WIND_FORMS`. */
export type WindForm = (typeof WIND_FORMS)[number];

/** Air density for wind loads, kg/m3. Source: EN 1991-1-4:2005, 4.5, recommended value. */
export const WIND_AIR_DENSITY = 1.25;

/**
 * Drag coefficient of a long circular cylinder across the wind. Source: Matthews, Aeronautical Engineer's
 * Data Book, fig. 5.13.
 */
const CYLINDER_DRAG = 1.2;
/**
 * Drag coefficient of a sphere before the drag crisis. Source: White, Fluid Mechanics, and Hoerner,
 * Fluid-Dynamic Drag; from memory.
 */
const SPHERE_DRAG = 0.47;
/**
 * Drag coefficient of a flat plate by [log slenderness]. Source: 1 by Matthews, fig. 5.13; 5, 10, 20 by
 * White, Fluid Mechanics, table 7.3, from memory.
 */
const PLATE_DRAG: readonly (readonly [number, number])[] = [
  [Math.log(1), 1.17],
  [Math.log(5), 1.2],
  [Math.log(10), 1.3],
  [Math.log(20), 1.5],
];
/**
 * Limit of an endless plate; the table's last slope must not pass it. Source: Hoerner, Fluid-Dynamic Drag,
 * from memory.
 */
const LONG_PLATE_DRAG = 2;

interface Exposure {
  /** Area that the drag coefficient belongs to, m2. */
  readonly area: number;
  readonly coefficient: number;
  /** Height of the wind's pull as a share of the height. */
  readonly lever: number;
}

/**
 * Area, drag coefficient and height of the pull for a form.
 * Column: the coefficient of a long cylinder, above the 0.68 to 0.98 published for short smooth ones,
 * because bumps and gaps do not let the air slip round the ends. Wall: flat plate whose foot the ground
 * seals, so that its height counts twice in the slenderness. Ball: sphere. Arch: a bent cylinder that fills
 * `ARCH_SOLIDITY` of its outline, its pull at 2/pi of the height, the centroid of a half circle of line.
 *
 * @param width m, above 0
 * @param height m, above 0
 * @param form a word of `WIND_FORMS`, any case
 * @returns area m2, coefficient, lever share
 * @throws `#VALUE!` for another form or a piece of no size
 */
export function windExposure(width: number, height: number, form: string): Exposure {
  if (width <= 0) throw invalid("width", "be above 0 m", width);
  if (height <= 0) throw invalid("height", "be above 0 m", height);
  const outline = width * height;
  switch (form.trim().toLowerCase()) {
    case "column":
      return { area: outline, coefficient: CYLINDER_DRAG, lever: 0.5 };
    case "wall": {
      const slenderness = Math.max(width, 2 * height) / Math.min(width, 2 * height);
      const coefficient = Math.min(LONG_PLATE_DRAG, piecewiseLinear(PLATE_DRAG, Math.log(slenderness)));
      return { area: outline, coefficient, lever: 0.5 };
    }
    case "ball":
      return { area: (Math.PI / 4) * outline, coefficient: SPHERE_DRAG, lever: 0.5 };
    case "arch":
      return { area: ARCH_SOLIDITY.value * outline, coefficient: CYLINDER_DRAG, lever: 2 / Math.PI };
    default:
      throw invalid("form", `be one of ${WIND_FORMS.join(", ")}`, form);
  }
}

/**
 * Velocity pressure of wind. Source: EN 1991-1-4:2005, equation 4.10, q = 1/2 rho v^2.
 *
 * @param speed m/s
 * @returns Pa
 */
export function velocityPressure(speed: number): number {
  return (WIND_AIR_DENSITY / 2) * speed ** 2;
}

/**
 * WIND_NEWTONS: push of the wind on a balloon piece.
 * Source: drag = q Cd A; q by EN 1991-1-4, Cd and A by `windExposure`.
 *
 * @param width m
 * @param height m
 * @param speed m/s
 * @param form a word of `WIND_FORMS`
 * @returns N
 * @throws `#VALUE!` for another form or a piece of no size
 */
export function windDrag(width: number, height: number, speed: number, form = "column"): number {
  const { area, coefficient } = windExposure(width, height, form);
  return velocityPressure(speed) * coefficient * area;
}
