import { entryAt } from "../numeric/entry-at";
import { COVER_SPACING, TIED_BALL_SPACING } from "../practice";
import { ballAcross, coverAcross, coverCount, sphereCount } from "./ball";
import { type Placement, refuseLargeDrawing, standing } from "./drawing";
import { spreadOnSphere } from "./spread";

/**
 * Drawing of `sphereCount`; a ball that is not fully covered shows its upper part.
 * Neighbours come at most 5 % nearer than the spacing up to 300 balloons, 10 % up to 2000.
 *
 * @param across finished diameter, m
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @param covered share of the surface that is dressed, 0..1
 * @returns balloons from the bottom up
 * @throws CalcError as `sphereCount`; `#NUM!` for more than 20000 balloons
 */
export function spherePlacements(
  across: number,
  balloon: number,
  spacing = 1,
  covered = 1,
): readonly Placement[] {
  const count = sphereCount(across, balloon, spacing);
  const radius = (across - balloon) / 2;
  const dressed = sphereCount(across, balloon, spacing, covered);
  return onSphere(count, dressed, radius, balloon, sphereSpacing(count, radius, balloon));
}

/**
 * Drawing of a tied ball of `ballAcross`.
 *
 * @param count balloons
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons from the bottom up, neighbours at most 5 % nearer than the spacing up to 300 balloons
 * @throws CalcError as `ballAcross`; `#NUM!` for more than 20000 balloons
 */
export function ballPlacements(
  count: number,
  balloon: number,
  spacing = TIED_BALL_SPACING.value,
): readonly Placement[] {
  return onSphere(count, count, (ballAcross(count, balloon, spacing) - balloon) / 2, balloon, spacing);
}

/**
 * Drawing of the loose balloons of `coverCount`, without the ball that they sit on.
 *
 * @param coreCount balloons of the tied ball
 * @param coreBalloon their inflated diameter, m
 * @param outerBalloon inflated diameter of the loose ones, m
 * @param spacing centre-to-centre distance of the loose ones as a ratio to their size
 * @param coreSpacing the same for the tied ball
 * @returns balloons from the bottom up, neighbours at most 5 % nearer than the spacing up to 300 balloons
 * @throws CalcError as `coverCount`; `#NUM!` for more than 20000 balloons
 */
export function coverPlacements(
  coreCount: number,
  coreBalloon: number,
  outerBalloon: number,
  spacing = COVER_SPACING.value,
  coreSpacing = 1,
): readonly Placement[] {
  const count = coverCount(coreCount, coreBalloon, outerBalloon, spacing, coreSpacing);
  const radius = (coverAcross(coreCount, coreBalloon, outerBalloon, coreSpacing) - outerBalloon) / 2;
  return onSphere(count, count, radius, outerBalloon, sphereSpacing(count, radius, outerBalloon));
}

/**
 * Drawing of any number of balloons spread evenly over a ball of a known size, about the ball's centre: what was counted by
 * hand lies as evenly as what was computed. A ball that is not fully covered is dressed from the top down.
 *
 * @param count balloons, 0 or more
 * @param across finished diameter, m, more than one balloon
 * @param balloon inflated diameter, m
 * @param covered share of the surface that is dressed, 0..1
 * @returns balloons from the bottom up, centres about the origin
 * @throws CalcError `#NUM!` for more than 20000 balloons
 */
export function dressedPlacements(
  count: number,
  across: number,
  balloon: number,
  covered = 1,
): readonly Placement[] {
  const whole = covered > 0 ? Math.max(count, Math.round(count / covered)) : count;
  const radius = Math.max(0, (across - balloon) / 2);
  return aboutCentre(whole, count, radius, balloon, sphereSpacing(whole, radius, balloon));
}

/** Balloons on a sphere that stands on the base. */
function onSphere(...of: Parameters<typeof aboutCentre>): readonly Placement[] {
  return standing(aboutCentre(...of));
}

/** Balloons on a sphere about the origin from the bottom up, rows counted in bands as high as a hexagonal row. */
function aboutCentre(
  count: number,
  dressed: number,
  radius: number,
  balloon: number,
  spacing: number,
): readonly Placement[] {
  refuseLargeDrawing(count);
  const distance = spacing * balloon;
  // The spiral is relaxed for a hair less than the best known distance, which it cannot reach.
  const top = [...spreadOnSphere(count, radius, 0.99 * distance)].sort((one, other) => other.y - one.y);
  const shown = top.slice(0, dressed).reverse();
  if (shown.length === 0) return [];
  const [lowest, pitch] = [entryAt(shown, 0).y, (distance * Math.sqrt(3)) / 2];
  return shown.map(({ x, y, z }) => ({
    x,
    y,
    z,
    radius: balloon / 2,
    row: 1 + Math.floor((y - lowest) / pitch + 0.5),
  }));
}

/**
 * Distance at which that many balloons just fit on a sphere, so that a count below the fullest is spread
 * evenly.
 */
const sphereSpacing = (count: number, radius: number, balloon: number): number =>
  count < 2 ? 1 : (2 * radius) / (ballAcross(count, balloon, 1) - balloon);
