import type { CellPlace } from "../sheet/engine";
import type { RecalculatedWorkbook } from "../sheet/recalculate";
import { cellAddress } from "../formula/address";
import type { CellValue } from "../workbook/model";
import { readingText, type TextReading } from "../workbook/text-workbook";

/** What became of one file. */
export interface RecalculatedFile {
  readonly input: string;
  readonly output: string;
  /** Where the file went that was at `output` before. */
  readonly previous: string | undefined;
  readonly result: RecalculatedWorkbook;
  /** How the input was read, where it was text. */
  readonly reading?: TextReading;
}

const MOST_LISTED = 20;

function placeText(names: readonly string[], { sheet, row, column }: CellPlace): string {
  return `${names[sheet] ?? ""}!${cellAddress(row, column)}`;
}

/** True where the workbook must not go out: a cell of ours holds an error, or a verdict says so. */
export function isUnfit({ failing, plans }: Pick<RecalculatedWorkbook, "failing" | "plans">): boolean {
  return failing.length > 0 || plans.notReady.length > 0;
}

/** A value as a person reads it. */
export function quotedValue(value: CellValue): string {
  if (value === null) return "empty";
  if (typeof value === "object") return value.error;
  return typeof value === "string"
    ? `"${value.length > 60 ? `${value.slice(0, 60)}…` : value}"`
    : String(value);
}

/** A heading with its lines, as many as a person reads; nothing where there are none. */
function section(heading: string, lines: readonly string[], most = MOST_LISTED): string {
  if (lines.length === 0) return "";
  const more = lines.length - most;
  return [
    heading,
    ...lines.slice(0, most).map((line) => `  ${line}`),
    ...(more > 0 ? [`  and ${more} more`] : []),
  ]
    .map((line) => `${line}\n`)
    .join("");
}

/** Every cell of ours with an error, every status that is not ok and every verdict against the job, each with its cell. */
export function problemReport(result: RecalculatedWorkbook): string {
  const { plans, sheetNames: names } = result;
  const failing = result.failing;
  return [
    section(
      `${failing.length} cells with an error of their own:`,
      failing.map((cell) => `${placeText(names, cell)}: ${quotedValue(cell.value)} ${cell.sentence}`),
      Infinity,
    ),
    section(
      `${plans.statuses.length} rows of plans to look at:`,
      plans.statuses.map((cell) => `${placeText(names, cell)}: ${cell.status}`),
      Infinity,
    ),
    ...plans.notReady.map((cell) => `${placeText(names, cell)}: ${cell.status}\n`),
  ].join("");
}

/** How many cells a recalculation changed. */
export function changedText(count: number): string {
  return `${count} ${count === 1 ? "cell" : "cells"} changed`;
}

/** The outcome for a person. */
export function summary({ input, result, output, previous, reading }: RecalculatedFile): string {
  const { changes, healed, uncomputed, differing, sheetNames: names } = result;
  const written = [
    `${changedText(changes.length)}, written to ${output}`,
    ...(previous === undefined ? [] : [`the file that was there is now ${previous}`]),
  ].join("\n");
  return [
    reading === undefined ? "" : `${input} was read as ${readingText(reading)}\n`,
    changes.length === 0 ? `${written}\n` : "",
    section(
      written,
      changes.map(
        (change) =>
          `${placeText(names, change)}: ${quotedValue(change.before)} -> ${quotedValue(change.value)}`,
      ),
    ),
    healed === 0 ? "" : `${healed} formulas that another program had damaged are mended\n`,
    problemReport(result),
    ...result.plans.ready.map((cell) => `${placeText(names, cell)}: ${cell.status}\n`),
    section(
      `${differing.length} cells keep their stored value, from which ours differs (--accept takes ours):`,
      differing.map(
        (cell) =>
          `${placeText(names, cell)}: stored ${quotedValue(cell.stored)}, ours ${quotedValue(cell.ours)}; ${cell.why}`,
      ),
    ),
    section(
      `${uncomputed.length} cells could not be computed and keep their stored value:`,
      uncomputed.map((cell) => `${placeText(names, cell)}: ${cell.why}`),
    ),
    section(
      `${reading?.unclear.length ?? 0} cells stay text because they can be read in two ways:`,
      (reading?.unclear ?? []).map(
        ({ cell, text, why }) => `${names[0] ?? ""}!${cell}: ${quotedValue(text)}, ${why}`,
      ),
    ),
  ].join("");
}

/** The outcome for programs. */
export function jsonOutcome({
  result,
  output,
  previous,
  reading,
}: RecalculatedFile): Readonly<Record<string, unknown>> {
  const at = (cell: CellPlace): string => placeText(result.sheetNames, cell);
  return {
    output,
    previous: previous ?? null,
    healed: result.healed,
    changed: result.changes.map((cell) => ({ cell: at(cell), before: cell.before, value: cell.value })),
    failing: result.failing.map((cell) => ({
      cell: at(cell),
      value: cell.value,
      sentence: cell.sentence,
    })),
    differing: result.differing.map((cell) => ({
      cell: at(cell),
      formula: cell.formula,
      stored: cell.stored,
      ours: cell.ours,
      why: cell.why,
    })),
    statuses: result.plans.statuses.map((cell) => ({ cell: at(cell), status: cell.status })),
    notReady: result.plans.notReady.map((cell) => ({ cell: at(cell), status: cell.status })),
    uncomputed: result.uncomputed.map((cell) => ({ cell: at(cell), formula: cell.formula, why: cell.why })),
    ...(reading === undefined ? {} : { read: reading }),
  };
}
