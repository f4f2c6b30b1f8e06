import { invalid } from "../calc-error";
import { inMetres } from "./checks";

/** A corner of a flat outline. */
export interface Corner {
  /** To the right, m. */
  readonly x: number;
  /** Up, m. */
  readonly y: number;
  /**
   * Which closed line of the outline it belongs to, for letters with holes; corners of one line follow each
   * other.
   */
  readonly loop?: number;
  /** Row in the worksheet range, for sentences; without it corners count from 1. */
  readonly row?: number;
}

/** Most rows of corners. */
const MOST_CORNERS = 500;

/** A straight side of the outline, from one row to another. */
export interface Edge {
  readonly x: number;
  readonly y: number;
  readonly toX: number;
  readonly toY: number;
  /** Row of the corner it starts from, 1 is the first. */
  readonly row: number;
}

function edgesOf(corners: readonly Corner[]): readonly Edge[] {
  const edges: Edge[] = [];
  let first = 0;
  corners.forEach(({ x, y, loop, row }, index) => {
    const next = corners[index + 1];
    const isLast = next === undefined || next.loop !== loop;
    const to = isLast ? corners[first] : next;
    if (to === undefined) return;
    edges.push({ x, y, toX: to.x, toY: to.y, row: row ?? index + 1 });
    if (!isLast) return;
    if (index - first < 2) {
      throw invalid("corners", "have at least 3 rows for each closed line", {
        written: String(index - first + 1),
      });
    }
    first = index + 1;
  });
  return edges;
}

/** Which side of an edge's line a point is on: above 0 on the left. */
const sideOf = (edge: Edge, x: number, y: number): number =>
  (edge.toX - edge.x) * (y - edge.y) - (edge.toY - edge.y) * (x - edge.x);

/** Whether two sides that share a stretch from left to right have a point in common. */
function touches(one: Edge, other: Edge): boolean {
  if (Math.max(one.y, one.toY) < Math.min(other.y, other.toY)) return false;
  if (Math.max(other.y, other.toY) < Math.min(one.y, one.toY)) return false;
  const isApart = sideOf(one, other.x, other.y) * sideOf(one, other.toX, other.toY) > 0;
  return !isApart && sideOf(other, one.x, one.y) * sideOf(other, one.toX, one.toY) <= 0;
}

function checkPair(edge: Edge, other: Edge): void {
  const refuse = (expectation: string): never => {
    const side = { written: `a side to ${inMetres(other.toX)}, ${inMetres(other.toY)}` };
    throw invalid(`corners row ${other.row}`, `${expectation} the side from row ${edge.row}`, side);
  };
  const isNext = edge.toX === other.x && edge.toY === other.y;
  const isPrevious = other.toX === edge.x && other.toY === edge.y;
  if (!isNext && !isPrevious) refuse("not cross or touch");
  const [before, after] = isNext ? [edge, other] : [other, edge];
  const forward =
    (before.toX - before.x) * (after.toX - after.x) + (before.toY - before.y) * (after.toY - after.y);
  if (sideOf(before, after.toX, after.toY) === 0 && forward < 0) refuse("not fold back over");
}

/** Looks only at pairs of sides that share a stretch from left to right. */
function checkCrossings(edges: readonly Edge[]): void {
  const byLeft = [...edges].sort((one, other) => Math.min(one.x, one.toX) - Math.min(other.x, other.toX));
  for (let index = 0; index < byLeft.length; index += 1) {
    const edge = byLeft[index];
    if (edge === undefined) continue;
    const right = Math.max(edge.x, edge.toX);
    for (let next = index + 1; next < byLeft.length; next += 1) {
      const other = byLeft[next];
      if (other === undefined || Math.min(other.x, other.toX) > right) break;
      if (touches(edge, other))
        checkPair(...(edge.row < other.row ? ([edge, other] as const) : ([other, edge] as const)));
    }
  }
}

function checkCorners(corners: readonly Corner[]): void {
  if (corners.length < 3 || corners.length > MOST_CORNERS) {
    throw invalid("corners", `have from 3 to ${MOST_CORNERS} rows`, corners.length);
  }
  const seen = new Map<string, number>();
  corners.forEach(({ x, y, row }, index) => {
    const number = row ?? index + 1;
    const name = `corners row ${number}`;
    if (!(Math.abs(x) <= 1000)) throw invalid(`${name}: x`, "be a length up to 1000 m", x);
    if (!(Math.abs(y) <= 1000)) throw invalid(`${name}: y`, "be a length up to 1000 m", y);
    const key = `${x + 0} ${y + 0}`;
    const earlier = seen.get(key);
    if (earlier !== undefined) {
      const place = { written: `${inMetres(x)}, ${inMetres(y)}` };
      throw invalid(name, `differ from row ${earlier}`, place, "an outline closes by itself");
    }
    seen.set(key, number);
  });
}

/**
 * The sides of a flat outline, checked: closed lines of at least 3 corners, no corner twice, no sides that cross, touch or fold
 * back over each other.
 *
 * @param corners of one or more closed lines
 * @returns its sides, in the order of the corners
 * @throws CalcError `#VALUE!` naming the row
 */
export function polygonEdges(corners: readonly Corner[]): readonly Edge[] {
  checkCorners(corners);
  const edges = edgesOf(corners);
  checkCrossings(edges);
  return edges;
}

/** Height of the lower end of a side, m. */
export const lowest = ({ y, toY }: Edge): number => Math.min(y, toY);
/** Height of the upper end of a side, m. */
export const highest = ({ y, toY }: Edge): number => Math.max(y, toY);

/**
 * The sides of an outline turned back by an angle.
 *
 * @param edges its sides
 * @param angle radians
 * @returns the sides, the lowest first
 */
export function turned(edges: readonly Edge[], angle: number): readonly Edge[] {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return edges
    .map(({ x, y, toX, toY, row }) => ({
      x: x * cos + y * sin,
      y: y * cos - x * sin,
      toX: toX * cos + toY * sin,
      toY: toY * cos - toX * sin,
      row,
    }))
    .sort((one, other) => lowest(one) - lowest(other));
}
