import { CalcError, invalid } from "../core/calc-error";
import type { Located } from "./headings";
import { plainCell } from "./incoming";
import { isOptional, zeroMeansInTable, type TableColumn } from "./param";
import { isBlank, readScalar, refusedZero, type ScalarValue } from "./read-scalar";
import { comparable } from "./read-text";

/** What the cells of a row say, and a sentence for each that cannot be read. Defaults are not applied. */
export interface RowReading {
  readonly cells: Readonly<Record<string, ScalarValue>>;
  readonly doubts: readonly string[];
}

const TOTAL_WORDS = /^(?:grand |sub ?)?(?:totals?|sum)\b[: ]*$/;

/** The text of the first filled cell where it says that the row is a total. */
export function totalText(cells: readonly unknown[]): string | undefined {
  const first = cells.find((cell) => !isBlank(cell));
  return typeof first === "string" && TOTAL_WORDS.test(comparable(first)) ? first.trim() : undefined;
}

function readCell(argument: string, { column, unit }: Located, raw: unknown): ScalarValue | undefined {
  const cell = plainCell(raw);
  const zero = cell === 0 ? zeroMeansInTable(column) : "zero";
  const isUnset = isBlank(cell) || zero === "default";
  if (zero === "refused" || (isUnset && column.blank === "refused"))
    throw refusedZero(argument, column, "type the number");
  if (!isUnset) return readScalar(argument, column, cell, unit);
  if (isOptional(column)) return undefined;
  throw invalid(argument, "be given", undefined, "merged cells keep only the first");
}

/**
 * Reads every cell of a row, whatever is wrong with the others.
 *
 * @param place how sentences name the row
 * @param columns columns of the table; one that is not located is blank
 * @param spots where the columns stand
 * @param row cells of the row
 */
export function readRow(
  place: string,
  columns: readonly TableColumn[],
  spots: readonly Located[],
  row: readonly unknown[],
): RowReading {
  const cells: Record<string, ScalarValue> = {};
  const doubts: string[] = [];
  for (const column of columns) {
    const spot = spots.find((candidate) => candidate.column === column);
    try {
      const value = readCell(
        `${place}: ${column.name}`,
        spot ?? { column, index: -1 },
        spot === undefined ? undefined : row[spot.index],
      );
      if (value !== undefined) cells[column.name] = value;
    } catch (error) {
      if (!(error instanceof CalcError)) throw error;
      doubts.push(error.message);
    }
  }
  return { cells, doubts };
}
