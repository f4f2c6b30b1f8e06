import type { Known } from "../withheld";
import type { PartBox } from "./kinds";
import type { BalloonType, Built, Carried, PartKind, PieceCells, Where, WorkStyle } from "./cells";
import { check, type Problem } from "../problem";
import type { PieceRows } from "./piece-rows";

/** A row of pieces with what its kind and its cells say. Lengths in m, volumes in m3. */
export interface Part {
  readonly event: string;
  /** Option that the row names; empty for every option. */
  readonly option: string;
  readonly name: string;
  /** Undefined where it cannot be read. */
  readonly kind: PartKind | undefined;
  readonly place: string;
  readonly row: number;
  readonly cells: Partial<PieceCells>;
  /** Why nothing of the row may be computed; undefined where all its cells were read. */
  readonly unread: string | undefined;
  readonly type: BalloonType;
  readonly gas: "air" | "helium";
  readonly style: WorkStyle;
  readonly where: Where;
  readonly built: Built;
  readonly carried: Carried;
  /** Pieces. */
  readonly quantity: Known;
  /** Balloons in one piece. */
  readonly each: Known;
  /** Balloons in all pieces. */
  readonly balloons: Known;
  /** Clusters in one piece, 0 where it has none; not whole where a typed count does not fit. */
  readonly clusters: Known;
  /** Length along which one piece is built, and the area it covers; undefined where its kind or its cells have none. */
  readonly metres: number | undefined;
  readonly area: number | undefined;
  /** Inflated diameter; of a foil its flat size; undefined for a sleeve, which holds no gas. */
  readonly inflated: Known | undefined;
  /** Chance that a balloon fails. */
  readonly breakage: Known;
  /** Finished size of the covered ball that this part makes. */
  readonly finished: number | undefined;
  readonly box: PartBox | undefined;
  readonly problems: readonly Problem[];
}

/** A piece with its parts. */
export interface Piece {
  readonly rows: PieceRows;
  readonly event: string;
  readonly option: string;
  readonly name: string;
  readonly quantity: Known;
  readonly parts: readonly Part[];
  readonly problems: readonly Problem[];
}

/**
 * A problem of one row of pieces that takes away every number of the job.
 *
 * @param part the row
 * @param what sentence with its place
 * @param todo what to do
 * @returns the problem
 */
export function rowStop(part: { readonly row: number }, what: string, todo = "mend the cell"): Problem {
  return { weight: "stop", table: "pieces", row: part.row, what, todo, reach: { of: "job" } };
}

/**
 * Something about one row of pieces to look at once.
 *
 * @param part the row
 * @param what sentence with its place
 * @param todo what to do
 * @returns the problem
 */
export function rowCheck(part: { readonly row: number }, what: string, todo?: string): Problem {
  return check("pieces", what, todo, part.row);
}
