import { attempt, required } from "../attempt";
import { CalcError, invalid } from "../calc-error";
import { mixPlan } from "../geometry/volumes";
import { entryAt, present } from "../numeric/entry-at";
import type { Known } from "../withheld";
import type { PieceCells } from "./cells";
import type { Line } from "./job";
import { dimensionOf, KINDS, ringLength, type Core, type SizedPart } from "./kinds";
import { inflatedOf } from "./part-size";
import { oneOf } from "./piece-rows";

type Row = Line<PieceCells>;

/** What the rows of one piece share when they are counted. */
export interface Counting {
  /** Balloons in one piece of each row of a mix or collar. */
  readonly grouped: ReadonlyMap<Row, Known>;
  /** The tied ball under the covers; undefined where there is none. Throws where it cannot be told. */
  readonly core: () => Core | undefined;
}

/** Kinds whose rows are the sizes of one body. */
const GROUPED = ["mix", "collar"] as const;

/**
 * What has to be known of all rows of a piece before each is counted.
 *
 * @param lines rows of one piece
 * @returns counts of its mixes and collars, and its tied ball
 */
export function countingOf(lines: readonly Row[]): Counting {
  const built = lines.filter(({ cells }) => cells.quantity !== 0);
  const counts = GROUPED.flatMap((kind) => groupCounts(built.filter(({ cells }) => cells.kind === kind)));
  const balls = built.filter(({ cells }) => cells.kind === "tied ball");
  const grouped = new Map(counts);
  return {
    grouped,
    core: () => {
      const [ball, second] = balls;
      if (second !== undefined) {
        const sentence =
          "cover must have one tied ball in the same piece, give each ball with its cover a name";
        throw new CalcError("#VALUE!", `${second.place}: ${sentence}, found ${balls.length}`);
      }
      if (ball === undefined) return undefined;
      if (ball.doubts[0] !== undefined) throw new CalcError("#N/A", ball.doubts[0]);
      const inflated = present(inflatedOf(ball));
      const sized = { kind: "tied ball", place: ball.place, cells: ball.cells, inflated } as const;
      return { balloons: eachOf(sized, ball, grouped), inflated, spacing: ball.cells.spacing };
    },
  };
}

/**
 * Balloons in one piece of a row: as typed, else as its kind's rule counts them.
 *
 * @param part the row, sized; a cover with its core
 * @param line the same row
 * @param grouped counts of mixes and collars
 * @returns balloons, whole
 * @throws CalcError naming the row and what it needs
 */
export function eachOf(part: SizedPart, line: Row, grouped: Counting["grouped"]): number {
  const { balloons } = part.cells;
  const group = grouped.get(line);
  if (group !== undefined) return required(group);
  return balloons ?? computedEach(part);
}

/**
 * Balloons in one piece as its dimensions give them, whatever was typed.
 *
 * @param part the row, sized
 * @returns balloons, whole
 * @throws CalcError naming the row and the dimension that is missing
 */
export function computedEach(part: SizedPart): number {
  const { count } = KINDS[part.kind];
  return count === undefined ? dimensionOf(part, "balloons") : count(part);
}

/** Counts of one body of several sizes: all typed, or all from its dimensions. */
function groupCounts(lines: readonly Row[]): readonly (readonly [Row, Known])[] {
  const [first] = lines;
  if (first === undefined) return [];
  const counts = (): readonly number[] => {
    const unread = lines.find(({ doubts }) => doubts.length > 0);
    if (unread !== undefined) throw new CalcError("#N/A", unread.doubts[0] ?? unread.place);
    const blank = lines.find(({ cells }) => cells.balloons === undefined);
    if (blank === undefined) return lines.map(({ cells }) => present(cells.balloons));
    if (lines.some(({ cells }) => cells.balloons !== undefined)) {
      const kind = first.cells.kind ?? "mix";
      const place = `${blank.place}: balloons`;
      throw invalid(place, `be given on all rows of a ${kind} or on none`, undefined);
    }
    return bodyCounts(first, lines);
  };
  let found: readonly Known[] = [];
  const problem = attempt(() => {
    found = counts();
    return 0;
  }, first.place);
  const known = problem === 0 ? found : lines.map(() => problem);
  return lines.map((line, index) => [line, entryAt(known, index)] as const);
}

function bodyCounts(first: Row, lines: readonly Row[]): readonly number[] {
  const kind = first.cells.kind ?? "mix";
  const shared = (column: "width" | "height" | "length"): number => {
    const value = oneOf(first, lines, column);
    const cells = value === undefined ? {} : { [column]: value };
    return dimensionOf({ kind, place: first.place, cells, inflated: 0 }, column);
  };
  const [length, thickness] =
    kind === "collar"
      ? [ringLength(shared("width"), shared("height")), shared("height")]
      : [shared("length"), shared("width")];
  const sizes = lines.map((line) => present(inflatedOf(line)));
  const shares = lines.map(({ cells, place }) =>
    lines.length === 1 ? (cells.share ?? 1) : dimensionOf({ kind, place, cells, inflated: 0 }, "share"),
  );
  return mixPlan(length, thickness, sizes, shares, oneOf(first, lines, "packing")).map(
    ({ balloons }) => balloons,
  );
}
