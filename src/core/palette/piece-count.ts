import { CalcError, invalid } from "../calc-error";
import { dimensionOf, KINDS, type SizedPart } from "../event/kinds";
import type { PieceCells, PIECE_KINDS } from "../event/cells";
import { entryAt } from "../numeric/entry-at";
import { orNone } from "../numeric/tally";
import { PER_CLUSTER } from "../practice";
import { grouped } from "../stock/grouped";
import { type BuildStyle } from "../work/build";
import type { ArchCurve } from "../geometry/arch";
import type { WallLattice } from "../geometry/flat";
import { sizedDiameter } from "../geometry/sizing";
import { mixPlan } from "../geometry/volumes";
import { nameKey } from "./names";
import type { NeededPiece } from "./needs";

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
export interface CountedPiece extends NeededPiece {
  /** Length or height along which one of it is built, m; 0 where it has none. */
  readonly metres: number;
  readonly clusters: number;
  readonly style: BuildStyle;
  readonly gas: Gas;
  /** True for the first row of a piece: rows of one name are one piece and are rigged once. */
  readonly isFirst: boolean;
}

/** A kind of piece that a table of pieces can hold. */
export type PieceKind = (typeof PIECE_KINDS)[number];

/**
 * The dimensions that a kind of piece needs.
 *
 * @param kind kind of piece
 * @returns names of columns
 */
export function dimensionsOf(kind: PieceKind): readonly string[] {
  return KINDS[kind].needs;
}

function sized(row: PieceRow, inflated: number): SizedPart {
  const { width, height, length, printed, balloons, share, spacing, covered, curve, lattice } = row;
  const cells: Record<string, unknown> = {
    width,
    height,
    length,
    printed,
    balloons,
    share,
    spacing,
    covered,
  };
  Object.assign(cells, { curve, lattice, "per cluster": row.perCluster });
  return { kind: row.kind, place: `pieces row ${row.row}`, cells: cells as Partial<PieceCells>, inflated };
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
  return row.inflated ?? sizedDiameter(row.printed, row.gas === "helium" ? "helium" : KINDS[row.kind].use);
}

/** Counts of the sizes of one mix, whose rows share its name; its dimensions are those of its first row. */
function mixCounts(rows: readonly [PieceRow, ...PieceRow[]]): readonly number[] {
  const [first] = rows;
  return inRow(first, () =>
    mixPlan(
      dimensionOf(sized(first, 0), "length"),
      dimensionOf(sized(first, 0), "width"),
      rows.map(inflatedSize),
      rows.map((row) => dimensionOf(sized(row, 0), "share")),
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
  const count = pieceCounter(rows);
  return rows.map(count);
}

/**
 * Counts pieces row by row, so that a row that cannot be counted costs no other.
 *
 * @param rows pieces as typed, lengths in m
 * @returns counts one of these rows, and throws as `countPieces` where it cannot
 */
export function pieceCounter(rows: readonly PieceRow[]): (row: PieceRow) => CountedPiece {
  const mixes = grouped(
    rows.filter((row) => row.kind === "mix"),
    (row) => nameKey(row.name),
  );
  const byName = grouped(rows, (row) => nameKey(row.name));
  return (row) => {
    const rule = KINDS[row.kind];
    const inflated = inflatedSize(row);
    const isFirst = byName.get(nameKey(row.name))?.[0] === row;
    const base = {
      row: row.row,
      name: row.name,
      kind: row.kind,
      quantity: row.quantity,
      printed: row.printed,
      inflated,
      palette: row.palette,
      style: row.style ?? (row.gas === "helium" && rule.gas === "air" ? "helium" : styleOf(row.kind)),
      gas: row.gas ?? rule.gas,
      isFirst,
    };
    const part = sized(row, inflated);
    const mix = row.kind === "mix" ? mixes.get(nameKey(row.name)) : undefined;
    if (row.balloons !== undefined) return { ...base, ...typedCount(row, row.balloons, mix, isFirst) };
    if (mix !== undefined) {
      const metres = isFirst ? dimensionOf(part, "length") : 0;
      return { ...base, balloons: entryAt(mixCounts(mix), mix.indexOf(row)), clusters: 0, metres };
    }
    const balloons = inRow(row, () => rule.count?.(part) ?? dimensionOf(part, "balloons"));
    const perCluster = row.perCluster ?? PER_CLUSTER.value;
    const clusters = rule.isClustered ? balloons / perCluster : 0;
    return { ...base, balloons, clusters, metres: row.kind === "count" ? 0 : orNone(rule.metres?.(part)) };
  };
}

/** A count that was typed is honoured for every kind; its dimensions only say how long it is. */
function typedCount(
  row: PieceRow,
  balloons: number,
  mix: readonly PieceRow[] | undefined,
  isFirst: boolean,
): { readonly balloons: number; readonly clusters: number; readonly metres: number } {
  const rule = KINDS[row.kind];
  const silent = mix?.find((other) => other.balloons === undefined);
  if (silent !== undefined)
    throw invalid(
      `pieces row ${silent.row}: balloons`,
      "be given in every row of the mix, or in none",
      undefined,
    );
  const clusters = balloons / (row.perCluster ?? PER_CLUSTER.value);
  const isWhole = rule.isClustered === true && Number.isInteger(clusters);
  return { balloons, clusters: isWhole ? clusters : 0, metres: isFirst ? lengthOf(row) : 0 };
}

/** Length along which a piece of a typed count is built; 0 where its dimensions do not say. */
function lengthOf(row: PieceRow): number {
  if (row.kind === "count") return 0;
  try {
    return orNone(KINDS[row.kind].metres?.(sized(row, 0)));
  } catch (error) {
    if (error instanceof CalcError) return 0;
    throw error;
  }
}

function styleOf(kind: PieceKind): BuildStyle {
  const { style } = KINDS[kind];
  return style === "sleeve" ? "clusters" : style;
}
