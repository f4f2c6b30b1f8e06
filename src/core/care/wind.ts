import { invalid } from "../calc-error";
import { archLength, archPoints } from "../geometry/arch";
import { inMetres } from "../geometry/checks";
import { columnAcross } from "../geometry/clusters";
import { entryAt } from "../numeric/entry-at";
import { piecewiseLinear } from "../numeric/piecewise";
import { sum } from "../numeric/sums";
import { GARLAND_BALLOON_INCHES, POLE_THICKNESS } from "../practice";
import { toSi } from "../units";

/** Forms that WIND_NEWTONS and ANCHOR_KILOGRAMS know. */
export const WIND_FORMS = ["column", "wall", "ball", "arch", "garland", "pole and ball"] as const;

/** One of `WIND_FORMS`. */
export type WindForm = (typeof WIND_FORMS)[number];

/** Air density for wind loads, kg/m3. Source: EN 1991-1-4:2005, 4.5, recommended value. */
export const WIND_AIR_DENSITY = 1.25;

/**
 * Force coefficient of a long rough circular cylinder across the wind: columns, arches, garlands and poles. Their end
 * effects, which would take off up to a third, are left out: bumps and gaps do not let the air slip round.
 * Source: EN 1991-1-4:2005, 7.9.2 and figure 7.28 for a roughness of a tenth of the diameter, from memory; the same
 * 1.2 in Matthews, Aeronautical Engineer's Data Book, fig. 5.13.
 */
const CYLINDER_FORCE = 1.2;
/**
 * Force coefficient of a sphere before the drag crisis, above what a rough one has after it. Source: White, Fluid
 * Mechanics, and Hoerner, Fluid-Dynamic Drag; EN 1991-1-4:2005, 7.9.3, figure 7.30 has at most 0.4; all from memory.
 */
const SPHERE_FORCE = 0.47;
/**
 * Force coefficients of a sphere whose lowest point is nearer to the ground than half its size: across the wind 1.6 times the
 * 0.4 of a rough one, and upwards. Source: EN 1991-1-4:2005, 7.9.3 (2) and (3), from memory.
 */
const GROUNDED_SPHERE = { force: 1.6 * 0.4, lift: 0.6, within: 0.5 } as const;
/**
 * Clearance in sizes of the ball from which the ground no longer matters. Source: ours; the standard has a step, after which a
 * longer pole would tip less.
 */
const FREE_FROM = 1.5;
/**
 * Force coefficient of a signboard: clear of the ground by more than a quarter of its height, or not wider than high.
 * Source: EN 1991-1-4:2005, 7.4.3, 1.80 as published summaries quote it; its limits from memory.
 */
const SIGNBOARD_FORCE = 1.8;

/** Ends of the zones A, B and C of a free-standing wall from its windward end, in heights of the wall. */
const WALL_ZONES = [0.3, 2, 4] as const;
/**
 * Net pressure coefficients of a free-standing wall without return corners in its zones A to D, by length over height;
 * between the rows straight lines, outside the nearest row. Source: EN 1991-1-4:2005, 7.4.1, table 7.9, from memory.
 */
const WALL_PRESSURES: readonly (readonly [slenderness: number, zones: readonly number[]])[] = [
  [3, [2.3, 1.4, 1.2, 1.2]],
  [5, [2.9, 1.8, 1.4, 1.2]],
  [10, [3.4, 2.1, 1.7, 1.2]],
];

/**
 * Mean over the length of a wall on the ground of the pressures of its zones; never less in all than the push on the part of it
 * that is as wide as high, a signboard.
 */
function wallForce(slenderness: number): number {
  const row = Math.min(10, Math.max(3, slenderness));
  const ends = [0, ...WALL_ZONES, Infinity].map((end) => Math.min(end, slenderness));
  const parts = ends.slice(1).map((end, zone) => {
    const pressures = WALL_PRESSURES.map(([length, zones]) => [length, entryAt(zones, zone)] as const);
    return (end - entryAt(ends, zone)) * piecewiseLinear(pressures, row);
  });
  return Math.max(sum(parts), SIGNBOARD_FORCE) / slenderness;
}

/** What the wind finds of a piece. */
export interface WindExposure {
  /** Area that the force coefficient belongs to, m2. */
  readonly area: number;
  /** Force coefficient; of several parts their mean by area. */
  readonly coefficient: number;
  /** Height above the ground of the middle of the push, m. */
  readonly centre: number;
  /** Force coefficient upwards on the same area; 0 for most forms. */
  readonly lift: number;
}

/** Several parts as one, with the moment of all of them. */
function together(parts: readonly WindExposure[]): WindExposure {
  const total = (of: (part: WindExposure) => number): number =>
    parts.reduce((sum, part) => sum + of(part), 0);
  const area = total((part) => part.area);
  const drag = total((part) => part.area * part.coefficient);
  const moment = total((part) => part.area * part.coefficient * part.centre);
  const lift = total((part) => part.area * part.lift);
  return { area, coefficient: drag / area, centre: moment / drag, lift: lift / area };
}

/** Height of the middle of an arch's line, m: the mean height of equally long steps along it. */
function archCentre(width: number, height: number): number {
  const points = archPoints(width, height);
  let [length, moment] = [0, 0];
  points.slice(1).forEach((point, index) => {
    const before = points[index] ?? point;
    const step = Math.hypot(point.x - before.x, point.y - before.y);
    length += step;
    moment += (step * (point.y + before.y)) / 2;
  });
  return moment / length;
}

/** Force coefficients of a ball by the height of its lowest point above the ground, m. */
function ballForces(across: number, clearance: number): Pick<WindExposure, "coefficient" | "lift"> {
  const { force, lift, within } = GROUNDED_SPHERE;
  const freed = Math.min(1, Math.max(0, (clearance / across - within) / (FREE_FROM - within)));
  return { coefficient: force + freed * (SPHERE_FORCE - force), lift: lift * (1 - freed) };
}

function poleAndBall(width: number, height: number, thickness: number): WindExposure {
  if (height < width) {
    throw invalid("height", `be at least the ball's ${inMetres(width)}, pole and ball together`, {
      written: inMetres(height),
    });
  }
  const pole = height - width;
  return together([
    { area: (Math.PI / 4) * width ** 2, ...ballForces(width, pole), centre: pole + width / 2 },
    { area: thickness * pole, coefficient: CYLINDER_FORCE, centre: pole / 2, lift: 0 },
  ]);
}

/** Thickness of a part that no one typed, m: an arch of 9 in balloons in fours, a pole in its sleeve. */
const usualThickness = (form: string): number =>
  form === "arch" ? columnAcross(toSi(GARLAND_BALLOON_INCHES.value, "in")) : POLE_THICKNESS.value;

/**
 * Area, force coefficient and height of the push for a form that stands on the ground, unless `centre` lifts it.
 *
 * - column: a cylinder; the push at half its height
 * - wall: a signboard where it is not wider than high, or where `centre` leaves more than a quarter of its height free
 *   below it; else the mean of the zones of a free-standing wall, never less than on a signboard of its height; at half
 *   its height
 * - ball: a sphere, pushed more and lifted where it is close to the ground; at its middle
 * - arch: a bent cylinder, length of a half ellipse's centre line x thickness; at the middle of that line, close to
 *   2/pi of the height
 * - garland: a cylinder that lies or hangs, `width` long and `height` thick; at half its thickness
 * - pole and ball: a ball `width` across on a pole, `height` high together; moments of both
 *
 * @param width m, above 0
 * @param height m, above 0
 * @param form a word of `WIND_FORMS`, any case
 * @param thickness of an arch's garland or of a pole, m; usual ones by common practice
 * @param centre height of the middle of the push above the ground where it is known better, m
 * @returns area m2, coefficients, centre m
 * @throws `#VALUE!` for another form, a piece of no size, or a pole and ball lower than its ball
 */
export function windExposure(
  width: number,
  height: number,
  form: string,
  thickness?: number,
  centre?: number,
): WindExposure {
  if (width <= 0) throw invalid("width", "be above 0 m", width);
  if (height <= 0) throw invalid("height", "be above 0 m", height);
  if (centre !== undefined && centre <= 0) throw invalid("centre", "be above 0 m", centre);
  const kind = form.trim().toLowerCase();
  const thick = thickness ?? usualThickness(kind);
  if (thick <= 0) throw invalid("thickness", "be above 0 m", thick);
  const exposure = standing(width, height, kind, thick, centre);
  if (exposure === undefined) throw invalid("form", `be one of ${WIND_FORMS.join(", ")}`, form);
  return centre === undefined ? exposure : { ...exposure, centre };
}

function standing(
  width: number,
  height: number,
  form: string,
  thickness: number,
  centre: number | undefined,
): WindExposure | undefined {
  const outline = { area: width * height, centre: height / 2, lift: 0 };
  switch (form) {
    case "column":
    case "garland":
      return { ...outline, coefficient: CYLINDER_FORCE };
    case "wall": {
      const below = (centre ?? height / 2) - height / 2;
      const isSign = width <= height || below > height / 4;
      return { ...outline, coefficient: isSign ? SIGNBOARD_FORCE : wallForce(width / height) };
    }
    case "ball":
      return {
        area: (Math.PI / 4) * outline.area,
        ...ballForces(height, Math.max(0, (centre ?? height / 2) - height / 2)),
        centre: height / 2,
      };
    case "arch":
      return {
        area: archLength(width, height) * thickness,
        coefficient: CYLINDER_FORCE,
        centre: archCentre(width, height),
        lift: 0,
      };
    case "pole and ball":
      return poleAndBall(width, height, thickness);
    default:
      return undefined;
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
 * Source: F = q cf A, EN 1991-1-4, 5.3; cf and A by `windExposure`.
 *
 * @param width m
 * @param height m
 * @param speed m/s
 * @param form a word of `WIND_FORMS`
 * @param thickness of an arch's garland or of a pole, m
 * @param centre height of the middle of the push above the ground, m
 * @returns N
 * @throws `#VALUE!` as `windExposure`
 */
export function windDrag(
  width: number,
  height: number,
  speed: number,
  form = "column",
  thickness?: number,
  centre?: number,
): number {
  const { area, coefficient } = windExposure(width, height, form, thickness, centre);
  return velocityPressure(speed) * coefficient * area;
}
