import { invalid, overflow } from "../calc-error";
import { entryAt } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import { largestRemainder } from "../numeric/largest-remainder";
import { wholeNearest } from "../numeric/whole";
import { nearSpan, remainingSpans } from "./capsule";
import type { LineStretch } from "./capsule";
import { areaBetween, bendsOf, lostAt } from "./closing";
import type { Side } from "./closing";
import { inMetres, neighbourDistance } from "./checks";
import type { RingRow } from "./clusters";

/** A point of the finished outline of a body that is turned about its upright axis. */
export interface ProfilePoint {
  /** Height above the base, m. */
  readonly height: number;
  /** Distance from the axis, m. */
  readonly radius: number;
  /** Row in the worksheet range, for sentences; without it points count from 1. */
  readonly row?: number;
}

/** Most rows of a profile. */
export const MOST_PROFILE_ROWS = 500;

/** Most rings of a body: more are past what a cell should wait for. */
const MOST_RINGS = 10_000;

/** Directions of an arc round a waist, so that its line is within half a percent of the arc. */
const ARC_STEP = Math.PI / 12;

function checkProfile(profile: readonly ProfilePoint[]): void {
  if (profile.length < 2 || profile.length > MOST_PROFILE_ROWS) {
    throw invalid("profile", `have from 2 to ${MOST_PROFILE_ROWS} rows`, profile.length);
  }
  profile.forEach(({ height, radius, row }, index) => {
    const name = `profile row ${row ?? index + 1}`;
    if (!(Math.abs(height) <= 1000)) throw invalid(`${name}: height`, "be a length up to 1000 m", height);
    if (!(radius >= 0 && radius <= 1000)) throw invalid(`${name}: radius`, "be from 0 to 1000 m", radius);
    const before = profile[index - 1];
    if (before === undefined) return;
    if (height < before.height) {
      throw invalid(`${name}: height`, `be at least ${inMetres(before.height)}, the row before`, {
        written: inMetres(height),
      });
    }
    if (height === before.height && radius === before.radius) {
      throw invalid(name, "differ from the row before", {
        written: `${inMetres(height)}, ${inMetres(radius)} again`,
      });
    }
    if (radius === 0 && before.radius === 0) {
      throw invalid(`${name}: radius`, "be above 0 next to a row on the axis", radius);
    }
    const earlier = profile[index - 2];
    const isFlat = earlier !== undefined && earlier.height === height;
    if (isFlat && (radius - before.radius) * (before.radius - earlier.radius) < 0) {
      throw invalid(`${name}: radius`, "not turn back over the row before at the same height", {
        written: inMetres(radius),
      });
    }
  });
}

function sidesOf(points: readonly ProfilePoint[]): readonly Side[] {
  return points.slice(1).map((to, index) => {
    const from = points[index] ?? to;
    const length = Math.hypot(to.radius - from.radius, to.height - from.height);
    return {
      from,
      to,
      length,
      dr: (to.radius - from.radius) / length,
      dh: (to.height - from.height) / length,
    };
  });
}

/** Parts of a straight piece that keep their distance from every side and lie on this side of the axis. */
function keptParts(piece: Side, sides: readonly Side[], inset: number): readonly LineStretch[] {
  const taken: LineStretch[] = [];
  const low = Math.min(piece.from.height, piece.to.height) - inset;
  const high = Math.max(piece.from.height, piece.to.height) + inset;
  for (const { from, to } of sides) {
    // Heights never fall along a profile: only the sides beside the piece can be near it.
    if (to.height < low) continue;
    if (from.height > high) break;
    const [r, h] = [from.radius - piece.from.radius, from.height - piece.from.height];
    const [otherR, otherH] = [to.radius - piece.from.radius, to.height - piece.from.height];
    const span = nearSpan(
      r * piece.dr + h * piece.dh,
      h * piece.dr - r * piece.dh,
      otherR * piece.dr + otherH * piece.dh,
      otherH * piece.dr - otherR * piece.dh,
      inset,
    );
    if (span !== undefined) taken.push(span);
  }
  const atAxis = -piece.from.radius / piece.dr;
  if (piece.dr > 0) taken.push([-Infinity, atAxis]);
  else if (piece.dr < 0) taken.push([atAxis, Infinity]);
  else if (piece.from.radius < 0) return [];
  return remainingSpans(0, piece.length, taken);
}

/**
 * The outline moved inwards: every side, and an arc about every corner of a waist, before what lies too near
 * is cut away.
 */
function movedIn(sides: readonly Side[], inset: number): readonly Side[] {
  const at = ({ radius, height }: ProfilePoint, angle: number): ProfilePoint => ({
    radius: radius - Math.sin(angle) * inset,
    height: height + Math.cos(angle) * inset,
  });
  return sides.flatMap((side, index) => {
    const before = sides[index - 1] ?? side;
    const turn = Math.atan2(
      before.dr * side.dh - before.dh * side.dr,
      before.dr * side.dr + before.dh * side.dh,
    );
    const angle = Math.atan2(side.dh, side.dr);
    const arcs = turn < 0 ? Math.ceil(-turn / ARC_STEP) : 0;
    // The arc's corners stand a little outside of it, so that its straight pieces touch it and keep the
    // distance.
    const reach = inset / Math.cos(turn / (2 * Math.max(1, arcs)));
    const round = Array.from({ length: arcs }, (_, step) => {
      const swing = angle - turn + (turn * (step + 0.5)) / arcs;
      return {
        radius: side.from.radius - Math.sin(swing) * reach,
        height: side.from.height + Math.cos(swing) * reach,
      };
    });
    const start = arcs === 0 ? [] : [at(side.from, angle - turn)];
    return sidesOf([...start, ...round, at(side.from, angle), at(side.to, angle)]);
  });
}

/**
 * Line of the centres of balloons that fill a profile from inside: the profile moved inwards by half a
 * balloon, without the corners that the balloon cannot reach into. A neck too thin for the balloon is crossed
 * in a straight line.
 */
function centreMeridian(profile: readonly ProfilePoint[], balloon: number): readonly Side[] {
  const inset = balloon / 2;
  const sides = sidesOf(profile);
  const points: ProfilePoint[] = [];
  const add = (point: ProfilePoint): void => {
    const last = points.at(-1);
    const apart = last === undefined ? 1 : Math.hypot(point.radius - last.radius, point.height - last.height);
    if (apart > 1e-9 * balloon) points.push(point);
  };
  for (const piece of movedIn(sides, inset)) {
    for (const span of keptParts(piece, sides, inset * (1 - 1e-9))) {
      for (const along of span) {
        add({
          radius: Math.max(0, piece.from.radius + along * piece.dr),
          height: piece.from.height + along * piece.dh,
        });
      }
    }
  }
  return sidesOf(points);
}

/** Balloons that a ring has room for by the chord between neighbours, not a whole number; one where two do not fit. */
function ringRoom(radius: number, distance: number): number {
  const sine = distance / (2 * radius);
  return sine > 1 + 1e-9 ? 1 : Math.PI / Math.asin(Math.min(1, sine));
}

/** Balloons side by side on a ring: the chord between neighbours is nearest to the spacing. */
const ringCount = (radius: number, distance: number): number => wholeNearest(ringRoom(radius, distance));

/** What may be missing to one more balloon: an outline of straight sides lies a little inside the round one. */
const NEARLY_ONE_MORE = 0.1;

/**
 * Rings with the balloons that the body as a whole has room for. Rings filled one by one crowd where they grow and
 * shrink from one to the next; a tube's do not.
 */
function thinned(
  rings: readonly RingRow[],
  meridian: readonly Side[],
  isClosed: readonly [boolean, boolean],
  first: number,
  last: number,
  distance: number,
): readonly RingRow[] {
  // Where two sides were cut to meet, dust of a side points anywhere.
  const bends = bendsOf(
    meridian.filter(({ length }) => length > 1e-4 * distance),
    isClosed,
  );
  const curved = sum(bends.map(({ share }) => share));
  if (curved < 1e-9 || rings.length < 2) return rings;
  const half = (last - first) / (rings.length - 1) / 2;
  const [from, to] = [isClosed[0] ? first : first - half, isClosed[1] ? last : last + half];
  const cell = (Math.sqrt(3) / 2) * distance ** 2;
  const whole = areaBetween(meridian, from, to) / cell - lostAt(bends, curved, distance);
  const weight = Math.min(1, curved);
  const rooms = rings.map(({ ringDiameter }) => ringRoom(ringDiameter / 2, distance));
  const singles = rooms.filter((room) => room === 1).length;
  const filled = balloonsOf(rings);
  const total = Math.floor((1 - weight) * filled + weight * whole + NEARLY_ONE_MORE) - singles;
  if (total >= filled - singles || total < 2 * (rings.length - singles)) return rings;
  const shared = largestRemainder(
    total,
    rooms.map((room) => (room === 1 ? 0 : room)),
  );
  return rings.map((ring, index) => ({ ...ring, balloons: rooms[index] === 1 ? 1 : entryAt(shared, index) }));
}

/** Rings at even steps from one place on the meridian to another. */
function ringsAt(
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

const balloonsOf = (rings: readonly RingRow[]): number => rings.reduce((sum, ring) => sum + ring.balloons, 0);

/**
 * REVOLVED_PLAN: building plan of a body of revolution (vase, egg, tree, mushroom) covered with one layer of
 * balloons, ring by ring from the base. The profile is the finished outline, so the centres run half a
 * balloon inside it; an end on the axis is closed by a cap, an end off the axis is an open rim. Rings are s d
 * sqrt(3)/2 apart along the meridian, stretched to fit; of the fullest fit and the ones with one or two rings
 * fewer, the one with the most balloons is taken. A body that curves both ways then takes what its surface has
 * room for, less what closing it takes on a ball of the same bends, spread over the rings by their length: a
 * ball agrees with COUNT_SPHERE within one balloon in 20.
 * Source: hexagonal rows on the parallel surface; at corners tighter than a balloon the parallel surface is
 * the one a ball rolls on; curvature by Gauss and Bonnet, packings on balls by `spherical-codes.ts`.
 *
 * @param profile height and radius of the outline from the base up, m, 2 to 500 rows
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns one row for each ring
 * @throws CalcError `#VALUE!` naming the row where heights fall, points repeat or the outline turns back over
 *   itself; or where the body is smaller than a balloon; `#NUM!` for a body of more than 10000 rings
 */
export function revolvedPlan(
  profile: readonly ProfilePoint[],
  balloon: number,
  spacing = 1,
): readonly RingRow[] {
  const distance = neighbourDistance(balloon, spacing);
  checkProfile(profile);
  const meridian = centreMeridian(profile, balloon);
  const total = sum(meridian.map(({ length }) => length));
  // A rim is half a balloon away from the centres next to it; a closed end has a balloon on the axis.
  const first = profile[0]?.radius === 0 ? 0 : balloon / 2;
  const last = total - (profile.at(-1)?.radius === 0 ? 0 : balloon / 2);
  if (meridian.length === 0) throw invalid("balloon", "fit into the body", { written: inMetres(balloon) });
  const most = Math.max(0, wholeNearest((last - first) / ((distance * Math.sqrt(3)) / 2)));
  if (most >= MOST_RINGS) throw overflow(`a body of more than ${MOST_RINGS} rings is beyond this function`);
  let best: readonly RingRow[] = [];
  for (let steps = most; steps >= Math.max(0, most - 2); steps -= 1) {
    const rings = ringsAt(meridian, first, last, steps, distance);
    if (balloonsOf(rings) > balloonsOf(best)) best = rings;
  }
  const isClosed = [profile[0]?.radius === 0, profile.at(-1)?.radius === 0] as const;
  return thinned(best, meridian, isClosed, first, last, distance);
}

/**
 * COUNT_REVOLVED: balloons in one layer on a body of revolution; the sum of its `revolvedPlan`.
 *
 * @param profile height and radius of the finished outline from the base up, m, 2 to 500 rows
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons, whole
 * @throws CalcError as `revolvedPlan`
 */
export function revolvedCount(profile: readonly ProfilePoint[], balloon: number, spacing = 1): number {
  return balloonsOf(revolvedPlan(profile, balloon, spacing));
}
