import { invalid, overflow } from "../calc-error";
import { wholeNearest } from "../numeric/whole";
import { metres, neighbourDistance } from "./checks";
import type { RingRow } from "./clusters";

/** A point of the finished outline of a body that is turned about its upright axis. */
export interface ProfilePoint {
  /** Height above the base, m. */
  readonly height: number;
  /** Distance from the axis, m. */
  readonly radius: number;
}

/** Most rows of a profile. */
export const MOST_PROFILE_ROWS = 500;

/** Most rings of a body: more than a worksheet wants to spill. */
const MOST_RINGS = 100_000;

/** A line that the balloons' centres keep to: a place on it and its direction, radius first. */
interface Line {
  readonly r: number;
  readonly h: number;
  readonly dr: number;
  readonly dh: number;
}

function checkProfile(profile: readonly ProfilePoint[]): void {
  if (profile.length < 2 || profile.length > MOST_PROFILE_ROWS) {
    throw invalid("profile", `have from 2 to ${MOST_PROFILE_ROWS} rows`, profile.length);
  }
  profile.forEach(({ height, radius }, index) => {
    const name = `profile row ${index + 1}`;
    if (!(Math.abs(height) <= 1000)) throw invalid(`${name}: height`, "be a length up to 1000 m", height);
    if (!(radius >= 0 && radius <= 1000)) throw invalid(`${name}: radius`, "be from 0 to 1000 m", radius);
    const before = profile[index - 1];
    if (before === undefined) return;
    if (height < before.height) {
      throw invalid(`${name}: height`, `be at least ${metres(before.height)}, the row before`, {
        written: metres(height),
      });
    }
    if (height === before.height && radius === before.radius) {
      throw invalid(name, "differ from the row before", {
        written: `${metres(height)}, ${metres(radius)} again`,
      });
    }
    if (radius === 0 && before.radius === 0) {
      throw invalid(`${name}: radius`, "be above 0 next to a row on the axis", radius);
    }
    const earlier = profile[index - 2];
    const turnsBack =
      earlier?.height === height &&
      before.height === height &&
      radius > before.radius === before.radius < earlier.radius;
    if (turnsBack && radius > before.radius !== before.radius > earlier.radius) {
      throw invalid(`${name}: radius`, "not turn back over the row before at the same height", {
        written: metres(radius),
      });
    }
  });
}

/** Where two lines meet; halfway between them where they run side by side. */
function meeting(one: Line, other: Line): ProfilePoint {
  const cross = one.dr * other.dh - one.dh * other.dr;
  if (Math.abs(cross) < 1e-9) return { radius: (one.r + other.r) / 2, height: (one.h + other.h) / 2 };
  const along = ((other.r - one.r) * other.dh - (other.h - one.h) * other.dr) / cross;
  return { radius: one.r + along * one.dr, height: one.h + along * one.dh };
}

/** A point moved by `inset` to the left of a direction: into the body. */
const shifted = (at: ProfilePoint, dr: number, dh: number, inset: number): Line => ({
  r: at.radius - dh * inset,
  h: at.height + dr * inset,
  dr,
  dh,
});

/** The lines that the centres keep to, half a balloon inside the outline, from one end of the profile to the other. */
function insetLines(profile: readonly ProfilePoint[], inset: number): Line[] {
  const lines: Line[] = [];
  let before: Line | undefined;
  profile.slice(1).forEach((to, index) => {
    const from = profile[index] ?? to;
    const length = Math.hypot(to.radius - from.radius, to.height - from.height);
    const [dr, dh] = [(to.radius - from.radius) / length, (to.height - from.height) / length];
    const turn =
      before === undefined ? 0 : Math.atan2(before.dr * dh - before.dh * dr, before.dr * dr + before.dh * dh);
    // Round a waist the centres swing on an arc about its corner: lines that touch the arc every 30 degrees.
    const extra = turn < 0 ? Math.ceil((-turn * 6) / Math.PI) - 1 : 0;
    for (let step = 1; step <= extra; step += 1) {
      const angle = Math.atan2(before?.dh ?? 0, before?.dr ?? 0) + (turn * step) / (extra + 1);
      lines.push(shifted(from, Math.cos(angle), Math.sin(angle), inset));
    }
    before = shifted(from, dr, dh, inset);
    lines.push(before);
  });
  return lines;
}

/** What ends the centres' line: the axis where the body is closed, else a cut half a balloon inside its rim. */
function ending(rim: ProfilePoint, dr: number, dh: number, inset: number): Line {
  if (rim.radius === 0) return { r: 0, h: rim.height, dr: 0, dh: 1 };
  return { r: rim.radius + dr * inset, h: rim.height + dh * inset, dr: -dh, dh: dr };
}

/**
 * Line of the centres of balloons that fill a profile from inside: the profile moved inwards by half a balloon. Corners that the
 * balloon cannot reach into drop out.
 */
function centreMeridian(profile: readonly ProfilePoint[], balloon: number): readonly ProfilePoint[] {
  const inset = balloon / 2;
  const lines = insetLines(profile, inset);
  const [first, last] = [lines[0], lines.at(-1)];
  const [bottom, top] = [profile[0], profile.at(-1)];
  if (first === undefined || last === undefined || bottom === undefined || top === undefined) return [];
  lines.unshift(ending(bottom, first.dr, first.dh, inset));
  lines.push(ending(top, -last.dr, -last.dh, inset));
  for (;;) {
    const corners = lines.slice(1).map((line, index) => meeting(lines[index] ?? line, line));
    let [worst, worstLength] = [-1, -1e-12];
    corners.slice(1).forEach((to, index) => {
      const [from, line] = [corners[index], lines[index + 1]];
      if (from === undefined || line === undefined) return;
      const length = (to.radius - from.radius) * line.dr + (to.height - from.height) * line.dh;
      if (length < worstLength) [worst, worstLength] = [index + 1, length];
    });
    if (worst < 0) return corners.map(({ height, radius }) => ({ height, radius: Math.max(0, radius) }));
    if (lines.length === 3) {
      throw invalid("balloon", "fit into the body", { written: metres(balloon) });
    }
    lines.splice(worst, 1);
  }
}

/** Balloons side by side on a ring: the chord between neighbours is nearest to the spacing; one where two do not fit. */
function ringCount(radius: number, distance: number): number {
  const sine = distance / (2 * radius);
  return sine > 1 + 1e-9 ? 1 : wholeNearest(Math.PI / Math.asin(Math.min(1, sine)));
}

/** Rings at even steps along the meridian. */
function ringsAt(
  meridian: readonly ProfilePoint[],
  lengths: readonly number[],
  steps: number,
  distance: number,
): readonly RingRow[] {
  const total = lengths.at(-1) ?? 0;
  let corner = 1;
  return Array.from({ length: steps + 1 }, (_, index) => {
    const along = steps === 0 ? total / 2 : (total * index) / steps;
    while (corner < meridian.length - 1 && (lengths[corner] ?? total) < along) corner += 1;
    const to = meridian[corner] ?? { height: 0, radius: 0 };
    const from = meridian[corner - 1] ?? to;
    const [start, end] = [lengths[corner - 1] ?? 0, lengths[corner] ?? 0];
    const share = end > start ? Math.min(1, (along - start) / (end - start)) : 1;
    const radius = from.radius + share * (to.radius - from.radius);
    return {
      row: index + 1,
      height: from.height + share * (to.height - from.height),
      ringDiameter: 2 * radius,
      balloons: ringCount(radius, distance),
    };
  });
}

const balloonsOf = (rings: readonly RingRow[]): number => rings.reduce((sum, ring) => sum + ring.balloons, 0);

/**
 * REVOLVED_PLAN: building plan of a body of revolution (vase, egg, tree, mushroom) covered with one layer of balloons, ring by ring from
 * the base. The profile is the finished outline, so the centres run half a balloon inside it; an end on the axis is closed by a cap, an
 * end off the axis is an open rim. Rings are s d sqrt(3)/2 apart along the meridian, stretched to fit; of the fullest fit and the ones with
 * one or two rings fewer, the one with the most balloons is taken.
 * Source: hexagonal rows on the parallel surface; at corners tighter than a balloon the parallel surface is the one a ball rolls on.
 *
 * @param profile height and radius of the outline from the base up, m, 2 to 500 rows
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns one row for each ring
 * @throws CalcError `#VALUE!` naming the row where heights fall, points repeat or the outline turns back over itself; or where the
 *   body is smaller than a balloon
 */
export function revolvedPlan(
  profile: readonly ProfilePoint[],
  balloon: number,
  spacing = 1,
): readonly RingRow[] {
  const distance = neighbourDistance(balloon, spacing);
  checkProfile(profile);
  const meridian = centreMeridian(profile, balloon);
  const lengths = [0];
  meridian.slice(1).forEach((to, index) => {
    const from = meridian[index] ?? to;
    lengths.push((lengths[index] ?? 0) + Math.hypot(to.radius - from.radius, to.height - from.height));
  });
  const most = wholeNearest((lengths.at(-1) ?? 0) / ((distance * Math.sqrt(3)) / 2));
  if (most >= MOST_RINGS) throw overflow(`a body of more than ${MOST_RINGS} rings is beyond this function`);
  let best: readonly RingRow[] = [];
  for (let steps = most; steps >= Math.max(0, most - 2); steps -= 1) {
    const rings = ringsAt(meridian, lengths, steps, distance);
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
 * @throws CalcError `#VALUE!` as `revolvedPlan`
 */
export function revolvedCount(profile: readonly ProfilePoint[], balloon: number, spacing = 1): number {
  return balloonsOf(revolvedPlan(profile, balloon, spacing));
}
