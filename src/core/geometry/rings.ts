import { entryAt } from "../numeric/entry-at";
import { largestRemainder } from "../numeric/largest-remainder";
import { sum } from "../numeric/sums";
import { wholeNearest } from "../numeric/whole";
import { areaBetween, bendsOf, lostAt, type Side } from "./closing";
import type { RingRow } from "./clusters";

/** Balloons that a ring has room for by the chord between neighbours, not a whole number; one where two do not fit. */
function ringRoom(radius: number, distance: number): number {
  const sine = distance / (2 * radius);
  return sine > 1 + 1e-9 ? 1 : Math.PI / Math.asin(Math.min(1, sine));
}

/** Balloons side by side on a ring: the chord between neighbours is nearest to the spacing. */
const ringCount = (radius: number, distance: number): number => wholeNearest(ringRoom(radius, distance));

/** What may be missing to one more balloon: an outline of straight sides lies a little inside the round one. */
const NEARLY_ONE_MORE = 0.1;

/** The line on which the centres of a body lie, and the stretch of it that has rings. */
export interface CentreLine {
  readonly meridian: readonly Side[];
  readonly isClosed: readonly [boolean, boolean];
  readonly first: number;
  readonly last: number;
  readonly distance: number;
}

/** Balloons that a body as a whole has room for, whole; all of its rings where it does not curve both ways. */
function roomOf(
  { meridian, isClosed, first, last, distance }: CentreLine,
  rings: readonly RingRow[],
): number {
  const filled = balloonsOf(rings);
  // Where two sides were cut to meet, dust of a side points anywhere.
  const bends = bendsOf(
    meridian.filter(({ length }) => length > 1e-4 * distance),
    isClosed,
  );
  const curved = sum(bends.map(({ share }) => share));
  if (curved < 1e-9 || rings.length < 2) return filled;
  const half = (last - first) / (rings.length - 1) / 2;
  const [from, to] = [isClosed[0] ? first : first - half, isClosed[1] ? last : last + half];
  const cell = (Math.sqrt(3) / 2) * distance ** 2;
  const whole = areaBetween(meridian, from, to) / cell - lostAt(bends, curved, distance);
  const weight = Math.min(1, curved);
  return Math.floor((1 - weight) * filled + weight * whole + NEARLY_ONE_MORE);
}

/**
 * Rings with the balloons that the body as a whole has room for. Rings filled one by one crowd where they grow and
 * shrink from one to the next; a tube's do not. Undefined where a ring would be left with a single balloon beside the axis.
 */
function thinned(rings: readonly RingRow[], room: number, distance: number): readonly RingRow[] | undefined {
  const rooms = rings.map(({ ringDiameter }) => ringRoom(ringDiameter / 2, distance));
  const singles = rooms.filter((one) => one === 1).length;
  if (room >= balloonsOf(rings)) return rings;
  const total = room - singles;
  if (total < 2 * (rings.length - singles)) return undefined;
  const shared = largestRemainder(
    total,
    rooms.map((one) => (one === 1 ? 0 : one)),
  );
  return rings.map((ring, index) => ({ ...ring, balloons: rooms[index] === 1 ? 1 : entryAt(shared, index) }));
}

/** Rings of a body that has room for few balloons: of all with fewer rings those nearest to that room. */
function fewRings(line: CentreLine, rings: readonly RingRow[], room: number): readonly RingRow[] {
  const { meridian, first, last, distance } = line;
  const fewer = Array.from({ length: rings.length - 1 }, (_, steps) =>
    ringsAt(meridian, first, last, steps, distance),
  );
  const off = (one: readonly RingRow[]): number => Math.abs(balloonsOf(one) - room);
  const fitting = fewer.flatMap((one) => {
    const fitted = thinned(one, room, distance);
    return fitted === undefined ? [] : [fitted];
  });
  return fitting.reduce((best, one) => (off(one) < off(best) ? one : best), fitting[0] ?? rings);
}

/**
 * Rings at even steps from one place on the meridian to another, each filled by itself.
 *
 * @param meridian sides from the base up
 * @param first place of the first ring along the meridian, m
 * @param last place of the last, m
 * @param steps between rings, 0 or more; with 0 there is one ring, in the middle
 * @param distance centre-to-centre distance of neighbours, m
 * @returns one row for each ring
 */
export function ringsAt(
  meridian: readonly Side[],
  first: number,
  last: number,
  steps: number,
  distance: number,
): readonly RingRow[] {
  let index = 0;
  let passed = 0;
  return Array.from({ length: steps + 1 }, (_, step) => {
    const along = steps === 0 ? (first + last) / 2 : first + ((last - first) * step) / steps;
    while (index < meridian.length - 1 && passed + entryAt(meridian, index).length < along) {
      passed += entryAt(meridian, index).length;
      index += 1;
    }
    const side = entryAt(meridian, index);
    const beyond = Math.min(along - passed, side.length);
    const radius = Math.max(0, side.from.radius + beyond * side.dr);
    return {
      row: step + 1,
      height: side.from.height + beyond * side.dh,
      ringDiameter: 2 * radius,
      balloons: ringCount(radius, distance),
    };
  });
}

/** Balloons of all rings together. */
export const balloonsOf = (rings: readonly RingRow[]): number =>
  rings.reduce((sum, ring) => sum + ring.balloons, 0);

/**
 * Rings with the balloons that the body as a whole has room for; of a body with room for few, fewer rings.
 * Source: `lostAt`; area by Pappus.
 *
 * @param line of the centres
 * @param rings the fullest, each filled by itself
 * @returns one row for each ring
 */
export function fittedRings(line: CentreLine, rings: readonly RingRow[]): readonly RingRow[] {
  const room = roomOf(line, rings);
  return thinned(rings, room, line.distance) ?? fewRings(line, rings, room);
}
