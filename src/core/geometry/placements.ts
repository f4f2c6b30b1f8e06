import { overflow } from "../calc-error";
import { wholeNearest } from "../numeric/whole";
import {
  CEILING_FULL_LOOK,
  CLUSTER_SPACING,
  COVER_SPACING,
  MIX_PACKING,
  PER_CLUSTER,
  TIED_BALL_SPACING,
  WALL_SPACING,
} from "../practice";
import { archCount, archPoints } from "./arch";
import type { ArchCurve, ArchMeasure, ArchPoint } from "./arch";
import { ballAcross, coverAcross, coverCount, sphereCount } from "./ball";
import { clusterShape, columnAcross, columnPlan, garlandCount } from "./clusters";
import { ceilingCount, strandCount, wallCount, wallShape } from "./flat";
import type { WallLattice } from "./flat";
import { outlinePlaces } from "./outline";
import type { Corner } from "./outline";
import { revolvedPlan } from "./revolved";
import type { ProfilePoint } from "./revolved";
import { GOLDEN_TURN, spread, spreadOnSphere } from "./spread";
import type { Spot } from "./spread";
import { mixPlan } from "./volumes";

/**
 * A balloon of a drawing: centre and radius in m; x to the right of the middle, y up from the base, z towards
 * the viewer.
 */
export interface Placement {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly radius: number;
  /** 1 for the row, ring or cluster nearest the base, or the left end of what lies along a line. */
  readonly row: number;
}

/** Most balloons of a drawing. */
export const MOST_PLACEMENTS = 20_000;

function checkDrawn(count: number): void {
  if (count > MOST_PLACEMENTS)
    throw overflow(`a drawing of more than ${MOST_PLACEMENTS} balloons is not made`);
}

/** The same balloons with the lowest one standing on the base. */
function standing(places: readonly Placement[]): readonly Placement[] {
  const lowest = places.reduce((least, { y, radius }) => Math.min(least, y - radius), Infinity);
  return places.map((place) => ({ ...place, y: place.y - lowest }));
}

/** Balloons on a sphere from the bottom up, rows counted in bands as high as a hexagonal row. */
function onSphere(
  count: number,
  dressed: number,
  radius: number,
  balloon: number,
  spacing: number,
): readonly Placement[] {
  checkDrawn(count);
  const distance = spacing * balloon;
  // The spiral is relaxed for a hair less than the best known distance, which it cannot reach.
  const top = [...spreadOnSphere(count, radius, 0.99 * distance)].sort((one, other) => other.y - one.y);
  const shown = top.slice(0, dressed).reverse();
  const [lowest, pitch] = [shown[0]?.y ?? 0, (distance * Math.sqrt(3)) / 2];
  return standing(
    shown.map(({ x, y, z }) => ({
      x,
      y,
      z,
      radius: balloon / 2,
      row: 1 + Math.floor((y - lowest) / pitch + 0.5),
    })),
  );
}

/**
 * Distance at which that many balloons just fit on a sphere, so that a count below the fullest is spread
 * evenly.
 */
const sphereSpacing = (count: number, radius: number, balloon: number): number =>
  count < 2 ? 1 : (2 * radius) / (ballAcross(count, balloon, 1) - balloon);

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

/** One cluster, in the plane of two directions, every other one turned by half a step. */
function cluster(
  index: number,
  perCluster: number,
  ringDiameter: number,
  at: (across: number, forward: number) => Pick<Placement, "x" | "y" | "z">,
  balloon: number,
): readonly Placement[] {
  return Array.from({ length: perCluster }, (_, place) => {
    const turn = ((2 * place + (index % 2)) * Math.PI) / perCluster;
    // A turned balloon on the axis would stand at -0.
    const point = at((ringDiameter / 2) * Math.sin(turn), (ringDiameter / 2) * Math.cos(turn) + 0);
    return { ...point, radius: balloon / 2, row: index + 1 };
  });
}

/**
 * Drawing of `columnCount`. Neighbours are exactly at the spacing.
 *
 * @param height finished height, m
 * @param balloon inflated diameter, m
 * @param perCluster balloons in a cluster
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons, cluster by cluster from the base
 * @throws CalcError as `columnCount`; `#NUM!` for more than 20000 balloons
 */
export function columnPlacements(
  height: number,
  balloon: number,
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
): readonly Placement[] {
  const plan = columnPlan(height, balloon, perCluster, spacing);
  checkDrawn(plan.length * perCluster);
  return plan.flatMap((ring, index) =>
    cluster(index, perCluster, ring.ringDiameter, (x, z) => ({ x, y: ring.height, z }), balloon),
  );
}

/**
 * Drawing of `garlandCount`, lying along x. Neighbours are exactly at the spacing, so that the last cluster
 * may stand over the end.
 *
 * @param length length of the line, m
 * @param balloon inflated diameter, m
 * @param perCluster balloons in a cluster
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons, cluster by cluster from the left
 * @throws CalcError as `garlandCount`; `#NUM!` for more than 20000 balloons
 */
export function garlandPlacements(
  length: number,
  balloon: number,
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
): readonly Placement[] {
  const count = garlandCount(length, balloon, perCluster, spacing);
  checkDrawn(count);
  const clusters = count / perCluster;
  const { pitch, ringDiameter } = clusterShape(balloon, perCluster, spacing);
  return standing(
    Array.from({ length: clusters }, (_, index) => {
      const x = (index - (clusters - 1) / 2) * pitch;
      return cluster(index, perCluster, ringDiameter, (y, z) => ({ x, y, z }), balloon);
    }).flat(),
  );
}

/** Places at even steps along a line of points, with the direction of the line there. */
function alongLine(
  points: readonly ArchPoint[],
  count: number,
): readonly (ArchPoint & { dx: number; dy: number })[] {
  const lengths = points
    .slice(1)
    .map(({ x, y }, index) => Math.hypot(x - (points[index]?.x ?? x), y - (points[index]?.y ?? y)));
  const step = lengths.reduce((sum, length) => sum + length, 0) / count;
  let [piece, passed] = [0, 0];
  return Array.from({ length: count }, (_, index) => {
    const along = (index + 0.5) * step;
    while (piece < lengths.length - 1 && passed + (lengths[piece] ?? 0) < along) {
      passed += lengths[piece] ?? 0;
      piece += 1;
    }
    const [from, to] = [points[piece] ?? { x: 0, y: 0 }, points[piece + 1] ?? { x: 0, y: 0 }];
    const length = lengths[piece] ?? 1;
    const [dx, dy] = [(to.x - from.x) / length, (to.y - from.y) / length];
    return { x: from.x + dx * (along - passed), y: from.y + dy * (along - passed), dx, dy };
  });
}

/**
 * Drawing of `archCount`. Clusters stand at even steps on the centre line, so that neighbours on the inside
 * of a bend are pressed together: the sharper the bend, the nearer, up to half in the corner of a square
 * arch.
 *
 * @param width distance of the feet, m
 * @param height rise above the feet, m
 * @param balloon inflated diameter, m
 * @param curve kind of curve
 * @param perCluster balloons in a cluster
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @param measured where `width` and `height` were measured
 * @returns balloons, cluster by cluster from the left foot
 * @throws CalcError as `archCount`; `#NUM!` for more than 20000 balloons
 */
export function archPlacements(
  width: number,
  height: number,
  balloon: number,
  curve: ArchCurve = "half ellipse",
  perCluster = PER_CLUSTER.value,
  spacing = CLUSTER_SPACING.value,
  measured: ArchMeasure = "centre",
): readonly Placement[] {
  const count = archCount(width, height, balloon, curve, perCluster, spacing, measured);
  checkDrawn(count);
  const { ringDiameter } = clusterShape(balloon, perCluster, spacing);
  const line = archPoints(width, height, curve, measured, columnAcross(balloon, perCluster, spacing));
  return standing(
    alongLine(line, count / perCluster).flatMap(({ x, y, dx, dy }, index) =>
      cluster(
        index,
        perCluster,
        ringDiameter,
        (off, z) => ({ x: x - off * dy, y: y + off * dx, z }),
        balloon,
      ),
    ),
  );
}

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
  checkDrawn(count);
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
  checkDrawn(wallCount(width, height, balloon, lattice, spacing, faces));
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
 * Drawing of `revolvedPlan`. Rings are stretched or squeezed to whole balloons and whole rings, and rings of
 * different numbers do not nest evenly: neighbours of two rings come up to a quarter nearer than the spacing,
 * up to half on a body less than three balloons across.
 *
 * @param profile height and radius of the finished outline from the base up, m
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons, ring by ring from the base
 * @throws CalcError as `revolvedPlan`; `#NUM!` for more than 20000 balloons
 */
export function revolvedPlacements(
  profile: readonly ProfilePoint[],
  balloon: number,
  spacing = 1,
): readonly Placement[] {
  const plan = revolvedPlan(profile, balloon, spacing);
  checkDrawn(plan.reduce((sum, { balloons }) => sum + balloons, 0));
  const base = profile[0]?.height ?? 0;
  return plan.flatMap(({ height, ringDiameter, balloons }, index) =>
    cluster(
      index,
      balloons,
      balloons === 1 ? 0 : ringDiameter,
      (x, z) => ({ x, y: height - base, z }),
      balloon,
    ),
  );
}

/**
 * Drawing of `outlineCount`. Neighbours are exactly at the spacing; x and y are the outline's own, y from its
 * lowest corner.
 *
 * @param corners corners of the outline in order, m
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons, row by row of the lattice
 * @throws CalcError as `outlineCount`; `#NUM!` for more than 20000 balloons
 */
export function outlinePlacements(
  corners: readonly Corner[],
  balloon: number,
  spacing = 1,
): readonly Placement[] {
  const places = outlinePlaces(corners, balloon, spacing);
  checkDrawn(places.length);
  const base = corners.reduce((least, { y }) => Math.min(least, y), Infinity);
  const first = places[0]?.row ?? 1;
  return places.map(({ x, y, row }) => ({ x, y: y - base, z: 0, radius: balloon / 2, row: row - first + 1 }));
}

const between = (value: number, limit: number): number => Math.max(0 - limit, Math.min(limit, value));

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
  checkDrawn(count);
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
    spot.x = between(spot.x, halfLength);
    spot.y = between(spot.y, halfWidth);
  });
  return spots
    .sort((one, other) => one.y - other.y)
    .map(({ x, y }) => ({ x, y: radius, z: y, radius, row: 1 + Math.floor((y + halfWidth) / balloon) }));
}

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
  const plan = mixPlan(length, thickness, sizes, shares, packing);
  const count = plan.reduce((sum, { balloons }) => sum + balloons, 0);
  checkDrawn(count);
  // Each size at even steps of its own along the body, so that every stretch of it has the whole mix.
  const steps = plan
    .flatMap(({ size, balloons }) =>
      Array.from({ length: balloons }, (_, index) => ({ size, share: (index + 0.5) / balloons })),
    )
    .sort((one, other) => one.share - other.share || other.size - one.size);
  const spots = steps.map(({ size, share }, index): Spot => {
    const radius = size / 2;
    // Even scatter over the body's cross-section.
    const depth = (index * 0.7548776662466927) % 1;
    const off = (thickness / 2 - radius) * Math.sqrt(depth);
    const turn = index * GOLDEN_TURN;
    return { x: off * Math.sin(turn), y: length * (share - 0.5), z: off * Math.cos(turn), radius };
  });
  spread(
    spots,
    1,
    (spot) => {
      const reach = thickness / 2 - spot.radius;
      const off = Math.hypot(spot.x, spot.z);
      const share = off > reach ? reach / off : 1;
      spot.x *= share;
      spot.z *= share;
      spot.y = between(spot.y, Math.max(0, length / 2 - spot.radius));
    },
    80,
  );
  return spots
    .sort((one, other) => one.y - other.y)
    .map(({ x, y, z, radius }) => ({
      x: y,
      y: x + thickness / 2,
      z,
      radius,
      row: 1 + wholeNearest((y + length / 2) / thickness),
    }));
}
