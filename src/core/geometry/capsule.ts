/** Stretch of a line, from less to more along it. */
export type LineStretch = readonly [from: number, to: number];

/**
 * Part of a line that is nearer than a radius to a straight side. Both ends of the side are given in the
 * line's own coordinates: how far along the line, and how far off it.
 * Source: a line cuts the convex hull of two discs in one stretch, from its cuts with the discs and with the
 * band between them.
 *
 * @param along one end of the side, along the line
 * @param off the same end, off the line
 * @param otherAlong the other end, along the line
 * @param otherOff the other end, off the line
 * @param radius distance, above 0
 * @returns the stretch of the line, undefined where the line keeps its distance
 */
export function nearSpan(
  along: number,
  off: number,
  otherAlong: number,
  otherOff: number,
  radius: number,
): LineStretch | undefined {
  if ((off >= radius && otherOff >= radius) || (off <= -radius && otherOff <= -radius)) return undefined;
  let from = Infinity;
  let to = -Infinity;
  const half = Math.sqrt(Math.max(0, radius * radius - off * off));
  if (half > 0) [from, to] = [along - half, along + half];
  const otherHalf = Math.sqrt(Math.max(0, radius * radius - otherOff * otherOff));
  if (otherHalf > 0) {
    from = Math.min(from, otherAlong - otherHalf);
    to = Math.max(to, otherAlong + otherHalf);
  }
  const length = Math.sqrt((otherAlong - along) ** 2 + (otherOff - off) ** 2);
  const [x, y] = [(otherAlong - along) / length, (otherOff - off) / length];
  // Foot on the side within its length, and distance from it within the radius: two stretches of the line,
  // both needed.
  let [low, high] = [-Infinity, Infinity];
  if (x !== 0) {
    const [one, other] = [along + (off * y) / x, along + (length + off * y) / x];
    [low, high] = [Math.min(one, other), Math.max(one, other)];
  } else if (off * y > 0 || -off * y > length) [low, high] = [Infinity, -Infinity];
  if (y !== 0) {
    const [one, other] = [along - (off * x - radius) / y, along - (off * x + radius) / y];
    low = Math.max(low, Math.min(one, other));
    high = Math.min(high, Math.max(one, other));
  }
  if (low < high) {
    from = Math.min(from, low);
    to = Math.max(to, high);
  }
  return from < to ? [from, to] : undefined;
}

/**
 * What is left of a stretch of a line where others are taken out of it.
 *
 * @param from beginning of the stretch
 * @param to end of the stretch
 * @param taken stretches to take out, in any order; sorted in place
 * @returns what is left, in order
 */
export function remainingSpans(from: number, to: number, taken: LineStretch[]): LineStretch[] {
  taken.sort((one, other) => one[0] - other[0]);
  const left: LineStretch[] = [];
  let at = from;
  for (const [start, end] of taken) {
    if (start >= to) break;
    if (start > at) left.push([at, start]);
    if (end > at) at = end;
  }
  if (at < to) left.push([at, to]);
  return left;
}
