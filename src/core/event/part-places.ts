import { archPlacements } from "../geometry/arch-drawing";
import { clusterPlacements, garlandPlacements } from "../geometry/clusters-drawing";
import { clusterShape } from "../geometry/clusters";
import { type Placement, refuseLargeDrawing } from "../geometry/drawing";
import { ceilingPlacements, strandPlacements, wallPlacements } from "../geometry/flat-drawing";
import { heapPlacements, type GroupedPlacement } from "../geometry/loose-drawing";
import { bodyPlacements, type SizeCount } from "../geometry/volumes-drawing";
import { entryAt } from "../numeric/entry-at";
import { orNone } from "../numeric/tally";
import { CEILING_FULL_LOOK, CLUSTER_SPACING, PER_CLUSTER, WALL_SPACING } from "../practice";
import type { PieceCells } from "./cells";

/** A row of pieces as its drawing needs it: what was typed, its balloons and their inflated size, m. */
export interface PlacedRow extends SizeCount {
  readonly cells: Partial<PieceCells>;
}

/** A body as thick as this many of its largest balloons where its size was not typed. Source: ours, by eye. */
const BODY_BALLOONS = 2.5;

/** Share of a body of loose balloons that is balloon, where only its length or nothing is known. Source: ours, by eye. */
const BODY_PACKING = 0.6;

/**
 * The same places for another number of balloons: fewer leave even gaps, more stand behind their neighbours.
 *
 * @param places as the dimensions give them, in order
 * @param count balloons, whole
 * @returns that many places
 */
export function fitted<Place extends Placement>(places: readonly Place[], count: number): readonly Place[] {
  refuseLargeDrawing(count);
  if (places.length === count || places.length === 0) return places;
  let last = -1;
  return Array.from({ length: count }, (_, index) => {
    const at = Math.floor((index * places.length) / count);
    const place = entryAt(places, at);
    const isAgain = at === last;
    last = at;
    const { x, z, radius } = place;
    return isAgain ? { ...place, x: x + radius, z: z - radius } : place;
  });
}

/**
 * A column: whole clusters at the spacing, or where another number was typed, spread over its height.
 *
 * @param row height, m, may be absent
 * @returns balloons, cluster by cluster from the base
 */
export function columnPlaces({ cells, size, balloons }: PlacedRow): readonly Placement[] {
  const { height, "per cluster": perCluster = PER_CLUSTER.value, spacing = CLUSTER_SPACING.value } = cells;
  refuseLargeDrawing(balloons);
  const { pitch, ringDiameter } = clusterShape(size, perCluster, spacing);
  const clusters = Math.ceil(balloons / perCluster);
  const natural = (clusters - 1) * pitch + size;
  // A last cluster may stand over or be left out by less than its own height; anything else was typed.
  const isFree = height === undefined || clusters < 2 || Math.abs(natural - height) <= pitch;
  const step = isFree ? pitch : Math.max(0, height - size) / (clusters - 1);
  return Array.from({ length: clusters }, (_, index) =>
    clusterPlacements(
      index,
      perCluster,
      ringDiameter,
      (x, z) => ({ x, y: size / 2 + index * step, z }),
      size,
    ),
  )
    .flat()
    .slice(0, balloons);
}

/**
 * Rows of balloons over a face, as near to square as whole numbers allow.
 *
 * @param width m
 * @param height m
 * @param row balloons
 * @returns balloons row by row from the base
 */
export function facePlaces(
  width: number,
  height: number,
  { size, balloons }: SizeCount,
): readonly Placement[] {
  refuseLargeDrawing(balloons);
  const across = Math.max(1, Math.min(balloons, Math.round(Math.sqrt((balloons * width) / height))));
  const rows = Math.max(1, Math.ceil(balloons / across));
  const steps = (length: number, count: number): number =>
    count > 1 ? Math.max(0, length - size) / (count - 1) : 0;
  return Array.from({ length: balloons }, (_, index) => {
    const row = Math.floor(index / across);
    const inRow = Math.min(across, balloons - row * across);
    return {
      x: ((index % across) - (inRow - 1) / 2) * steps(width, across),
      y: size / 2 + row * steps(height, rows),
      z: 0,
      radius: size / 2,
      row: row + 1,
    };
  });
}

/**
 * A wall with the balloons that take their places out of it, such as a logo, in its middle.
 *
 * @param wall width and height, m, may be absent
 * @param inside rows whose balloons stand in the wall's lattice
 * @returns places; group 0 is the wall's, the others in the order of `inside`
 */
export function wallPlaces(wall: PlacedRow, inside: readonly SizeCount[]): readonly GroupedPlacement[] {
  const { size, balloons, cells } = wall;
  const total = inside.reduce((sum, row) => sum + row.balloons, balloons);
  const { width, height, lattice, spacing = WALL_SPACING.value, faces } = cells;
  const isSized = width !== undefined && height !== undefined && width > 0 && height > 0;
  const side = size * Math.sqrt(total);
  const lattices = isSized
    ? fitted(wallPlacements(width, height, size, lattice, spacing, faces), total)
    : facePlaces(side, side, { size, balloons: total });
  const nearest = patchOrder(lattices, total - balloons, isSized ? width / height : 1);
  const groups = new Map<number, number>();
  let next = 0;
  for (const [index, row] of inside.entries())
    for (const place of nearest.slice(next, (next += row.balloons))) groups.set(place, index + 1);
  return lattices.map((place, index) => ({ ...place, group: orNone(groups.get(index)) }));
}

/** Places of a lattice from the middle of a patch outwards: its full rows first, the front face before those behind. */
function patchOrder(lattice: readonly Placement[], patch: number, aspect: number): readonly number[] {
  const heights = [...new Set(lattice.map(({ y }) => y))].sort((one, other) => one - other);
  const middle = heights.length === 0 ? 0 : (entryAt(heights, 0) + entryAt(heights, heights.length - 1)) / 2;
  const inRow = Math.ceil(Math.sqrt(patch * aspect));
  const byRow = new Map<string, number[]>();
  for (const [index, { y, z }] of lattice.entries()) {
    const key = `${z} ${y}`;
    byRow.set(key, [...(byRow.get(key) ?? []), index]);
  }
  const at = (index: number): Placement => entryAt(lattice, index);
  const rows = [...byRow.values()]
    .map((row) => row.sort((one, other) => Math.abs(at(one).x) - Math.abs(at(other).x)))
    .sort((one, other) => {
      const [here, there] = [at(entryAt(one, 0)), at(entryAt(other, 0))];
      return there.z - here.z || Math.abs(here.y - middle) - Math.abs(there.y - middle);
    });
  return [...rows.flatMap((row) => row.slice(0, inRow)), ...rows.flatMap((row) => row.slice(inRow))];
}

/**
 * A body of mixed sizes of which length or thickness may not have been typed.
 *
 * @param length m
 * @param thickness m
 * @param rows balloons of each size
 * @returns balloons from the left
 */
export function bodyPlaces(
  length: number | undefined,
  thickness: number | undefined,
  rows: readonly SizeCount[],
): readonly GroupedPlacement[] {
  const volume = rows.reduce((sum, { size, balloons }) => sum + (balloons * Math.PI * size ** 3) / 6, 0);
  const largest = rows.reduce((most, { size }) => Math.max(most, size), 0);
  const sectionOf = (across: number): number => (Math.PI / 4) * across ** 2;
  const given = thickness !== undefined && thickness > 0 ? thickness : undefined;
  const isLong = length !== undefined && length > 0;
  const needed = isLong ? Math.sqrt(volume / BODY_PACKING / sectionOf(1) / length) : BODY_BALLOONS * largest;
  const across = Math.max(given ?? needed, largest);
  return bodyPlacements(isLong ? length : volume / BODY_PACKING / sectionOf(across), across, rows);
}

/**
 * A ceiling seen from above: its length to the right, its width upwards.
 *
 * @param row length and width, m, may be absent
 * @returns balloons
 */
export function ceilingPlaces({ cells, size, balloons }: PlacedRow): readonly Placement[] {
  const { length, width, covered = CEILING_FULL_LOOK.value } = cells;
  if (length === undefined || width === undefined) {
    const side = size * Math.sqrt(balloons);
    return facePlaces(length ?? side, width ?? side, { size, balloons });
  }
  return fitted(ceilingPlacements(length, width, size, covered), balloons).map((place) => ({
    ...place,
    y: place.z + width / 2,
    z: 0,
  }));
}

/**
 * A part that lies or stands by itself.
 *
 * @param kind of part
 * @param row its dimensions, m; where they are absent its balloons are a heap
 * @returns balloons from the left or from the base
 */
export function linePlaces(
  kind: "arch" | "garland" | "strand" | "net",
  row: PlacedRow,
): readonly Placement[] {
  const { cells, size, balloons } = row;
  const { width, height, length, curve, measured, spacing, "per cluster": perCluster } = cells;
  if (kind === "arch" && width !== undefined && height !== undefined)
    return fitted(archPlacements(width, height, size, curve, perCluster, spacing, measured), balloons);
  if (kind === "garland" && length !== undefined)
    return fitted(garlandPlacements(length, size, perCluster, spacing), balloons);
  if (kind === "strand" && length !== undefined) return fitted(strandPlacements(length, size), balloons);
  if (kind === "net") return bodyPlaces(length, width, [row]);
  return heapPlacements([row]);
}

/**
 * Rows of counted balloons as one body: over a face, along a line, up a height, or a heap where nothing else is known.
 *
 * @param rows of one piece
 * @returns balloons with the number of their row
 */
export function countPlaces(rows: readonly PlacedRow[]): readonly GroupedPlacement[] {
  const one = (name: "width" | "height" | "length"): number | undefined =>
    rows.map(({ cells }) => cells[name]).find((value) => value !== undefined && value > 0);
  const [width, height, length] = [one("width"), one("height"), one("length")];
  const [first] = rows;
  if (width !== undefined && height !== undefined && first !== undefined && rows.length === 1)
    return facePlaces(width, height, first).map((place) => ({ ...place, group: 0 }));
  if (length !== undefined) return bodyPlaces(length, width, rows);
  if (height === undefined) return heapPlacements(rows);
  // Upright: what lay along x stands along y.
  return bodyPlaces(height, width, rows).map((place) => ({ ...place, x: place.y, y: place.x + height / 2 }));
}
