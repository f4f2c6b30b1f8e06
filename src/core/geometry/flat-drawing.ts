import { CEILING_FULL_LOOK, WALL_SPACING } from "../practice";
import { type Placement, refuseLargeDrawing } from "./drawing";
import { ceilingCount, strandCount, wallCount, type WallLattice, wallShape } from "./flat";
import { GOLDEN_TURN, kept, type Spot, spread } from "./spread";

/**
 * Drawing of `strandCount`, lying along x. Balloons touch, or keep the gap.
 *
 * @param length length of the line, m
 * @param balloon inflated diameter, m
 * @param gap free line between two balloons, m
 * @returns balloons from the left, each a row of its own
 * @throws CalcError as `strandCount`; `#NUM!` for more than 20000 balloons
 */
export function strandPlacements(length: number, balloon: number, gap = 0): readonly Placement[] {
  const count = strandCount(length, balloon, gap);
  refuseLargeDrawing(count);
  return Array.from({ length: count }, (_, index) => ({
    x: (index - (count - 1) / 2) * (balloon + gap),
    y: balloon / 2,
    z: 0,
    radius: balloon / 2,
    row: index + 1,
  }));
}

/**
 * Drawing of `wallCount`, before the wall is stretched to its frame: neighbours are exactly at the spacing. A
 * second face stands a balloon behind the first.
 *
 * @param width finished width, m
 * @param height finished height, m
 * @param balloon inflated diameter, m
 * @param lattice square, or staggered rows
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @param faces 1 or 2, further ones behind
 * @returns balloons, row by row from the base, first the front face
 * @throws CalcError as `wallCount`; `#NUM!` for more than 20000 balloons
 */
export function wallPlacements(
  width: number,
  height: number,
  balloon: number,
  lattice: WallLattice = "square",
  spacing = WALL_SPACING.value,
  faces = 1,
): readonly Placement[] {
  refuseLargeDrawing(wallCount(width, height, balloon, lattice, spacing, faces));
  const { rows, fullRow, otherRow, shift, pitch, distance } = wallShape(
    width,
    height,
    balloon,
    lattice,
    spacing,
  );
  const right = Math.max((fullRow - 1) * distance, shift + (otherRow - 1) * distance);
  return Array.from({ length: faces }, (_, face) =>
    Array.from({ length: rows }, (__, row) =>
      Array.from({ length: row % 2 === 0 ? fullRow : otherRow }, (___, place) => ({
        x: place * distance + (row % 2) * shift - right / 2,
        y: balloon / 2 + row * pitch,
        z: 0 - face * balloon,
        radius: balloon / 2,
        row: row + 1,
      })),
    ),
  ).flat(2);
}

/**
 * Drawing of `ceilingCount`: the room seen from above, length along x, width along z, the balloons where a
 * scattered handful would lie. Neighbours do not overlap up to the full look of four fifths, and by up to a
 * fifth at 1.
 *
 * @param length one side of the ceiling, m
 * @param width the other, m
 * @param balloon inflated diameter, m
 * @param covered look, 0..1
 * @returns balloons, rows counted from the back
 * @throws CalcError as `ceilingCount`; `#NUM!` for more than 20000 balloons
 */
export function ceilingPlacements(
  length: number,
  width: number,
  balloon: number,
  covered = CEILING_FULL_LOOK.value,
): readonly Placement[] {
  const count = ceilingCount(length, width, balloon, covered);
  refuseLargeDrawing(count);
  const radius = balloon / 2;
  const [halfLength, halfWidth] = [Math.max(0, length / 2 - radius), Math.max(0, width / 2 - radius)];
  // Even scatter: one side in steps, the other by the golden ratio. The width stands in for the height that
  // `spread` sorts by, since all balloons of a ceiling are equally high.
  const spots = Array.from({ length: count }, (_, index): Spot => {
    const golden = ((index + 0.5) * GOLDEN_TURN) / (2 * Math.PI);
    return {
      x: halfLength * (2 * (golden - Math.floor(golden)) - 1),
      y: halfWidth * ((2 * index + 1) / count - 1),
      z: 0,
      radius,
    };
  });
  spread(spots, 1, (spot) => {
    spot.x = kept(spot.x, halfLength);
    spot.y = kept(spot.y, halfWidth);
  });
  return spots
    .sort((one, other) => one.y - other.y)
    .map(({ x, y }) => ({ x, y: radius, z: y, radius, row: 1 + Math.floor((y + halfWidth) / balloon) }));
}
