import { invalid } from "../calc-error";
import { sum } from "../numeric/sums";
import { wholeNearest, wholeUp } from "../numeric/whole";
import { COVER_SPACING, TIED_BALL_SPACING } from "../practice";
import { checkAtLeast, checkCount, checkLength, checkShare, inMetres, neighbourDistance } from "./checks";
import { bestAngle, countOnSphere } from "./spherical-codes";

/**
 * Ribbons that are summed one by one; more are this many, taken more than once: past any reading of a tape.
 */
const MOST_RIBBONS = 20000;

/**
 * Spacing in the tied ball under a cover where none is given. `ballAcross` takes less, since tied necks pull in; but
 * balloons that are pressed together bulge back into the hollows in which the outer ones rest, and with 1 the counts
 * from a light to a very full look are those of practice (30 to 50 on a ball of twelve).
 */
export const COVER_CORE_SPACING = 1;

/** Radius of the sphere on which that many centres lie `distance` apart; 0 for a single one. */
function tiedRadius(count: number, distance: number): number {
  return count === 1 ? 0 : distance / (2 * Math.sin(bestAngle(count) / 2));
}

/**
 * COUNT_SPHERE: balloons in one layer on a ball. Their centres lie half a balloon inside the finished
 * outline.
 * Source: spherical codes, see `spherical-codes.ts`.
 *
 * @param across finished diameter, m, at least one balloon
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @param covered share of the surface that is dressed, 0..1; 0.5 is a dome
 * @returns balloons, whole
 * @throws CalcError `#VALUE!` where `across` is less than one balloon, or a ratio is outside its limits
 */
export function sphereCount(across: number, balloon: number, spacing = 1, covered = 1): number {
  const distance = neighbourDistance(balloon, spacing);
  checkAtLeast("across", across, balloon, "one balloon");
  checkShare("covered", covered);
  return wholeNearest(covered * countOnSphere((across - balloon) / 2, distance));
}

/**
 * BALL_METRES: finished size of a ball of balloons tied at one centre.
 * Source: spherical codes; the default spacing by common practice, since tied necks pull in. At spacing 1 the
 * balloons only touch, the largest the ball can be.
 *
 * @param count balloons, 1 or more
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns overall diameter, m
 * @throws CalcError `#VALUE!` where `count` is not a whole number of 1 or more, or `spacing` is outside its
 *   limits
 */
export function ballAcross(count: number, balloon: number, spacing = TIED_BALL_SPACING.value): number {
  checkCount("count", count, 1);
  return 2 * tiedRadius(count, neighbourDistance(balloon, spacing)) + balloon;
}

/**
 * Distance from the centre of a tied ball to the centre of a balloon that rests in a hollow of it: on one
 * balloon, in the groove of two, or on the three of a triangle.
 */
function restingRadius(
  coreCount: number,
  coreBalloon: number,
  outerBalloon: number,
  coreSpacing: number,
): number {
  checkCount("core_count", coreCount, 1);
  checkLength("core_balloon", coreBalloon);
  checkLength("outer_balloon", outerBalloon);
  const distance = neighbourDistance(coreBalloon, coreSpacing, "core_spacing");
  const hollow = coreCount === 1 ? 0 : coreCount === 2 ? distance / 2 : distance / Math.sqrt(3);
  const reach = (coreBalloon + outerBalloon) / 2;
  if (reach <= hollow) {
    const least = inMetres(2 * hollow - coreBalloon);
    throw invalid(
      "outer_balloon",
      `be more than ${least}, so that it does not slip between the core balloons`,
      {
        written: inMetres(outerBalloon),
      },
    );
  }
  const core = tiedRadius(coreCount, distance);
  return Math.sqrt(Math.max(0, core ** 2 - hollow ** 2)) + Math.sqrt(reach ** 2 - hollow ** 2);
}

/**
 * COUNT_COVER: loose balloons fixed on the outside of a tied ball, each resting in a hollow of it.
 * Source: touching spheres, then spherical codes; common practice puts 30 (light) to 50 (very full) 11 in
 * balloons on a ball of twelve.
 *
 * @param coreCount balloons of the tied ball, 1 or more
 * @param coreBalloon their inflated diameter, m
 * @param outerBalloon inflated diameter of the loose ones, m
 * @param spacing centre-to-centre distance of the loose ones as a ratio to their size
 * @param coreSpacing the same for the tied ball; 1 where they only touch
 * @returns loose balloons, whole
 * @throws CalcError `#VALUE!` where `coreCount` is not 1 or more, or an outer balloon would slip between the
 *   core balloons
 */
export function coverCount(
  coreCount: number,
  coreBalloon: number,
  outerBalloon: number,
  spacing = COVER_SPACING.value,
  coreSpacing = COVER_CORE_SPACING,
): number {
  const radius = restingRadius(coreCount, coreBalloon, outerBalloon, coreSpacing);
  return countOnSphere(radius, neighbourDistance(outerBalloon, spacing));
}

/**
 * COVER_METRES: finished size of a tied ball with loose balloons on its outside.
 *
 * @param coreCount balloons of the tied ball, 1 or more
 * @param coreBalloon their inflated diameter, m
 * @param outerBalloon inflated diameter of the loose ones, m
 * @param coreSpacing spacing in the tied ball; 1 where its balloons only touch
 * @returns overall diameter, m
 * @throws CalcError `#VALUE!` where `coreCount` is not 1 or more, or an outer balloon would slip between the
 *   core balloons
 */
export function coverAcross(
  coreCount: number,
  coreBalloon: number,
  outerBalloon: number,
  coreSpacing = COVER_CORE_SPACING,
): number {
  return 2 * restingRadius(coreCount, coreBalloon, outerBalloon, coreSpacing) + outerBalloon;
}

/**
 * Balloons of a ball that lie below its halfway line and so carry a ribbon, when a ball that is not fully
 * covered is dressed from the top down.
 * Source: equal heights of a sphere carry equal area (Archimedes).
 *
 * @param count balloons on the whole covered part
 * @param covered share of the surface that is dressed, 0..1
 * @returns balloons, whole; a balloon on the halfway line carries none
 */
export function ribbonedCount(count: number, covered = 1): number {
  checkCount("count", count, 0);
  checkShare("covered", covered);
  // Each balloon sits at the middle of its own ring of equal area.
  return covered > 0.5 ? wholeUp(count * (1 - 1 / (2 * covered)) - 0.5) : 0;
}

/**
 * GATHER_METRES: ribbon from every balloon below the halfway line of a ball, in a straight line to one point
 * under its centre. Balloons above the halfway line carry none. A ball that is not fully covered is dressed
 * from the top down, so that the bare part is the opening at the bottom, and half a ball needs no ribbon.
 * Source: balloons spread evenly, each on its own ring of equal area (Archimedes), at the finished surface;
 * knots not included.
 *
 * @param count balloons on the whole covered part
 * @param across finished diameter of the ball, m
 * @param drop distance of the gathering point below the ball's centre, m, at least half of `across`: half of
 * `across` more than below the ball's lowest point
 * @param covered share of the surface that is dressed, 0..1
 * @returns length of all ribbons together, m
 * @throws CalcError `#VALUE!` where `drop` ends inside the ball
 */
export function gatherLength(count: number, across: number, drop: number, covered = 1): number {
  checkCount("count", count, 0);
  checkLength("across", across);
  checkShare("covered", covered);
  const radius = across / 2;
  checkAtLeast("drop", drop, radius, "half of across, so that the ribbons meet below the ball");
  const ribbon = (sine: number): number => Math.sqrt(radius ** 2 + drop ** 2 + 2 * radius * drop * sine);
  const sines = Array.from({ length: Math.min(count, MOST_RIBBONS) }, (_, index) => {
    return 1 - (covered * (2 * index + 1)) / Math.min(count, MOST_RIBBONS);
  });
  const total = sum(sines.filter((sine) => sine < 0).map(ribbon));
  return (total * count) / Math.max(1, sines.length);
}
