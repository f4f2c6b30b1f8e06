import type { Placement } from "../../../src/core/geometry/drawing";

/** Smallest distance of two centres, as a ratio to the sum of their radii. */
export function nearest(places: readonly Placement[]): number {
  let least = Infinity;
  places.forEach((one, index) => {
    for (const other of places.slice(index + 1)) {
      const apart = Math.hypot(one.x - other.x, one.y - other.y, one.z - other.z);
      least = Math.min(least, apart / (one.radius + other.radius));
    }
  });
  return least;
}

/** The points as sortable text to the tenth of a micrometre, so that two sets of them can be compared. */
export const written = (points: readonly (readonly number[])[]): readonly string[] =>
  points
    .map((point) => point.map((value) => (Math.round(value * 1e7) / 1e7 + 0).toFixed(7)).join(" "))
    .sort();
export const centres = (places: readonly Placement[]): readonly string[] =>
  written(places.map(({ x, y, z, row }) => [x, y, z, row]));

/** Pairs of balloons exactly a distance apart. */
export function pairsAt(places: readonly Placement[], distance: number): number {
  let pairs = 0;
  places.forEach((one, index) => {
    for (const other of places.slice(index + 1)) {
      if (Math.abs(Math.hypot(one.x - other.x, one.y - other.y, one.z - other.z) - distance) < 1e-9)
        pairs += 1;
    }
  });
  return pairs;
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Middle of each cluster, in order. */
export function middles(places: readonly Placement[], perCluster: number) {
  return Array.from({ length: places.length / perCluster }, (_, index) => {
    const ring = places.slice(index * perCluster, (index + 1) * perCluster);
    return {
      ring,
      x: mean(ring.map(({ x }) => x)),
      y: mean(ring.map(({ y }) => y)),
      z: mean(ring.map(({ z }) => z)),
    };
  });
}
