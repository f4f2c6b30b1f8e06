import { CalcError } from "../calc-error";
import { nameKey } from "../palette/names";
import { grouped } from "../stock/grouped";
import type { PieceCells } from "./cells";
import type { Line } from "./job";
import type { EventScope, Scenario, JobScope } from "./scope";

/** All rows of one piece: one event, one name, and the option in force or none. */
export interface PieceRows {
  readonly event: EventScope;
  /** Option in force; empty where the event has none. */
  readonly option: string;
  readonly name: string;
  readonly lines: readonly [Line<PieceCells>, ...Line<PieceCells>[]];
}

/**
 * The pieces that are built when each event has one option in force.
 *
 * @param scope events and rows
 * @param inForce option of each event
 * @returns pieces by event, in the order of their first rows; a row without a name is a piece of its own
 */
export function pieceRowsOf(scope: JobScope, inForce: Scenario["inForce"]): readonly PieceRows[] {
  return scope.events.flatMap((event) => {
    const option = inForce.find(([name]) => name === event.name)?.[1] ?? "";
    const isBuilt = (written: string): boolean =>
      nameKey(written) === "" || nameKey(written) === nameKey(option);
    const lines = scope.lines
      .filter((row) => row.event === event.name && isBuilt(row.line.cells.option ?? ""))
      .map((row) => row.line);
    const byName = grouped(lines, (line) => nameKey(line.cells.name ?? "") || line.place);
    return [...byName.values()].map((group) => ({
      event,
      option,
      name: (group[0].cells.name ?? "").trim(),
      lines: group,
    }));
  });
}

/**
 * How many of a row's piece are built. A blank takes the one number that other rows of the piece have, so that the order of
 * rows does not matter; 0 parks a row.
 *
 * @param line a row
 * @param rows all rows of its piece
 * @returns pieces, whole; 1 where no row says it
 * @throws CalcError where other rows have two numbers, or one that cannot be read
 */
export function quantityOf(line: Line<PieceCells>, rows: readonly Line<PieceCells>[]): number {
  const own = line.cells.quantity;
  if (own !== undefined) return own;
  return oneOf(line, rows, "quantity") ?? (rows.some(({ cells }) => cells.quantity === 0) ? 0 : 1);
}

/** Columns that a blank cell takes from the other rows of its piece. */
type Shared = "quantity" | "width" | "height" | "length" | "packing";

/**
 * The one number above 0 that rows of a piece have in a column.
 *
 * @param line the row whose own cell is blank, for the sentence
 * @param rows rows that may have it
 * @param column the column
 * @returns the number; undefined where no row has one
 * @throws CalcError where two rows differ, or a row that cannot be read may differ
 */
export function oneOf(
  line: Line<PieceCells>,
  rows: readonly Line<PieceCells>[],
  column: Shared,
): number | undefined {
  for (const { cells, doubts } of rows) {
    const doubt = doubts.find((sentence) => sentence.includes(`: ${column} `));
    if (doubt !== undefined && cells[column] === undefined) throw new CalcError("#N/A", doubt);
  }
  const found = new Set(rows.flatMap(({ cells }) => cells[column] ?? []).filter((value) => value > 0));
  const [first, second] = found;
  if (second !== undefined) {
    const numbers = [...found].map((value) => Number(value.toPrecision(6)));
    const sentence = `${column} must be typed, other rows of this piece have ${numbers.join(" and ")}`;
    throw new CalcError("#VALUE!", `${line.place}: ${sentence}`);
  }
  return first;
}
