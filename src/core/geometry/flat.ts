import { wholeDown, wholeNearest } from "../numeric/whole";
import { CEILING_FULL_LOOK, WALL_SPACING } from "../practice";
import { checkCount, checkLength, checkNotNegative, checkShare, neighbourDistance } from "./checks";

/** Patterns of a wall, in the words of the worksheet. */
export const WALL_LATTICES = ["square", "staggered"] as const;

/** One of `WALL_LATTICES`. */
export type WallLattice = (typeof WALL_LATTICES)[number];

/**
 * Share of a surface that discs strewn at random cover. Source: Berryman, Phys. Rev. A 27 (1983) 1053, 0.82
 * +- 0.02.
 */
export const RANDOM_DISC_PACKING = 0.82;

/** Rows of a wall, bottom row first. */
export interface WallShape {
  readonly rows: number;
  /** Balloons in the 1st, 3rd, 5th ... row. */
  readonly fullRow: number;
  /** Balloons in the 2nd, 4th, 6th ... row. */
  readonly otherRow: number;
  /** How far the 2nd, 4th, 6th ... row is shifted, m. */
  readonly shift: number;
  /** Height from row to row before the wall is stretched to its frame, m. */
  readonly pitch: number;
  /** Distance of neighbours in a row before the wall is stretched to its frame, m. */
  readonly distance: number;
}

/**
 * Steps of a given size between the first and the last balloon, where the wall may be stretched or squeezed
 * by half a step.
 */
const steps = (length: number, balloon: number, step: number): number =>
  Math.max(0, wholeNearest((length - balloon) / step));

/**
 * Rows and columns of a flat wall. In a staggered wall every other row is shifted by half a step and has one
 * balloon fewer where only the full rows fit the width; a wall one balloon wide has nothing to stagger and is
 * stacked straight.
 * Source: square and hexagonal lattice, row pitch s d and s d sqrt(3)/2; the wall is then stretched to fit
 * its frame.
 *
 * @param width finished width, m
 * @param height finished height, m
 * @param balloon inflated diameter, m
 * @param lattice square, or staggered (hexagonal) rows
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns rows and their balloons
 * @throws CalcError `#VALUE!` where an argument is outside its limits
 */
export function wallShape(
  width: number,
  height: number,
  balloon: number,
  lattice: WallLattice = "square",
  spacing = WALL_SPACING.value,
): WallShape {
  const distance = neighbourDistance(balloon, spacing);
  checkLength("width", width);
  checkLength("height", height);
  const halfSteps = lattice === "staggered" ? steps(width, balloon, distance / 2) : 0;
  if (halfSteps === 0) {
    const row = lattice === "staggered" ? 1 : steps(width, balloon, distance) + 1;
    const rows = steps(height, balloon, distance) + 1;
    return { rows, fullRow: row, otherRow: row, shift: 0, pitch: distance, distance };
  }
  const pitch = (distance * Math.sqrt(3)) / 2;
  return {
    rows: steps(height, balloon, pitch) + 1,
    fullRow: Math.floor(halfSteps / 2) + 1,
    otherRow: Math.ceil(halfSteps / 2),
    shift: distance / 2,
    pitch,
    distance,
  };
}

/**
 * COUNT_WALL: balloons in a flat wall.
 *
 * @param width finished width, m
 * @param height finished height, m
 * @param balloon inflated diameter, m
 * @param lattice square, or staggered (hexagonal) rows
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @param faces 1, or 2 for a wall that is dressed on both sides
 * @returns balloons, whole
 * @throws CalcError `#VALUE!` where an argument is outside its limits
 */
export function wallCount(
  width: number,
  height: number,
  balloon: number,
  lattice: WallLattice = "square",
  spacing = WALL_SPACING.value,
  faces = 1,
): number {
  checkCount("faces", faces, 1);
  const { rows, fullRow, otherRow } = wallShape(width, height, balloon, lattice, spacing);
  return faces * (Math.ceil(rows / 2) * fullRow + Math.floor(rows / 2) * otherRow);
}

/**
 * COUNT_CEILING: loose balloons against a ceiling, where they lie at random.
 * Source: random packing of discs, 0.82 (Berryman 1983), times the look wanted, by common practice 0.8 for a
 * full one and 0.4 for a scattered one.
 *
 * @param length one side of the ceiling, m
 * @param width the other, m
 * @param balloon inflated diameter, m
 * @param covered look, 0..1; 1 is as many as lie side by side
 * @returns balloons, whole
 * @throws CalcError `#VALUE!` where an argument is outside its limits
 */
export function ceilingCount(
  length: number,
  width: number,
  balloon: number,
  covered = CEILING_FULL_LOOK.value,
): number {
  checkLength("length", length);
  checkLength("width", width);
  checkLength("balloon", balloon);
  checkShare("covered", covered);
  return wholeNearest((RANDOM_DISC_PACKING * covered * length * width) / ((Math.PI / 4) * balloon ** 2));
}

/**
 * COUNT_STRAND: single balloons on a line, side by side or with a gap.
 *
 * @param length length of the line, m
 * @param balloon inflated diameter, m
 * @param gap free line between two balloons, m, 0 or more
 * @returns balloons, whole, as many as fit
 * @throws CalcError `#VALUE!` where an argument is outside its limits
 */
export function strandCount(length: number, balloon: number, gap = 0): number {
  checkLength("length", length);
  checkLength("balloon", balloon);
  checkNotNegative("gap", gap);
  return wholeDown((length + gap) / (balloon + gap));
}
