import { CalcError } from "../calc-error";
import { ballAcross } from "../geometry/ball";
import { dressedPlacements } from "../geometry/ball-drawing";
import type { Placement } from "../geometry/drawing";
import {
  bouquetPlacements,
  ringPlacements,
  ringSize,
  type GroupedPlacement,
} from "../geometry/loose-drawing";
import { entryAt } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import { PER_CLUSTER, SLEEVE_BOX_METRES } from "../practice";
import { isWithheld } from "../withheld";
import type { PartKind } from "./job";
import { mixedColours, patternColours } from "./mixed-colours";
import { ribbonCount } from "./part-ribbon";
import {
  bodyPlaces,
  ceilingPlaces,
  columnPlaces,
  countPlaces,
  linePlaces,
  wallPlaces,
  type PlacedRow,
} from "./part-places";
import type { JobPlan } from "./job-plan";
import { plannedPieces, type PlannedPart, type PlannedPiece } from "./plan-parts";

/** A balloon of a piece, m; its colour as the tables name it, empty where it is not known. */
export interface DrawnBall extends Placement {
  readonly colour: string;
  readonly isFoil: boolean;
}

/** A point, m. */
export type Point = readonly [x: number, y: number, z: number];

/** What is long and thin: a pole in its sleeve, a ribbon, the weight of a bouquet. */
export interface DrawnLine {
  readonly what: "pole" | "ribbon" | "weight";
  readonly from: Point;
  readonly to: Point;
  /** m */
  readonly width: number;
  /** As the tables name it; empty where they do not. */
  readonly colour: string;
}

/** One piece to scale: x to the right of its middle, y up from the floor, z towards the viewer. */
export interface PieceDrawing {
  readonly event: string;
  readonly option: string;
  readonly name: string;
  /** Pieces; undefined where it cannot be known. */
  readonly quantity: number | undefined;
  readonly balls: readonly DrawnBall[];
  readonly lines: readonly DrawnLine[];
  /** True where it is seen from above: a ceiling has nothing to see from the front. */
  readonly isFromAbove: boolean;
  /** What the drawing does not show, or shows in a way of its own. */
  readonly notes: readonly string[];
}

/** Width of an inflated round foil in parts of its flat size. Source: Amer. Math. Monthly 101 (1994) 953, 1 / 1.31103. */
const FOIL_ACROSS = 0.7628;
/** Room between what stands side by side, m. Source: ours, by eye. */
const GAP = 0.25;
/** Ribbon of a bouquet that has none typed, m. Source: ours, said beside the drawing. */
const UNTYPED_RIBBON = 0.5;
const RIBBON_WIDTH = 0.008;
const WEIGHT: readonly [across: number, height: number] = [0.09, 0.07];

const SIDE_BY_SIDE = ["column", "ball", "arch", "garland", "strand", "net", "wall", "ceiling"] as const;

interface Row extends PlacedRow {
  readonly planned: PlannedPart;
}

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
 * Every piece of a job drawn to scale. Where an event names options and none is chosen, each option's pieces are drawn, those
 * that options share once.
 *
 * @param plan of the job
 * @returns pieces by event, in the order of the table; those that are not built are left out
 */
export function jobDrawing(plan: JobPlan): readonly PieceDrawing[] {
  const known = byPlan.get(plan) ?? freshDrawing(plan);
  byPlan.set(plan, known);
  return known;
}

const byPlan = new WeakMap<JobPlan, readonly PieceDrawing[]>();

function freshDrawing({ job, scope, scenarios, work }: JobPlan): readonly PieceDrawing[] {
  const drawn = new Map<string, PlannedPiece>();
  for (const { event, inForce } of scenarios)
    for (const planned of plannedPieces(job, scope, inForce, work)) {
      const { piece } = planned;
      if (piece.event !== event || piece.quantity === 0) continue;
      const places = piece.parts.map(({ place }) => place);
      const key = JSON.stringify([event, piece.name, places]);
      if (!drawn.has(key)) drawn.set(key, planned);
    }
  return [...drawn.values()].map(pieceDrawing);
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
  const of = (...kinds: readonly (PartKind | undefined)[]): readonly Row[] =>
    rows.filter(({ planned }) => kinds.includes(planned.part.kind));
  const safely = (where: readonly Row[], draw: () => void): void => {
    const [first] = where;
    if (first === undefined) return;
    try {
      draw();
    } catch (error) {
      if (!(error instanceof CalcError)) throw error;
      sketch.notes.push(`${first.planned.part.place} is not drawn: ${error.message}`);
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
  return {
    event,
    option,
    name,
    quantity: isWithheld(quantity) ? undefined : quantity,
    isFromAbove,
    ...sketch,
  };
}

/** Rows that have a number and a size; others are named. */
function rowsOf(parts: readonly PlannedPart[], notes: string[]): readonly Row[] {
  return parts.flatMap((planned): readonly Row[] => {
    const { each, inflated, quantity, cells, place, kind, type } = planned.part;
    if (quantity === 0 || kind === "sleeve") return [];
    if (isWithheld(each) || inflated === undefined || isWithheld(inflated)) {
      const why = isWithheld(each)
        ? each.sentence
        : isWithheld(inflated)
          ? inflated.sentence
          : "it has no size";
      notes.push(`${place} is not drawn: ${why}`);
      return [];
    }
    if (type === "long") {
      notes.push(`${place} is not drawn: long balloons have no shape of their own`);
      return [];
    }
    const size = type === "foil" ? FOIL_ACROSS * inflated : inflated;
    return each > 0 && size > 0 ? [{ planned, cells, size, balloons: each }] : [];
  });
}

function sharedCell(rows: readonly Row[], name: "width" | "height" | "length"): number | undefined {
  return rows.map(({ cells }) => cells[name]).find((value) => value !== undefined && value > 0);
}

const isInWall = ({ planned: { part } }: Row): boolean => part.kind === "count" && part.style === "wall";

const topOf = (balls: readonly Placement[]): number =>
  balls.reduce((most, { y, radius }) => Math.max(most, y + radius), 0);

const ends = (balls: readonly Placement[]): readonly [left: number, right: number] =>
  balls.reduce(
    ([left, right], { x, radius }) => [Math.min(left, x - radius), Math.max(right, x + radius)],
    [Infinity, -Infinity],
  );

function shifted<Place extends Placement>(
  places: readonly Place[],
  by: Partial<Placement>,
): readonly Place[] {
  const { x = 0, y = 0, z = 0 } = by;
  return places.map((place) => ({ ...place, x: place.x + x, y: place.y + y, z: place.z + z }));
}

function centred<Place extends Placement>(places: readonly Place[]): readonly Place[] {
  if (places.length === 0) return places;
  const [left, right] = ends(places);
  return shifted(places, { x: -(left + right) / 2 });
}

/** To the right of what is there already. */
function beside<Place extends Placement>(
  places: readonly Place[],
  others: readonly Placement[],
  pole: number,
): readonly Place[] {
  if (places.length === 0 || (others.length === 0 && pole === 0)) return centred(places);
  const right = others.length === 0 ? 0 : ends(others)[1];
  return shifted(places, { x: right + GAP - ends(places)[0] });
}

/** Balloons of rows in their colours; where there are several rows a place says which one it is of. */
function painted(
  places: readonly (Placement | GroupedPlacement)[],
  rows: readonly Row[],
): readonly DrawnBall[] {
  const byRow = rows.map((): Placement[] => []);
  for (const place of places) byRow["group" in place ? place.group : 0]?.push(place);
  return byRow.flatMap((own, index) => {
    const row = entryAt(rows, index);
    const { part, colours } = row.planned;
    const seen = colours.colours.filter((colour) => colour.places > 0);
    const counts = seen.map((colour) => colour.places);
    const perCluster = part.cells["per cluster"] ?? PER_CLUSTER.value;
    const pattern = part.clusters === 0 ? undefined : patternColours(own.length / perCluster, counts);
    const labels = seen.length === 0 ? [] : (pattern ?? mixedColours(own, counts));
    return own.map(({ x, y, z, radius, row: inRow }, at): DrawnBall => {
      const colour = labels.length === 0 ? "" : entryAt(seen, entryAt(labels, at)).colour;
      return { x, y, z, radius, row: inRow, colour, isFoil: part.type === "foil" };
    });
  });
}

/** Draws the pole in its sleeve; gives its height, 0 without one. */
function poleHeight(parts: readonly PlannedPart[], { lines }: Sketch): number {
  const sleeves = parts.filter(({ part }) => part.kind === "sleeve" && part.quantity !== 0);
  const heights = sleeves.map(({ part }) => part.metres ?? 0);
  const height = Math.max(0, ...heights);
  if (height === 0) return 0;
  const colour = sleeves.flatMap(({ colours }) => colours.colours.map((of) => of.colour))[0] ?? "";
  const width = SLEEVE_BOX_METRES.value;
  lines.push({ what: "pole", from: [0, 0, 0], to: [0, height, 0], width, colour });
  return height;
}

function drawSideBySide(
  kind: (typeof SIDE_BY_SIDE)[number],
  rows: readonly Row[],
  inWall: readonly Row[],
  support: Support,
  { balls, notes }: Sketch,
): void {
  let right: number | undefined;
  for (const [index, row] of rows.entries()) {
    const inside = kind === "wall" && index === 0 ? inWall : [];
    for (const { planned } of inside)
      notes.push(`${planned.part.place}: drawn in the middle of the wall, its place is not in the tables`);
    const places = centred(placesOf(kind, row, inside, support));
    const moved = right === undefined ? places : shifted(places, { x: right + GAP - ends(places)[0] });
    balls.push(...painted(moved, [row, ...inside]));
    right = ends(moved)[1];
  }
}

function placesOf(
  kind: (typeof SIDE_BY_SIDE)[number],
  row: Row,
  inWall: readonly Row[],
  support: Support,
): readonly Placement[] {
  if (kind === "column") return columnPlaces(row);
  if (kind === "ceiling") return ceilingPlaces(row);
  if (kind === "wall") return wallPlaces(row, inWall);
  if (kind !== "ball") return linePlaces(kind, row);
  const { cells, size, balloons } = row;
  const across = cells.width ?? ballAcross(balloons, size, cells.spacing);
  const centre = centreOf(across, support);
  return shifted(dressedPlacements(balloons, across, size, cells.covered), { y: centre });
}

/** A pole runs into the middle of its ball; on a column or the floor a ball rests. */
function centreOf(across: number, { pole, column }: Support, floor = 0): number {
  if (pole > column) return pole;
  return (column > 0 ? column : floor) + across / 2;
}

/** A tied ball, its cover, and the ribbons that hang from it to one point. */
function drawBall(
  cores: readonly Row[],
  covers: readonly Row[],
  support: Support,
  { balls, lines }: Sketch,
): void {
  const ballSize = Math.max(0, ...cores.map((row) => row.planned.part.box?.[0] ?? 0));
  const finished = covers.map(
    ({ planned, balloons, size }) => planned.part.finished ?? ballAcross(balloons, size, 1),
  );
  const across = Math.max(ballSize, ...finished);
  const ribbon = Math.max(0, ...covers.map(({ cells }) => cells.ribbon ?? 0));
  const centre = centreOf(across, support, ribbon);
  for (const row of cores)
    balls.push(
      ...painted(shifted(dressedPlacements(row.balloons, ballSize, row.size), { y: centre }), [row]),
    );
  if (covers.length === 0) return;
  const cover = shifted(coverPlaces(covers, across), { y: centre });
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
function coverPlaces(covers: readonly Row[], across: number): readonly GroupedPlacement[] {
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
function drawBouquet(rows: readonly Row[], isCarried: boolean, { balls, lines, notes }: Sketch): void {
  const top = isCarried ? Math.max(topOf(balls), ...lines.map(({ to }) => to[1])) : 0;
  const groups = rows.map(({ cells, size, balloons, planned }) => {
    if (cells.ribbon === undefined && !isCarried)
      notes.push(`${planned.part.place}: no ribbon typed, drawn with ${UNTYPED_RIBBON} m`);
    return { size, balloons, ribbon: cells.ribbon ?? (isCarried ? 0 : UNTYPED_RIBBON) };
  });
  const floating = bouquetPlacements(groups);
  const [left] = floating.length === 0 ? [0] : ends(floating);
  const x = isCarried || balls.length === 0 ? 0 : ends(balls)[1] + GAP - left;
  const base: Point = [x, isCarried ? top : WEIGHT[1], 0];
  for (const { x: side, y, z, group } of floating) {
    const { ribbon, size } = entryAt(groups, group);
    const share = ribbon / (ribbon + size / 2);
    const to: Point = [x + side * share, base[1] + y * share, z * share];
    if (ribbon > 0) lines.push({ what: "ribbon", from: to, to: base, width: RIBBON_WIDTH, colour: "" });
  }
  if (!isCarried) lines.push({ what: "weight", from: [x, 0, 0], to: base, width: WEIGHT[0], colour: "" });
  balls.push(...painted(shifted(floating, { x, y: base[1] }), rows));
}
