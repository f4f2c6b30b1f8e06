import { CalcError } from "../calc-error";
import { ballAcross } from "../geometry/ball";
import { dressedPlacements } from "../geometry/ball-drawing";
import { centred, moved, sidesOf, topOf, type Placement } from "../geometry/drawing";
import {
  bouquetPlacements,
  ringPlacements,
  ringSize,
  type GroupedPlacement,
} from "../geometry/loose-drawing";
import { entryAt } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import { orNone } from "../numeric/tally";
import { SLEEVE_BOX_METRES } from "../practice";
import { isWithheld } from "../withheld";
import type { PartKind } from "./cells";
import type { DrawnLine, PieceDrawing, Point } from "./drawn-piece";
import { mixedColours } from "./mixed-colours";
import { painted, type DrawnBall, type PaintedRow } from "./painted";
import { ribbonCount } from "./part-ribbon";
import { bodyPlaces, ceilingPlaces, columnPlaces, countPlaces, linePlaces, wallPlaces } from "./part-places";
import { standingBox } from "./standing";
import type { PlannedPart, PlannedPiece } from "./plan-parts";

/** Width of an inflated round foil in parts of its flat size. Source: Amer. Math. Monthly 101 (1994) 953, 1 / 1.31103. */
const FOIL_ACROSS = 0.7628;
/** Room between what stands side by side, m. Source: ours, by eye. */
const GAP = 0.25;
/** Ribbon of a bouquet that has none typed, m. Source: ours, said beside the drawing. */
const UNTYPED_RIBBON = 0.5;
const RIBBON_WIDTH = 0.008;
const WEIGHT: readonly [across: number, height: number] = [0.09, 0.07];

const SIDE_BY_SIDE = ["column", "ball", "arch", "garland", "strand", "net", "wall", "ceiling"] as const;

/** What a ball can stand on: height of a pole and top of a column, m, 0 where there is none. */
interface Support {
  readonly pole: number;
  readonly column: number;
}

interface Sketch {
  readonly balls: DrawnBall[];
  readonly lines: DrawnLine[];
  readonly notes: string[];
}

/**
 * A piece drawn from all of its parts: a ball stands on its pole with its centre at the pole's end, a cover lies on it, a
 * collar on the floor, bouquets float above their weight or above what the piece carries.
 *
 * @param planned the piece, counted and coloured
 * @returns its balloons, in the colours of its palettes, each as often as counted; parts whose number cannot be known are
 *   left out and named
 */
export function pieceDrawing({ piece, parts }: PlannedPiece): PieceDrawing {
  const sketch: Sketch = { balls: [], lines: [], notes: [] };
  const rows = rowsOf(parts, sketch.notes);
  const of = (...kinds: readonly (PartKind | undefined)[]): readonly PaintedRow[] =>
    rows.filter(({ planned }) => kinds.includes(planned.part.kind));
  const safely = (where: readonly PaintedRow[], draw: () => void): void => {
    const [first] = where;
    if (first === undefined) return;
    try {
      draw();
    } catch (error) {
      if (!(error instanceof CalcError)) throw error;
      sketch.notes.push(notDrawn(first.planned.part.place, error.message));
    }
  };
  const pole = poleHeight(parts, sketch);
  const columns = of("column");
  const support = (): Support => ({ pole, column: columns.length > 0 ? topOf(sketch.balls) : 0 });
  for (const kind of SIDE_BY_SIDE)
    safely(of(kind), () => {
      drawSideBySide(kind, of(kind), of("count").filter(isInWall), support(), sketch);
    });
  const mixes = of("mix");
  safely(mixes, () => {
    const [length, width] = [sharedCell(mixes, "length"), sharedCell(mixes, "width")];
    sketch.balls.push(...painted(centred(bodyPlaces(length, width, mixes)), mixes));
  });
  safely(of("tied ball", "cover"), () => {
    drawBall(of("tied ball"), of("cover"), support(), sketch);
  });
  const collars = of("collar");
  safely(collars, () => {
    const [across, thickness] = [sharedCell(collars, "width"), sharedCell(collars, "height")];
    const isSized = across !== undefined && thickness !== undefined && across > 0 && thickness > 0;
    const ring = isSized ? { across, thickness } : ringSize(collars);
    sketch.balls.push(...painted(ringPlacements(collars, ring), collars));
  });
  const hasWall = of("wall").length > 0;
  const counts = of("count", undefined).filter((row) => !hasWall || !isInWall(row));
  safely(counts, () => {
    sketch.balls.push(...painted(beside(countPlaces(counts), sketch.balls, pole), counts));
  });
  const bouquets = of("bouquet", "foil");
  safely(bouquets, () => {
    const carries = pole > 0 || of("column", "ball", "tied ball", "cover").length > 0;
    drawBouquet(bouquets, carries, sketch);
  });
  const { event, option, name, quantity } = piece;
  const isFromAbove = of("ceiling").length > 0;
  // The box of a piece knows nothing of what floats above it.
  const [width, , height] = (bouquets.length === 0 && standingBox(piece)) || [];
  const size = width === undefined || height === undefined ? undefined : ([width, height] as const);
  return {
    event,
    option,
    name,
    quantity: isWithheld(quantity) ? undefined : quantity,
    isFromAbove,
    size,
    ...sketch,
  };
}

const notDrawn = (place: string, why: string): string =>
  `not drawn: ${why.startsWith(`${place}:`) ? why : `${place}: ${why}`}`;

/** Rows that have a number and a size; others are named. */
function rowsOf(parts: readonly PlannedPart[], notes: string[]): readonly PaintedRow[] {
  return parts.flatMap((planned): readonly PaintedRow[] => {
    const { each, inflated, quantity, cells, place, kind, type } = planned.part;
    if (quantity === 0 || kind === "sleeve") return [];
    if (isWithheld(each) || inflated === undefined || isWithheld(inflated)) {
      const why = isWithheld(each)
        ? each.sentence
        : isWithheld(inflated)
          ? inflated.sentence
          : "it has no size";
      notes.push(notDrawn(place, why));
      return [];
    }
    if (type === "long") {
      notes.push(notDrawn(place, "long balloons have no shape of their own"));
      return [];
    }
    const size = type === "foil" ? FOIL_ACROSS * inflated : inflated;
    return each > 0 && size > 0 ? [{ planned, cells, size, balloons: each }] : [];
  });
}

function sharedCell(rows: readonly PaintedRow[], name: "width" | "height" | "length"): number | undefined {
  return rows.map(({ cells }) => cells[name]).find((value) => value !== undefined && value > 0);
}

const isInWall = ({ planned: { part } }: PaintedRow): boolean =>
  part.kind === "count" && part.style === "wall";

/** To the right of what is there already. */
function beside<Place extends Placement>(
  places: readonly Place[],
  others: readonly Placement[],
  pole: number,
): readonly Place[] {
  if (places.length === 0 || (others.length === 0 && pole === 0)) return centred(places);
  const right = others.length === 0 ? 0 : sidesOf(others)[1];
  return moved(places, { x: right + GAP - sidesOf(places)[0] });
}

/** Draws the pole in its sleeve; gives its height, 0 without one. */
function poleHeight(parts: readonly PlannedPart[], { lines }: Sketch): number {
  const sleeves = parts.filter(({ part }) => part.kind === "sleeve" && part.quantity !== 0);
  const heights = sleeves.map(({ part }) => orNone(part.metres));
  const height = Math.max(0, ...heights);
  if (height === 0) return 0;
  const colour = sleeves.flatMap(({ colours }) => colours.colours.map((of) => of.colour))[0] ?? "";
  const width = SLEEVE_BOX_METRES.value;
  lines.push({ what: "pole", from: [0, 0, 0], to: [0, height, 0], width, colour });
  return height;
}

function drawSideBySide(
  kind: (typeof SIDE_BY_SIDE)[number],
  rows: readonly PaintedRow[],
  inWall: readonly PaintedRow[],
  support: Support,
  { balls, notes }: Sketch,
): void {
  let right: number | undefined;
  for (const [index, row] of rows.entries()) {
    const inside = kind === "wall" && index === 0 ? inWall : [];
    for (const { planned } of inside)
      notes.push(`${planned.part.place}: drawn in the middle of the wall, its place is not in the tables`);
    const places = centred(placesOf(kind, row, inside, support));
    const standing = right === undefined ? places : moved(places, { x: right + GAP - sidesOf(places)[0] });
    balls.push(...painted(standing, [row, ...inside]));
    right = sidesOf(standing)[1];
  }
}

function placesOf(
  kind: (typeof SIDE_BY_SIDE)[number],
  row: PaintedRow,
  inWall: readonly PaintedRow[],
  support: Support,
): readonly Placement[] {
  if (kind === "column") return columnPlaces(row);
  if (kind === "ceiling") return ceilingPlaces(row);
  if (kind === "wall") return wallPlaces(row, inWall);
  if (kind !== "ball") return linePlaces(kind, row);
  const { cells, size, balloons } = row;
  const across = cells.width ?? ballAcross(balloons, size, cells.spacing);
  const centre = centreOf(across, support);
  return moved(dressedPlacements(balloons, across, size, cells.covered), { y: centre });
}

/** A pole runs into the middle of its ball; on a column or the floor a ball rests. */
function centreOf(across: number, { pole, column }: Support, floor = 0): number {
  if (pole > column) return pole;
  return (column > 0 ? column : floor) + across / 2;
}

/** A tied ball, its cover, and the ribbons that hang from it to one point. */
function drawBall(
  cores: readonly PaintedRow[],
  covers: readonly PaintedRow[],
  support: Support,
  { balls, lines }: Sketch,
): void {
  const ballSize = Math.max(0, ...cores.map((row) => orNone(row.planned.part.box?.[0])));
  const finished = covers.map(
    ({ planned, balloons, size }) => planned.part.finished ?? ballAcross(balloons, size, 1),
  );
  const across = Math.max(ballSize, ...finished);
  const ribbon = Math.max(0, ...covers.map(({ cells }) => orNone(cells.ribbon)));
  const centre = centreOf(across, support, ribbon);
  for (const row of cores)
    balls.push(...painted(moved(dressedPlacements(row.balloons, ballSize, row.size), { y: centre }), [row]));
  if (covers.length === 0) return;
  const cover = moved(coverPlaces(covers, across), { y: centre });
  balls.push(...painted(cover, covers));
  for (const [index, { planned, cells }] of covers.entries()) {
    if (cells.ribbon === undefined || cells.ribbon === 0) continue;
    const gather: Point = [0, Math.max(0, centre - across / 2 - cells.ribbon), 0];
    // From the bottom up: those that carry a ribbon come first.
    const own = cover.filter(({ group }) => group === index);
    for (const { x, y, z } of own.slice(0, ribbonCount(planned.part)))
      lines.push({ what: "ribbon", from: [x, y, z], to: gather, width: RIBBON_WIDTH, colour: "" });
  }
}

/** The loose balloons of all covers of a ball, mixed over it. */
function coverPlaces(covers: readonly PaintedRow[], across: number): readonly GroupedPlacement[] {
  const counts = covers.map(({ balloons }) => balloons);
  const largest = Math.max(...covers.map(({ size }) => size));
  const covered = covers[0]?.cells.covered;
  const places = dressedPlacements(sum(counts), across, largest, covered);
  return mixedColours(places, counts).map((group, index) => ({
    ...entryAt(places, index),
    radius: entryAt(covers, group).size / 2,
    group,
  }));
}

/** Balloons on ribbons above their weight, or above the top of what the piece carries. */
function drawBouquet(rows: readonly PaintedRow[], isCarried: boolean, { balls, lines, notes }: Sketch): void {
  const top = isCarried ? Math.max(topOf(balls), ...lines.map(({ to }) => to[1])) : 0;
  const groups = rows.map(({ cells, size, balloons, planned }) => {
    if (cells.ribbon === undefined && !isCarried)
      notes.push(`${planned.part.place}: no ribbon typed, drawn with ${UNTYPED_RIBBON} m`);
    return { size, balloons, ribbon: cells.ribbon ?? (isCarried ? 0 : UNTYPED_RIBBON) };
  });
  const floating = bouquetPlacements(groups);
  const [left] = floating.length === 0 ? [0] : sidesOf(floating);
  const x = isCarried || balls.length === 0 ? 0 : sidesOf(balls)[1] + GAP - left;
  const base: Point = [x, isCarried ? top : WEIGHT[1], 0];
  for (const { x: side, y, z, group } of floating) {
    const { ribbon, size } = entryAt(groups, group);
    const share = ribbon / (ribbon + size / 2);
    const to: Point = [x + side * share, base[1] + y * share, z * share];
    if (ribbon > 0) lines.push({ what: "ribbon", from: to, to: base, width: RIBBON_WIDTH, colour: "" });
  }
  if (!isCarried) lines.push({ what: "weight", from: [x, 0, 0], to: base, width: WEIGHT[0], colour: "" });
  balls.push(...painted(moved(floating, { x, y: base[1] }), rows));
}
