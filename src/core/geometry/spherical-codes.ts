import { entryAt } from "../numeric/entry-at";
import { root } from "../numeric/roots";
import { wholeDown } from "../numeric/whole";

/** Fewest points of `BEST_ANGLES`. */
export const FEWEST_TABLED = 4;

/**
 * Largest known smallest angle between N points on a sphere, degrees, N = 4 to 60 in order, to 7 decimals.
 * N = 4 to 14 and 24 are proved to be the best there is, the others are the best known.
 * Source: N. J. A. Sloane, R. H. Hardin and W. D. Smith, Tables of Spherical Codes, packings in 3 dimensions.
 */
export const BEST_ANGLES: readonly number[] = [
  109.4712206, 90, 90, 77.8695422, 74.8584922, 70.5287794, 66.146822, 63.4349488, 63.4349488, 57.1367031,
  55.67057, 53.6578501, 52.2443958, 51.0903286, 49.5566548, 47.6919141, 47.4310362, 45.6132231, 44.7401612,
  43.7099642, 43.6907671, 41.6344613, 41.0376616, 40.6776007, 39.3551436, 38.7136512, 38.597116, 37.7098291,
  37.475214, 36.254553, 35.8077844, 35.3198076, 35.1897323, 34.422408, 34.2506607, 33.4890466, 33.1583563,
  32.7290944, 32.5063863, 32.0906244, 31.983423, 31.3230814, 30.9591635, 30.781816, 30.7627856, 29.9235851,
  29.7529564, 29.3684069, 29.1947579, 28.8138972, 28.7169205, 28.2627914, 28.1480467, 27.8266759, 27.556416,
  27.3949757, 27.19283,
];

/** Most points of `BEST_ANGLES`. */
export const MOST_TABLED = FEWEST_TABLED + BEST_ANGLES.length - 1;

/** The table's last digit, in radians: an angle within it counts as reached. */
const ANGLE_ROUNDING = (1e-7 * Math.PI) / 180;

/**
 * Angles of 1, 2 and 3 points: a single one has no neighbour, two are opposite, three lie on a great circle.
 */
const FEW_POINTS: readonly number[] = [360, 180, 120];

/**
 * Points that the Fejes Toth bound allows: no set of points on a sphere with that smallest angle has more.
 * Source: L. Fejes Toth (1943): chord <= sqrt(4 - 1/sin^2 w) with w = N
 * pi/(6(N - 2)), solved for N by way of w - pi/6, which keeps its digits where the angle is small.
 *
 * @param angle smallest angle between two points, rad, above 0, at most 120 degrees
 * @returns points, not a whole number
 */
export function mostPointsAllowed(angle: number): number {
  const cotangent = Math.sqrt(Math.max(0, 1 + 2 * Math.cos(angle)));
  const tangent = 4 * Math.sin(angle / 2) ** 2;
  const excess = Math.atan(tangent / ((Math.sqrt(3) + cotangent) * (Math.sqrt(3) * cotangent + 1)));
  return 2 + Math.PI / (3 * excess);
}

const LAST_ANGLE = (entryAt(BEST_ANGLES, BEST_ANGLES.length - 1) * Math.PI) / 180;
const LAST_ALLOWED = mostPointsAllowed(LAST_ANGLE);

/**
 * Growth of the points missing to the bound, per square root of the points: the seams that a hexagonal
 * pattern needs to close over a ball grow with the ball's circumference. Least squares over the best known
 * angles of 61 to 130 points, where the continuation is then 1.1 points short at worst (72 points), 0.5
 * points over at worst and 0.3 off as a root mean square.
 */
const MISSING_GROWTH = 1.29;

/** Points at an angle below the table's last: continuous, rising, always under the bound. */
function continued(angle: number): number {
  const allowed = mostPointsAllowed(angle);
  const missing =
    LAST_ALLOWED - MOST_TABLED + MISSING_GROWTH * (Math.sqrt(allowed) - Math.sqrt(LAST_ALLOWED));
  return allowed - missing;
}

/**
 * Smallest angle between neighbours when points are spread over a sphere as well as is known.
 * Source: exact for 1 to 3 points, Sloane, Hardin and Smith for 4 to 60, above that a smooth continuation
 * under the Fejes Toth bound that tends to it (from 61 to 130 points within 0.8 % of the best known angles).
 *
 * @param points whole number, 1 or more
 * @returns angle, rad; 2 pi for a single point
 */
export function bestAngle(points: number): number {
  const degrees = points < FEWEST_TABLED ? FEW_POINTS[points - 1] : BEST_ANGLES[points - FEWEST_TABLED];
  if (degrees !== undefined) return (degrees * Math.PI) / 180;
  // A flat hexagonal pattern of as many points, the bound's own limit, leaves twice this much room.
  const tiny = Math.sqrt((8 * Math.PI) / Math.sqrt(3) / points) / 2;
  return root((angle) => continued(angle) - points, Math.min(tiny, LAST_ANGLE / 2), LAST_ANGLE);
}

/**
 * Most points on a sphere that are at least an angle apart, as far as is known; the inverse of `bestAngle`.
 *
 * @param angle rad, above 0
 * @returns points, whole, 1 or more
 */
export function mostPoints(angle: number): number {
  if (angle <= LAST_ANGLE + ANGLE_ROUNDING) {
    return Math.max(MOST_TABLED, wholeDown(continued(angle)));
  }
  for (let points = MOST_TABLED - 1; points > 1; points -= 1) {
    if (bestAngle(points) >= angle - ANGLE_ROUNDING) return points;
  }
  return 1;
}

/**
 * Balloons whose centres lie on a sphere, at least a distance apart, as far as is known.
 *
 * @param radius radius of the sphere, m, 0 or more
 * @param distance m, above 0
 * @returns balloons, whole, 1 or more
 */
export function countOnSphere(radius: number, distance: number): number {
  const sine = distance / (2 * radius);
  return sine > 1 + 1e-9 ? 1 : mostPoints(2 * Math.asin(Math.min(1, sine)));
}

/**
 * As `countOnSphere`, in straight lines from one count to the next, so that a hair of radius does not make a balloon.
 *
 * @param radius radius of the sphere, m, 0 or more
 * @param distance m, above 0
 * @returns balloons, not a whole number; rounded down it is `countOnSphere`, but for two counts of one angle
 */
export function smoothOnSphere(radius: number, distance: number): number {
  const sine = distance / (2 * radius);
  if (sine > 1) return 1;
  const angle = 2 * Math.asin(sine);
  const count = mostPoints(angle);
  // 5 and 6, 11 and 12 have one angle.
  const more = bestAngle(count + 2) === bestAngle(count + 1) ? 2 : 1;
  const [wide, narrow] = [bestAngle(count), bestAngle(count + more)];
  return count + Math.max(0, (more * (wide - angle)) / (wide - narrow));
}
