import { CalcError, invalid } from "../calc-error";
import { nameKey } from "./names";
import type { Piece } from "./needs";
import { CEILING_FULL_LOOK, PER_CLUSTER, WALL_SPACING } from "../practice";
import { grouped } from "../stock/grouped";
import { type BuildStyle } from "../work/build";
import { archLength, type ArchCurve } from "../geometry/arch";
import { sphereCount } from "../geometry/ball";
import { columnCount, garlandCount } from "../geometry/clusters";
import { ceilingCount, strandCount, wallCount, type WallLattice } from "../geometry/flat";
import { type SizingUse, sizedDiameter } from "../geometry/sizing";
import { mixPlan, netCount } from "../geometry/volumes";

/** What a balloon is filled with. */
export const GASES = ["air", "helium"] as const;

/** One of `GASES`. */
export type Gas = (typeof GASES)[number];

/** A row of the pieces of an event as typed: the kind says which dimensions it needs. Lengths in m. */
export interface PieceRow {
  readonly row: number;
  readonly name: string;
  readonly kind: PieceKind;
  readonly quantity: number;
  readonly width?: number | undefined;
  readonly height?: number | undefined;
  readonly length?: number | undefined;
  /** Size printed on the bag. */
  readonly printed: number;
  /** Inflated diameter; by default what `sizedDiameter` gives for the kind. */
  readonly inflated?: number | undefined;
  readonly palette: string;
  /** Balloons of a piece whose count is known already. */
  readonly balloons?: number | undefined;
  /** Share by number of one size in a mix. */
  readonly share?: number | undefined;
  readonly perCluster?: number | undefined;
  readonly spacing?: number | undefined;
  readonly covered?: number | undefined;
  readonly curve?: ArchCurve | undefined;
  readonly lattice?: WallLattice | undefined;
  readonly style?: BuildStyle | undefined;
  readonly gas?: Gas | undefined;
}

/** A row of pieces with everything that its kind and dimensions give. */
export interface CountedPiece extends Piece {
  /** Length or height along which one of it is built, m; 0 where it has none. */
  readonly metres: number;
  readonly clusters: number;
  readonly style: BuildStyle;
  readonly gas: Gas;
  /** True for the first row of a piece: rows of one name are one piece and are rigged once. */
  readonly isFirst: boolean;
}

interface Counted {
  readonly balloons: number;
  readonly clusters?: number;
  readonly metres?: number;
}

type Dimension = "width" | "height" | "length" | "balloons" | "share";

interface Rule {
  readonly use: SizingUse;
  readonly style: BuildStyle;
  readonly gas: Gas;
  readonly needs: readonly Dimension[];
  readonly count: (given: Readonly<Record<Dimension, number>>, inflated: number, row: PieceRow) => Counted;
}

const inClusters = (balloons: number, row: PieceRow, metres: number): Counted => ({
  balloons,
  clusters: balloons / (row.perCluster ?? PER_CLUSTER.value),
  metres,
});

const CLUSTERED = { use: "clusters", style: "clusters", gas: "air" } as const;

/** How each kind of piece is counted. */
const RULES = {
  column: {
    ...CLUSTERED,
    needs: ["height"],
    count: ({ height }, d, row) =>
      inClusters(columnCount(height, d, row.perCluster, row.spacing), row, height),
  },
  arch: {
    ...CLUSTERED,
    needs: ["width", "height"],
    count: ({ width, height }, d, row) => {
      const metres = archLength(width, height, row.curve);
      return inClusters(garlandCount(metres, d, row.perCluster, row.spacing), row, metres);
    },
  },
  garland: {
    ...CLUSTERED,
    needs: ["length"],
    count: ({ length }, d, row) =>
      inClusters(garlandCount(length, d, row.perCluster, row.spacing), row, length),
  },
  strand: {
    ...CLUSTERED,
    needs: ["length"],
    count: ({ length }, d) => ({ balloons: strandCount(length, d), metres: length }),
  },
  ball: {
    ...CLUSTERED,
    needs: ["width"],
    count: ({ width }, d, row) => ({ balloons: sphereCount(width, d, row.spacing, row.covered) }),
  },
  wall: {
    use: "clusters",
    style: "wall",
    gas: "air",
    needs: ["width", "height"],
    count: ({ width, height }, d, row) => ({
      balloons: wallCount(width, height, d, row.lattice, row.spacing ?? WALL_SPACING.value),
      metres: width,
    }),
  },
  ceiling: {
    use: "helium",
    style: "ceiling",
    gas: "helium",
    needs: ["length", "width"],
    count: ({ length, width }, d, row) => ({
      balloons: ceilingCount(length, width, d, row.covered ?? CEILING_FULL_LOOK.value),
    }),
  },
  net: {
    use: "clusters",
    style: "net",
    gas: "air",
    needs: ["length", "width"],
    count: ({ length, width }, d) => ({ balloons: netCount(length, width, d), metres: length }),
  },
  mix: {
    use: "free-form",
    style: "free-form",
    gas: "air",
    needs: ["length", "width", "share"],
    count: ({ length }) => ({ balloons: 0, metres: length }),
  },
  count: {
    ...CLUSTERED,
    needs: ["balloons"],
    count: ({ balloons }) => ({ balloons }),
  },
} as const satisfies Record<string, Rule>;

/** A kind of piece that a table of pieces can hold. */
export type PieceKind = keyof typeof RULES;

/** The kinds, for lists of choices. */
export const PIECE_KINDS = Object.keys(RULES) as PieceKind[];

/**
 * The dimensions that a kind of piece needs.
 *
 * @param kind kind of piece
 * @returns names of columns
 */
export function dimensionsOf(kind: PieceKind): readonly string[] {
  return RULES[kind].needs;
}

function dimension(row: PieceRow, name: Dimension): number {
  const value = row[name];
  if (value === undefined) {
    throw invalid(`pieces row ${row.row}: ${name}`, `be given for kind "${row.kind}"`, undefined);
  }
  if (!(value > 0) && name !== "balloons" && name !== "share") {
    throw invalid(`pieces row ${row.row}: ${name}`, `be above 0 m for kind "${row.kind}"`, value);
  }
  return value;
}

function inRow<Value>(row: PieceRow, compute: () => Value): Value {
  try {
    return compute();
  } catch (error) {
    // The geometry names the dimension; the table adds its row.
    if (!(error instanceof CalcError) || error.message.startsWith("pieces row")) throw error;
    throw new CalcError(error.code, `pieces row ${row.row}: ${error.message}`);
  }
}

function inflatedSize(row: PieceRow): number {
  return row.inflated ?? sizedDiameter(row.printed, row.gas === "helium" ? "helium" : RULES[row.kind].use);
}

/** Counts of the sizes of one mix, whose rows share its name; its dimensions are those of its first row. */
function mixCounts(rows: readonly [PieceRow, ...PieceRow[]]): readonly number[] {
  const [first] = rows;
  return inRow(first, () =>
    mixPlan(
      dimension(first, "length"),
      dimension(first, "width"),
      rows.map(inflatedSize),
      rows.map((row) => dimension(row, "share")),
    ).map(({ balloons }) => balloons),
  );
}

/**
 * Counts every row of a table of pieces. A mix is one row for each of its sizes, all with the same name: the first gives its length
 * and, as width, its thickness, and every row its share by number.
 * Source: the counting function of each kind.
 *
 * @param rows pieces as typed, lengths in m
 * @returns one counted piece for each row, in order
 * @throws CalcError `#VALUE!` naming the row and the dimension that is missing or cannot be built
 */
export function countPieces(rows: readonly PieceRow[]): readonly CountedPiece[] {
  const mixes = grouped(
    rows.filter((row) => row.kind === "mix"),
    (row) => nameKey(row.name),
  );
  const ofMix = new Map(
    [...mixes.values()].flatMap((group) => {
      const counts = mixCounts(group);
      return group.map((row, index) => [row, counts[index] ?? 0] as const);
    }),
  );
  const byName = grouped(rows, (row) => nameKey(row.name));
  const firstOfName = new Set([...byName.values()].map(([first]) => first));
  return rows.map((row): CountedPiece => {
    const rule: Rule = RULES[row.kind];
    const inflated = inflatedSize(row);
    const isFirst = firstOfName.has(row);
    const base = {
      row: row.row,
      name: row.name,
      kind: row.kind,
      quantity: row.quantity,
      printed: row.printed,
      inflated,
      palette: row.palette,
      style: row.style ?? (row.gas === "helium" && rule.gas === "air" ? "helium" : rule.style),
      gas: row.gas ?? rule.gas,
      isFirst,
    };
    if (row.kind === "mix") {
      const metres = isFirst ? dimension(row, "length") : 0;
      return { ...base, balloons: ofMix.get(row) ?? 0, clusters: 0, metres };
    }
    const given = Object.fromEntries(rule.needs.map((name) => [name, dimension(row, name)])) as Record<
      Dimension,
      number
    >;
    const { balloons, clusters = 0, metres = 0 } = inRow(row, () => rule.count(given, inflated, row));
    return { ...base, balloons, clusters, metres };
  });
}
