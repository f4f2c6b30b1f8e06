import { wholeNearest } from "../numeric/whole";
import { MIX_PACKING } from "../practice";
import { type Placement, refuseLargeDrawing } from "./drawing";
import { GOLDEN_TURN, kept, type Spot, spread } from "./spread";
import { mixPlan } from "./volumes";

/**
 * Drawing of `mixPlan`, lying along x: the sizes mixed through the body and pressed together until they stay
 * within it. Neighbours overlap, as pressed balloons do: at the usual packing half of them by up to a tenth
 * where sizes differ, the worst by two fifths up to 400 balloons.
 *
 * @param length length of the garland, m
 * @param thickness diameter of its body, m
 * @param sizes inflated diameters, m
 * @param shares balloons of each size in proportion to each other
 * @param packing share of the body's volume that is balloon
 * @returns balloons from the left, rows counted by body thicknesses
 * @throws CalcError as `mixPlan`; `#NUM!` for more than 20000 balloons
 */
export function mixPlacements(
  length: number,
  thickness: number,
  sizes: readonly number[],
  shares: readonly number[],
  packing = MIX_PACKING.value,
): readonly Placement[] {
  return bodyPlacements(length, thickness, mixPlan(length, thickness, sizes, shares, packing));
}

/** Balloons of one size in a body. */
export interface SizeCount {
  /** Inflated diameter, m. */
  readonly size: number;
  readonly balloons: number;
}

/**
 * Drawing of a body of mixed sizes whose numbers are known, lying along x. Where more were counted than the body holds they
 * are pressed further together.
 *
 * @param length length of the body, m
 * @param thickness its diameter, m
 * @param groups balloons of each size, whole
 * @returns balloons from the left, rows counted by body thicknesses, each with the number of its group
 * @throws CalcError `#NUM!` for more than 20000 balloons
 */
export function bodyPlacements(
  length: number,
  thickness: number,
  groups: readonly SizeCount[],
): readonly (Placement & { readonly group: number })[] {
  refuseLargeDrawing(groups.reduce((sum, { balloons }) => sum + balloons, 0));
  // Each size at even steps of its own along the body, so that every stretch of it has the whole mix.
  const steps = groups
    .flatMap(({ size, balloons }, group) =>
      Array.from({ length: balloons }, (_, index) => ({ size, group, share: (index + 0.5) / balloons })),
    )
    .sort((one, other) => one.share - other.share || other.size - one.size);
  const spots = steps.map(({ size, group, share }, index): Spot & { readonly group: number } => {
    const radius = size / 2;
    // Even scatter over the body's cross-section.
    const depth = (index * 0.7548776662466927) % 1;
    const off = Math.max(0, thickness / 2 - radius) * Math.sqrt(depth);
    const turn = index * GOLDEN_TURN;
    return { x: off * Math.sin(turn), y: length * (share - 0.5), z: off * Math.cos(turn), radius, group };
  });
  spread(
    spots,
    1,
    (spot) => {
      const reach = Math.max(0, thickness / 2 - spot.radius);
      const off = Math.hypot(spot.x, spot.z);
      const share = off > reach ? reach / off : 1;
      spot.x *= share;
      spot.z *= share;
      spot.y = kept(spot.y, Math.max(0, length / 2 - spot.radius));
    },
    80,
  );
  return spots
    .sort((one, other) => one.y - other.y)
    .map(({ x, y, z, radius, group }) => ({
      x: y,
      y: x + thickness / 2,
      z,
      radius,
      row: 1 + wholeNearest((y + length / 2) / thickness),
      group,
    }));
}
