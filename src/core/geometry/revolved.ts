import { invalid, overflow } from "../calc-error";
import { sum } from "../numeric/sums";
import { wholeNearest } from "../numeric/whole";
import { nearSpan, remainingSpans } from "./capsule";
import type { LineStretch } from "./capsule";
import type { Side } from "./closing";
import { inMetres, neighbourDistance } from "./checks";
import type { RingRow } from "./clusters";
import { balloonsOf, fittedRings, ringsAt } from "./rings";

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

/**
 * REVOLVED_PLAN: building plan of a body of revolution (vase, egg, tree, mushroom) covered with one layer of
 * balloons, ring by ring from the base. The profile is the finished outline, so the centres run half a
 * balloon inside it; an end on the axis is closed by a cap, an end off the axis is an open rim. Rings are s d
 * sqrt(3)/2 apart along the meridian, stretched to fit. A body that curves both ways takes what its surface has
 * room for, less what closing it takes on a ball of the same bends, spread over the rings by their length: a
 * ball agrees with COUNT_SPHERE within one balloon in 20, or within two where it has few. Of the fullest fit and
 * the ones with one or two rings fewer, the one that then has the most balloons is taken.
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
  const isClosed = [profile[0]?.radius === 0, profile.at(-1)?.radius === 0] as const;
  const line = { meridian, isClosed, first, last, distance };
  let best: readonly RingRow[] = [];
  for (let steps = most; steps >= Math.max(0, most - 2); steps -= 1) {
    const rings = fittedRings(line, ringsAt(meridian, first, last, steps, distance));
    if (balloonsOf(rings) > balloonsOf(best)) best = rings;
  }
  return best;
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
