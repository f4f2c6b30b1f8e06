import { overflow } from "../calc-error";
import { entryAt } from "../numeric/entry-at";
import { wholeDown, wholeUp } from "../numeric/whole";
import { nearSpan, remainingSpans, type LineStretch } from "./capsule";
import { neighbourDistance } from "./checks";
import { highest, lowest, polygonEdges, turned, type Corner, type Edge } from "./polygon";

/** A place for a balloon's centre. */
export interface LatticePlace {
  readonly x: number;
  readonly y: number;
  /** 1 in the lowest row of the lattice. */
  readonly row: number;
}

/** Most balloons in an outline: more is past a drawing. */
const MOST_BALLOONS = 100_000;

/** Most balloons side by side along its sides: more are past what a cell should wait for. */
const MOST_ALONG = 10_000;

// The lattice is laid at these angles and shifted by these shares of a step. A hexagonal one repeats after 60
// degrees, so 30 and 90 are the same rows, but only at 90 they begin at an upright side and fill a strip that
// is just wide enough.
const ANGLES = [0, 90, 30, 15].map((degrees) => (degrees * Math.PI) / 180);
const ROW_SHIFTS = [0, 1 / 3, 2 / 3];
const SHIFTS = [0, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875];

/** A lattice laid over an outline that is turned by an angle. */
interface Lattice {
  readonly angle: number;
  /** Share of a step between rows that the lowest is raised by. */
  readonly rowShift: number;
  /** Share of a step along the rows that they are moved by. */
  readonly shift: number;
  readonly count: number;
}

/** Stretches of a level line whose points are inside the outline and keep the distance from it. */
function insideSpans(edges: readonly Edge[], y: number, inset: number): readonly LineStretch[] {
  const taken: LineStretch[] = [];
  const crossings: number[] = [];
  let [least, most] = [Infinity, -Infinity];
  for (const edge of edges) {
    const [off, otherOff] = [edge.y - y, edge.toY - y];
    const span = nearSpan(edge.x, off, edge.toX, otherOff, inset);
    if (span !== undefined) taken.push(span);
    if (off > 0 === otherOff > 0) continue;
    const x = edge.x + ((edge.toX - edge.x) * off) / (off - otherOff);
    crossings.push(x);
    least = Math.min(least, x);
    most = Math.max(most, x);
  }
  // Every crossing lies within a stretch that is too near, so what remains between them is inside or outside
  // as a whole.
  return remainingSpans(least, most, taken).filter(([from]) => {
    return crossings.filter((x) => x <= from).length % 2 === 1;
  });
}

/**
 * Goes up the rows of a lattice. A side is only looked at in the few rows it passes, and a row is forgotten when it has been
 * visited: an outline of many rows would fill the memory.
 *
 * @param sides the lowest first
 * @param visit gets the number of a row from 0, its height, where its points start before they are shifted, and its stretches
 */
function visitRows(
  sides: readonly Edge[],
  rowShift: number,
  distance: number,
  inset: number,
  visit: (row: number, y: number, start: number, spans: readonly LineStretch[]) => void,
): void {
  const pitch = (distance * Math.sqrt(3)) / 2;
  const left = Math.min(...sides.map(({ x }) => x));
  const first = Math.min(...sides.map(lowest)) + inset + rowShift * pitch;
  const rows = wholeDown((Math.max(...sides.map(highest)) - inset - first) / pitch) + 1;
  let near: Edge[] = [];
  let begun = 0;
  for (let row = 0; row < rows; row += 1) {
    const y = first + row * pitch;
    if (near.some((edge) => highest(edge) + inset < y)) {
      near = near.filter((edge) => highest(edge) + inset >= y);
    }
    for (let edge = sides[begun]; edge && lowest(edge) - inset <= y; edge = sides[begun]) {
      near.push(edge);
      begun += 1;
    }
    // The least room for dust lets a balloon touch the outline.
    const spans = insideSpans(near, y, inset * (1 - 1e-9));
    visit(row, y, left + inset + (row % 2 === 0 ? 0 : distance / 2), spans);
  }
}

function bestLattice(edges: readonly Edge[], distance: number, inset: number): Lattice {
  let best: Lattice = { angle: 0, rowShift: 0, shift: 0, count: 0 };
  for (const angle of ANGLES) {
    const sides = turned(edges, angle);
    for (const rowShift of ROW_SHIFTS) {
      const counts = SHIFTS.map(() => 0);
      visitRows(sides, rowShift, distance, inset, (_row, _y, start, spans) => {
        for (const [from, to] of spans) {
          const [low, high] = [(from - start) / distance, (to - start) / distance];
          for (let i = 0; i < SHIFTS.length; i += 1) {
            const shift = entryAt(SHIFTS, i);
            counts[i] = entryAt(counts, i) + Math.max(0, wholeDown(high - shift) - wholeUp(low - shift) + 1);
          }
        }
      });
      for (const [i, count] of counts.entries()) {
        if (count > best.count) best = { angle, rowShift, shift: entryAt(SHIFTS, i), count };
      }
    }
  }
  return best;
}

function checkedLattice(
  corners: readonly Corner[],
  balloon: number,
  spacing: number,
): Lattice & { readonly edges: readonly Edge[]; readonly distance: number } {
  const distance = neighbourDistance(balloon, spacing);
  const edges = polygonEdges(corners);
  const xs = corners.map(({ x }) => x);
  const ys = corners.map(({ y }) => y);
  const box = (Math.max(...xs) - Math.min(...xs)) * (Math.max(...ys) - Math.min(...ys));
  if (box > MOST_BALLOONS * distance * distance) {
    throw overflow(`an outline of more than ${MOST_BALLOONS} balloons is beyond this function`);
  }
  const length = edges.reduce((sum, { x, y, toX, toY }) => sum + Math.hypot(toX - x, toY - y), 0);
  if (length > MOST_ALONG * distance) {
    throw overflow(
      `an outline with more than ${MOST_ALONG} balloons along its sides is beyond this function`,
    );
  }
  return { ...bestLattice(edges, distance, balloon / 2), edges, distance };
}

/**
 * Places of the balloons that fill a flat outline, row by row of the lattice.
 *
 * @param corners corners of the outline in order, m
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns centres, each at least half a balloon inside the outline
 * @throws CalcError `#VALUE!` as `outlineCount`
 */
export function outlinePlaces(
  corners: readonly Corner[],
  balloon: number,
  spacing = 1,
): readonly LatticePlace[] {
  const { angle, rowShift, shift, edges, distance } = checkedLattice(corners, balloon, spacing);
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const places: LatticePlace[] = [];
  visitRows(turned(edges, angle), rowShift, distance, balloon / 2, (row, y, start, spans) => {
    for (const [from, to] of spans) {
      const last = wholeDown((to - start) / distance - shift);
      for (let step = wholeUp((from - start) / distance - shift); step <= last; step += 1) {
        const x = start + (shift + step) * distance;
        places.push({ x: x * cos - y * sin, y: x * sin + y * cos, row: row + 1 });
      }
    }
  });
  return places;
}

/**
 * COUNT_OUTLINE: balloons that fill a flat outline (letters, numbers, logos). A second closed line inside the
 * first is a hole.
 * Source: hexagonal lattice, the best of a fixed set of 4 angles, 3 row shifts and 8 shifts along the rows;
 * every centre at least half a balloon inside the outline.
 *
 * @param corners corners of the outline in order, m, 3 to 500 rows; the last is joined to the first
 * @param balloon inflated diameter, m
 * @param spacing centre-to-centre distance of neighbours as a ratio to the balloon
 * @returns balloons, whole; 0 where not even one fits
 * @throws CalcError `#VALUE!` naming the row where corners repeat or sides cross; `#NUM!` for an outline of
 *   more than 100000 balloons, or of more than 10000 along its sides
 */
export function outlineCount(corners: readonly Corner[], balloon: number, spacing = 1): number {
  return checkedLattice(corners, balloon, spacing).count;
}
