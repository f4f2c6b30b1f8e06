import { readFileSync } from "node:fs";
import { engineFunctions } from "../sheet/catalogue-functions";
import type { CellPlace } from "../sheet/engine";
import { recalculateWorkbook, type RecalculatedWorkbook } from "../sheet/recalculate";
import { catalogue } from "../functions/catalogue";
import { cellAddress } from "../formula/address";
import type { CellValue } from "../workbook/model";
import { EXIT, exitCodeOf, fileRequest, type FileRequest } from "./file-command";
import { writeWhole } from "./write-file";

const USAGE = "usage: npm run recalc -- IN.xlsx [OUT.xlsx] [--json]";
const MOST_LISTED = 20;

function placeText(names: readonly string[], { sheet, row, column }: CellPlace): string {
  return `${names[sheet] ?? ""}!${cellAddress(row, column)}`;
}

function valueText(value: CellValue): string {
  if (value === null) return "empty";
  if (typeof value === "object") return value.error;
  return typeof value === "string"
    ? `"${value.length > 60 ? `${value.slice(0, 60)}…` : value}"`
    : String(value);
}

function listed(lines: readonly string[]): string {
  const more = lines.length - MOST_LISTED;
  return [...lines.slice(0, MOST_LISTED), ...(more > 0 ? [`and ${more} more`] : [])]
    .map((line) => `  ${line}\n`)
    .join("");
}

/** The outcome for a person. */
function summary(result: RecalculatedWorkbook, output: string, previous: string | undefined): string {
  const { changes, uncomputed, failing, sheetNames: names } = result;
  const parts = [
    `${changes.length} cells changed, written to ${output}\n`,
    previous === undefined ? "" : `the file that was there is now ${previous}\n`,
    listed(
      changes.map(
        (change) => `${placeText(names, change)}: ${valueText(change.before)} -> ${valueText(change.value)}`,
      ),
    ),
  ];
  if (failing.length > 0) {
    parts.push(`${failing.length} cells with an error of their own:\n`);
    parts.push(
      listed(
        failing.map((cell) => `${placeText(names, cell)}: ${valueText(cell.value)} ${cell.sentence ?? ""}`),
      ),
    );
  }
  if (uncomputed.length > 0) {
    parts.push(`${uncomputed.length} cells could not be computed and keep their stored value:\n`);
    parts.push(listed(uncomputed.map((cell) => `${placeText(names, cell)}: ${cell.why}`)));
  }
  return parts.join("");
}

/** The outcome for programs. */
function jsonSummary(result: RecalculatedWorkbook, output: string, previous: string | undefined): string {
  const at = (cell: CellPlace): string => placeText(result.sheetNames, cell);
  return `${JSON.stringify(
    {
      output,
      previous: previous ?? null,
      changed: result.changes.map((cell) => ({ cell: at(cell), before: cell.before, value: cell.value })),
      failing: result.failing.map((cell) => ({
        cell: at(cell),
        value: cell.value,
        sentence: cell.sentence ?? "",
      })),
      uncomputed: result.uncomputed.map((cell) => ({ cell: at(cell), formula: cell.formula, why: cell.why })),
    },
    null,
    2,
  )}\n`;
}

function progressLine(): (share: number) => void {
  let last = -1;
  const isTerminal = process.stderr.isTTY;
  return (share) => {
    const percent = Math.floor(share * 100);
    if (percent < last + (isTerminal ? 1 : 10)) return;
    last = percent;
    process.stderr.write(
      isTerminal ? `\rcomputing ${percent} %${percent === 100 ? "\n" : ""}` : `computing ${percent} %\n`,
    );
  };
}

async function recalculateFile({ input, output, options }: FileRequest): Promise<number> {
  const bytes = new Uint8Array(readFileSync(input));
  const result = await recalculateWorkbook(bytes, engineFunctions(catalogue), { onProgress: progressLine() });
  const previous = writeWhole(output, result.bytes);
  process.stdout.write((options.has("--json") ? jsonSummary : summary)(result, output, previous));
  return result.uncomputed.length > 0 ? EXIT.someLeft : EXIT.done;
}

const args = process.argv.slice(2);

// Exit code 0, 1 where cells could not be computed, 2 where it could not run.
process.exitCode = await exitCodeOf(
  () => recalculateFile(fileRequest(args, USAGE, () => "recalculated", ["--json"])),
  "could not recalculate",
);
