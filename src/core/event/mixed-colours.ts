import { entryAt } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import type { Placement } from "../geometry/drawing";

/** A neighbour of the same colour in the very same place weighs as much as this many balloons of delay. Source: ours, by eye. */
const NEIGHBOUR_WEIGHT = 2;
/** Two balloons are neighbours up to this part of their touching distance. */
const NEIGHBOUR_REACH = 1.2;
/** Places looked back to: those of a drawing stand in order, so that neighbours are near in it too. */
const LOOKED_BACK = 240;

/** How near two balloons are: 1 in one place, 0 from the reach of neighbours on. */
function nearness(one: Placement, other: Placement): number {
  const reach = NEIGHBOUR_REACH * (one.radius + other.radius);
  const [x, y, z] = [one.x - other.x, one.y - other.y, one.z - other.z];
  return Math.max(0, 1 - (x * x + y * y + z * z) / (reach * reach));
}

/**
 * Which colour each place takes, so that every stretch has the whole mix and few neighbours are alike.
 * Source: own method; each place takes the colour that is furthest behind its share, less so beside its own kind.
 *
 * @param places balloons of a drawing, in order
 * @param counts balloons of each colour, whole; they add up to the places
 * @returns for each place the number of its colour, each as often as counted
 */
export function mixedColours(places: readonly Placement[], counts: readonly number[]): readonly number[] {
  const all = sum(counts);
  const used = counts.map(() => 0);
  const taken: number[] = [];
  for (const [index, place] of places.entries()) {
    const alike = counts.map(() => 0);
    for (let back = index - 1; back >= Math.max(0, index - LOOKED_BACK); back -= 1) {
      const colour = entryAt(taken, back);
      alike[colour] = entryAt(alike, colour) + nearness(place, entryAt(places, back));
    }
    let best = -1;
    let most = -Infinity;
    for (const [colour, count] of counts.entries()) {
      if (entryAt(used, colour) >= count) continue;
      const behind = (count * (index + 1)) / all - entryAt(used, colour);
      const score = behind - NEIGHBOUR_WEIGHT * entryAt(alike, colour);
      if (score > most) [best, most] = [colour, score];
    }
    if (best < 0) best = 0;
    used[best] = entryAt(used, best) + 1;
    taken.push(best);
  }
  return taken;
}

/**
 * Which colour each balloon of a stack of clusters takes where every cluster has the same pattern.
 *
 * @param clusters whole, 1 or more
 * @param counts balloons of each colour in all clusters, whole
 * @returns for each balloon, cluster by cluster, the number of its colour; undefined where the colours are no whole number in
 *   a cluster
 */
export function patternColours(clusters: number, counts: readonly number[]): readonly number[] | undefined {
  if (!Number.isInteger(clusters) || clusters < 1 || counts.some((count) => count % clusters !== 0))
    return undefined;
  const each = counts.map((count) => count / clusters);
  // In turn round the cluster, so that every side of the stack shows every colour.
  const rounds = Array.from({ length: Math.max(0, ...each) }, (_, round) =>
    each.flatMap((count, colour) => (count > round ? [colour] : [])),
  );
  const pattern = rounds.flat();
  return Array.from({ length: clusters }, () => pattern).flat();
}
