import { entryAt } from "../numeric/entry-at";
import { type Placement, refuseLargeDrawing, standing } from "./drawing";
import { GOLDEN_TURN, spread, type Spot } from "./spread";
import type { SizeCount } from "./volumes-drawing";

/** A balloon of a drawing with the number of the group that it belongs to. */
export type GroupedPlacement = Placement & { readonly group: number };

/** Balloons of one size on ribbons of one length. */
export interface RibbonedCount extends SizeCount {
  /** From the gathering point to the balloon's neck, m. */
  readonly ribbon: number;
}

/** Share of a body of loose balloons that is balloon. Source: random close packing of equal balls, 0.64, handbook value. */
const LOOSE_PACKING = 0.64;

/** Steps of spreading: a heap starts far from even. */
const STEPS = 120;

type GroupedSpot = Spot & { readonly group: number; readonly share: number };

/** One spot for each balloon at the origin, the sizes in turn, so that each place has the whole mix. */
function spotsOf(groups: readonly SizeCount[]): readonly GroupedSpot[] {
  refuseLargeDrawing(groups.reduce((sum, { balloons }) => sum + balloons, 0));
  return groups
    .flatMap(({ size, balloons }, group) =>
      Array.from({ length: balloons }, (_, index): GroupedSpot => {
        const share = (index + 0.5) / balloons;
        return { x: 0, y: 0, z: 0, radius: size / 2, group, share };
      }),
    )
    .sort((one, other) => one.share - other.share || other.radius - one.radius);
}

const placements = (spots: readonly GroupedSpot[]): readonly GroupedPlacement[] =>
  [...spots]
    .sort((one, other) => one.y - other.y)
    .map(({ x, y, z, radius, group }) => ({ x, y, z, radius, row: 1, group }));

const ballVolume = (across: number): number => (Math.PI / 6) * across ** 3;

const looseVolume = (groups: readonly SizeCount[]): number =>
  groups.reduce((sum, { size, balloons }) => sum + balloons * ballVolume(size), 0) / LOOSE_PACKING;

/**
 * Drawing of balloons of which only the number is known: a ball of them, tied together, that stands on the base.
 * Source: volume of the balloons at random close packing.
 *
 * @param groups balloons of each size, whole
 * @returns balloons from the bottom up
 * @throws CalcError `#NUM!` for more than 20000 balloons
 */
export function heapPlacements(groups: readonly SizeCount[]): readonly GroupedPlacement[] {
  const spots = spotsOf(groups);
  const reach = Math.cbrt((looseVolume(groups) * 3) / (4 * Math.PI));
  spots.forEach((spot, index) => {
    const height = 1 - (2 * index + 1) / spots.length;
    const off =
      Math.max(reach - spot.radius, 0.1 * spot.radius) * Math.cbrt((index * 0.7548776662466927) % 1);
    const ring = Math.sqrt(1 - height * height);
    spot.x = off * ring * Math.sin(index * GOLDEN_TURN);
    spot.y = off * height;
    spot.z = off * ring * Math.cos(index * GOLDEN_TURN);
  });
  // Drawn back to the middle in every step, or the heap would fall apart.
  spread(
    spots,
    1,
    (spot) => {
      const off = Math.hypot(spot.x, spot.y, spot.z);
      const most = Math.max(0, reach - spot.radius);
      const share = off > most && off > 0 ? Math.max(most / off, 0.995) : 1;
      spot.x *= share;
      spot.y *= share;
      spot.z *= share;
    },
    STEPS,
  );
  return standing(placements(spots));
}

/** A ring that lies on the base, m. */
export interface RingSize {
  /** Outer diameter. */
  readonly across: number;
  /** Diameter of its body. */
  readonly thickness: number;
}

/**
 * The ring that balloons of known numbers make round a pole where its size was not typed.
 * Source: volume at random close packing; a body as thick as two of the largest balloons.
 *
 * @param groups balloons of each size, whole
 * @returns its size, m
 */
export function ringSize(groups: readonly SizeCount[]): RingSize {
  const largest = groups.reduce(
    (most, { size, balloons }) => (balloons > 0 ? Math.max(most, size) : most),
    0,
  );
  const thickness = 2 * largest;
  const around = largest === 0 ? 0 : looseVolume(groups) / ((Math.PI / 4) * thickness ** 2);
  return { across: Math.max(around / Math.PI, thickness) + thickness, thickness };
}

/**
 * Drawing of a collar: a ring of mixed sizes that lies on the base round a pole, pressed together until all stay within it.
 *
 * @param groups balloons of each size, whole
 * @param ring its size, m
 * @returns balloons from the bottom up, about the pole
 * @throws CalcError `#NUM!` for more than 20000 balloons
 */
export function ringPlacements(groups: readonly SizeCount[], ring: RingSize): readonly GroupedPlacement[] {
  const { thickness } = ring;
  const middle = Math.max(0, (ring.across - thickness) / 2);
  const spots = spotsOf(groups);
  const within = (spot: Spot): void => {
    const off = Math.hypot(spot.x, spot.z);
    const [out, up] = [off - middle, spot.y - thickness / 2];
    const away = Math.hypot(out, up);
    const reach = Math.max(0, thickness / 2 - spot.radius);
    const share = away > reach ? reach / away : 1;
    const turned = off > 0 ? (middle + out * share) / off : 1;
    spot.x *= turned;
    spot.z *= turned;
    spot.y = thickness / 2 + up * share;
  };
  spots.forEach((spot, index) => {
    const turn = 2 * Math.PI * spot.share;
    const side = index * GOLDEN_TURN;
    const reach = Math.max(0, thickness / 2 - spot.radius);
    const off = middle + reach * Math.cos(side);
    spot.x = off * Math.sin(turn);
    spot.y = thickness / 2 + reach * Math.sin(side);
    spot.z = off * Math.cos(turn);
  });
  spread(spots, 1, within, STEPS);
  return placements(spots);
}

/**
 * Drawing of a bouquet: each balloon floats as far above the gathering point as its ribbon is long, as near to the upright as
 * the others let it.
 *
 * @param groups balloons of each size and ribbon, whole; the largest float in the middle
 * @returns balloons from the bottom up, the gathering point at the origin
 * @throws CalcError `#NUM!` for more than 20000 balloons
 */
export function bouquetPlacements(groups: readonly RibbonedCount[]): readonly GroupedPlacement[] {
  const spots = spotsOf(groups);
  const reachOf = (spot: GroupedSpot): number => entryAt(groups, spot.group).ribbon + spot.radius;
  [...spots]
    .sort((one, other) => other.radius - one.radius)
    .forEach((spot, index) => {
      const off = 0.3 * spot.radius * Math.sqrt(index);
      spot.x = off * Math.sin(index * GOLDEN_TURN);
      spot.z = off * Math.cos(index * GOLDEN_TURN);
      spot.y = reachOf(spot);
    });
  const floating = (spot: GroupedSpot): void => {
    const reach = reachOf(spot);
    const side = Math.hypot(spot.x, spot.z);
    const most = Math.min(side, 0.95 * reach);
    const share = side > 0 ? most / side : 0;
    spot.x *= share;
    spot.z *= share;
    spot.y = Math.sqrt(Math.max(0, reach * reach - most * most));
  };
  spots.forEach(floating);
  spread(
    spots,
    1,
    (spot) => {
      floating(spot as GroupedSpot);
    },
    STEPS,
  );
  return placements(spots);
}
