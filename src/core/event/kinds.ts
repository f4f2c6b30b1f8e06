import { CalcError, invalid } from "../calc-error";
import { archLength } from "../geometry/arch";
import { ballAcross, coverAcross, coverCount, sphereCount } from "../geometry/ball";
import { columnAcross, columnCount, garlandCount } from "../geometry/clusters";
import { ceilingCount, strandCount, wallCount } from "../geometry/flat";
import { sleeveCount } from "../geometry/ribbon";
import type { SizingUse } from "../geometry/sizing";
import { netCount } from "../geometry/volumes";
import { present } from "../numeric/entry-at";
import { wholeNearest } from "../numeric/whole";
import {
  CEILING_FULL_LOOK,
  COVER_SPACING,
  SLEEVE_BOX_METRES,
  TIED_BALL_SPACING,
  WALL_SPACING,
} from "../practice";
import type { BalloonType, PartKind, PieceCells, WorkStyle } from "./cells";
import { longLength } from "./long-code";

/** Width, depth and height of the box that a rigid piece fills, m. */
export type PartBox = readonly [width: number, depth: number, height: number];

/** A dimension that a kind may need. */
export type PartDimension = "width" | "height" | "length" | "balloons" | "share";

/** The tied ball under a cover. */
export interface Core {
  readonly balloons: number;
  /** m */
  readonly inflated: number;
  /** Undefined where it was not typed. */
  readonly spacing: number | undefined;
}

/** A part as its kind's rules see it: cells as typed and what is known of it already. Lengths in m. */
export interface SizedPart {
  readonly kind: PartKind;
  /** What sentences begin with, such as `pieces row 3`. */
  readonly place: string;
  readonly cells: Partial<PieceCells>;
  readonly inflated: number;
  /** Balloons in one piece, once they are counted. */
  readonly balloons?: number | undefined;
  /** The tied ball that a cover lies on. */
  readonly core?: Core | undefined;
}

/** What a kind of part is by itself. */
export interface KindRule {
  readonly use: SizingUse;
  readonly style: WorkStyle;
  readonly gas: "air" | "helium";
  readonly type: BalloonType;
  /** True where balloons are tied into clusters. */
  readonly isClustered: boolean;
  /** What it needs where its balloons are not typed. */
  readonly needs: readonly PartDimension[];
  /** Balloons in one piece; absent where rows of one piece are counted together, or the number has to be typed. */
  readonly count?: (part: SizedPart) => number;
  /** Length along which one piece is built, m; undefined where its dimensions are not given. */
  readonly metres?: (part: SizedPart) => number | undefined;
  /** Area that one piece covers, m2. */
  readonly area?: (part: SizedPart) => number | undefined;
  /** Box of a ready-built piece; undefined where it gives way or its dimensions are not given. */
  readonly box?: (part: SizedPart) => PartBox | undefined;
}

/**
 * A dimension that a part needs.
 *
 * @param part the part
 * @param name the column
 * @returns its value
 * @throws CalcError `#VALUE!` naming the row where it is blank or not above 0
 */
export function dimensionOf(part: SizedPart, name: PartDimension): number {
  const value = part.cells[name];
  const place = `${part.place}: ${name}`;
  if (value === undefined) throw invalid(place, `be given for kind "${part.kind}"`, undefined);
  if (!(value > 0) && name !== "balloons" && name !== "share")
    throw invalid(place, `be above 0 m for kind "${part.kind}"`, value);
  return value;
}

const clustersOf = ({ inflated, cells }: SizedPart): number =>
  columnAcross(inflated, cells["per cluster"], cells.spacing);

const cube = (side: number): PartBox => [side, side, side];

const both = (one: number | undefined, other: number | undefined): number | undefined =>
  one === undefined || other === undefined ? undefined : one * other;

/** Length along the middle of an arch, as it was measured. */
function archMetres(part: SizedPart): number | undefined {
  const { width, height, curve, measured } = part.cells;
  if (width === undefined || height === undefined) return undefined;
  return archLength(width, height, curve, measured, clustersOf(part));
}

/** Length along the middle of a collar's ring, from its outer width and its thickness. */
export function ringLength(width: number, thickness: number): number {
  return Math.PI * (width - thickness);
}

function requiredCore({ core, place }: SizedPart): Core {
  if (core === undefined)
    throw new CalcError("#VALUE!", `${place}: cover must have a tied ball in the same piece, or balloons`);
  return core;
}

function coverBox({ core, inflated }: SizedPart): PartBox | undefined {
  if (core === undefined || core.balloons === 0) return undefined;
  return cube(coverAcross(core.balloons, core.inflated, inflated, core.spacing));
}

const CLUSTERED = {
  use: "clusters",
  style: "clusters",
  gas: "air",
  type: "latex",
  isClustered: true,
} as const;
const SINGLE = { ...CLUSTERED, isClustered: false } as const;
const HELIUM = { ...SINGLE, use: "helium", style: "helium", gas: "helium" } as const;

/**
 * What each kind of part is. Source: the counting function of each kind; styles, gas and sizing by common practice.
 */
export const KINDS: Readonly<Record<PartKind, KindRule>> = {
  column: {
    ...CLUSTERED,
    needs: ["height"],
    count: (part) =>
      columnCount(dimensionOf(part, "height"), part.inflated, part.cells["per cluster"], part.cells.spacing),
    metres: ({ cells }) => cells.height,
    box: (part) =>
      part.cells.height === undefined ? undefined : [clustersOf(part), clustersOf(part), part.cells.height],
  },
  arch: {
    ...CLUSTERED,
    needs: ["width", "height"],
    count: (part) => {
      dimensionOf(part, "width");
      dimensionOf(part, "height");
      const { cells, inflated } = part;
      return garlandCount(present(archMetres(part)), inflated, cells["per cluster"], cells.spacing);
    },
    metres: archMetres,
    box: (part) => {
      const { width, height } = part.cells;
      const across = clustersOf(part);
      return width === undefined || height === undefined ? undefined : [width + across, across, height];
    },
  },
  garland: {
    ...CLUSTERED,
    needs: ["length"],
    count: (part) =>
      garlandCount(dimensionOf(part, "length"), part.inflated, part.cells["per cluster"], part.cells.spacing),
    metres: ({ cells }) => cells.length,
  },
  strand: {
    ...SINGLE,
    needs: ["length"],
    count: (part) => strandCount(dimensionOf(part, "length"), part.inflated),
    metres: ({ cells }) => cells.length,
  },
  ball: {
    ...SINGLE,
    needs: ["width"],
    count: (part) =>
      sphereCount(dimensionOf(part, "width"), part.inflated, part.cells.spacing, part.cells.covered),
    box: ({ cells }) => (cells.width === undefined ? undefined : cube(cells.width)),
  },
  wall: {
    ...SINGLE,
    style: "wall",
    needs: ["width", "height"],
    count: (part) =>
      wallCount(
        dimensionOf(part, "width"),
        dimensionOf(part, "height"),
        part.inflated,
        part.cells.lattice,
        part.cells.spacing ?? WALL_SPACING.value,
        part.cells.faces,
      ),
    metres: ({ cells }) => cells.width,
    area: ({ cells }) => both(cells.width, cells.height),
    box: ({ cells: { width, height }, inflated }) =>
      width === undefined || height === undefined ? undefined : [width, inflated, height],
  },
  ceiling: {
    ...HELIUM,
    style: "ceiling",
    needs: ["length", "width"],
    count: (part) =>
      ceilingCount(
        dimensionOf(part, "length"),
        dimensionOf(part, "width"),
        part.inflated,
        part.cells.covered ?? CEILING_FULL_LOOK.value,
      ),
    area: ({ cells }) => both(cells.length, cells.width),
  },
  net: {
    ...SINGLE,
    style: "net",
    needs: ["length", "width"],
    count: (part) =>
      netCount(dimensionOf(part, "length"), dimensionOf(part, "width"), part.inflated, part.cells.packing),
    metres: ({ cells }) => cells.length,
  },
  mix: {
    ...SINGLE,
    use: "free-form",
    style: "free-form",
    needs: ["length", "width", "share"],
    metres: ({ cells }) => cells.length,
  },
  count: {
    ...SINGLE,
    needs: ["balloons"],
    metres: ({ cells }) => cells.length ?? cells.height,
    area: ({ cells }) => both(cells.width, cells.height),
    box: ({ cells: { width, height } }) =>
      width === undefined || height === undefined ? undefined : [width, width, height],
  },
  "tied ball": {
    ...SINGLE,
    needs: ["width"],
    count: (part) =>
      sphereCount(dimensionOf(part, "width"), part.inflated, part.cells.spacing ?? TIED_BALL_SPACING.value),
    box: ({ balloons = 0, inflated, cells }) =>
      balloons > 0 ? cube(ballAcross(balloons, inflated, cells.spacing)) : undefined,
  },
  cover: {
    ...SINGLE,
    use: "free-form",
    style: "free-form",
    needs: [],
    count: (part) => {
      const core = requiredCore(part);
      const spacing = part.cells.spacing ?? COVER_SPACING.value;
      const full = coverCount(core.balloons, core.inflated, part.inflated, spacing, core.spacing);
      return wholeNearest(full * (part.cells.covered ?? 1));
    },
    box: coverBox,
  },
  collar: {
    ...SINGLE,
    use: "free-form",
    style: "free-form",
    needs: ["width", "height"],
    metres: ({ cells: { width, height } }) =>
      width === undefined || height === undefined ? undefined : ringLength(width, height),
    box: ({ cells: { width, height } }) =>
      width === undefined || height === undefined ? undefined : [width, width, height],
  },
  sleeve: {
    ...SINGLE,
    style: "sleeve",
    type: "long",
    needs: ["height"],
    count: (part) => {
      const pole = part.cells.height ?? part.cells.length ?? dimensionOf(part, "height");
      return sleeveCount(pole, longLength(part.cells));
    },
    metres: ({ cells }) => cells.height ?? cells.length,
    box: ({ cells: { height, length } }) => {
      const pole = height ?? length;
      const across = SLEEVE_BOX_METRES.value;
      return pole === undefined ? undefined : [across, across, pole];
    },
  },
  foil: { ...HELIUM, type: "foil", needs: [], count: () => 1 },
  bouquet: { ...HELIUM, needs: ["balloons"] },
};
