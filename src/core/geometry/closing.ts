import { sum } from "../numeric/sums";
import { smoothOnSphere } from "./spherical-codes";

/** A point of a meridian. */
interface MeridianPoint {
  readonly height: number;
  readonly radius: number;
}

/** A straight side of the meridian of a body that is turned about its upright axis. */
export interface Side {
  readonly from: MeridianPoint;
  readonly to: MeridianPoint;
  readonly length: number;
  /** Unit direction, radius and height. */
  readonly dr: number;
  readonly dh: number;
}

/** A place where the meridian turns: the body curves both ways there. */
export interface Bend {
  /** Distance from the axis, m. */
  readonly radius: number;
  /** Curvature of the body gathered there, as a share of a whole ball's. */
  readonly share: number;
}

/**
 * The curvature of a body, place by place; a ball's shares add up to 1, a tube and the wall of a cone have none.
 * Source: Gauss and Bonnet; a body of revolution gathers 2 pi times the change of dr/ds along its meridian.
 *
 * @param meridian sides from the base up, none of no length
 * @param isClosed whether the ends at the base and at the top lie on the axis
 * @returns places with their shares
 */
export function bendsOf(meridian: readonly Side[], isClosed: readonly [boolean, boolean]): readonly Bend[] {
  const first = meridian[0];
  const last = meridian.at(-1);
  if (first === undefined || last === undefined) return [];
  const inner = meridian.slice(1).map((side, index) => ({
    radius: side.from.radius,
    share: Math.abs(side.dr - (meridian[index]?.dr ?? side.dr)) / 2,
  }));
  return [
    ...(isClosed[0] ? [{ radius: 0, share: (1 - first.dr) / 2 }] : []),
    ...inner,
    ...(isClosed[1] ? [{ radius: 0, share: (1 + last.dr) / 2 }] : []),
  ];
}

/** Balloons of an endless flat pattern on the area of a ball. */
const flatOnSphere = (radius: number, distance: number): number =>
  ((8 * Math.PI) / Math.sqrt(3)) * (radius / distance) ** 2;

/**
 * Balloons that a flat pattern loses where it has to close round bends: as many as on a ball whose bends lie as far from
 * the axis, pi/4 of its radius in the mean over its curvature.
 * Source: `spherical-codes.ts` against the flat hexagonal pattern.
 *
 * @param bends of one body
 * @param curved sum of their shares, above 0
 * @param distance centre-to-centre distance of neighbours, m
 * @returns balloons, not a whole number
 */
export function lostAt(bends: readonly Bend[], curved: number, distance: number): number {
  const mean = sum(bends.map(({ radius, share }) => radius * share)) / curved;
  const ball = (4 / Math.PI) * mean;
  return ball === 0 ? 0 : curved * (flatOnSphere(ball, distance) - smoothOnSphere(ball, distance));
}

/**
 * Area that a part of a meridian sweeps.
 * Source: Pappus.
 *
 * @param meridian sides from the base up
 * @param first distance along the meridian, m
 * @param last the same, m
 * @returns area, m2
 */
export function areaBetween(meridian: readonly Side[], first: number, last: number): number {
  let passed = 0;
  return sum(
    meridian.map(({ from, dr, length }) => {
      const [start, end] = [Math.max(first - passed, 0), Math.min(last - passed, length)];
      passed += length;
      return end > start ? 2 * Math.PI * (from.radius + ((start + end) / 2) * dr) * (end - start) : 0;
    }),
  );
}
