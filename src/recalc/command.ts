import { basename } from "node:path";
import { engineFunctions } from "../sheet/catalogue-functions";
import { recalculateWorkbook, type RecalculatedWorkbook } from "../sheet/recalculate";
import { catalogue } from "../functions/catalogue";
import { isTextTable, textWorkbook } from "../workbook/text-workbook";
import {
  asksHelp,
  type CommandLine,
  commandLine,
  EXIT,
  exitCodeOf,
  failureText,
  fileRequest,
  readInput,
} from "./file-command";
import { CommandError } from "./file-fault";
import { interrupt } from "./interrupt";
import { compressNatively } from "./native-compression";
import { areInputs, checkApart, inputFiles } from "./recalc-inputs";
import { isUnfit, jsonOutcome, type RecalculatedFile, summary } from "./recalc-report";
import { writeWhole } from "./write-file";

const USAGE =
  "usage: npm run recalc -- IN.xlsx [OUT.xlsx] [--accept] [--json], or more files or a folder with --each";
const HELP = `${USAGE}

IN.xlsx    the workbook to recalculate; it is never written, moved or removed. A .csv or .tsv becomes a workbook
OUT.xlsx   where the result goes, else "IN (recalculated).xlsx"; what is there already is kept beside it
--each     every file named is to be recalculated; so it is with a folder, or more than two files
--accept   takes our values where stored ones would stand, because a function is not known to agree with Excel or
           nothing explains an error
--seconds=2    seconds that one formula may take before it keeps its value
--json     the outcome for programs (npm run --silent recalc -- ... leaves out the lines of npm)

The exit code is 0, or 1 where cells could not be computed or read or differ, a cell of these functions holds an error or a
READY_PLAN says not ready, or 2 where a file could not be recalculated.
`;
const FAILING = "could not recalculate";

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

async function recalculateFile(
  input: string,
  output: string | undefined,
  inputs: readonly string[],
  options: ReadonlySet<string>,
): Promise<RecalculatedFile> {
  const request = fileRequest(input, output, "recalculated");
  checkApart(request.output, inputs);
  const { bytes, mode } = readInput(input);
  const text = isTextTable(input, bytes)
    ? textWorkbook(bytes, basename(input), new Date().toISOString())
    : undefined;
  const result =
    text === undefined
      ? await recalculateWorkbook(bytes, engineFunctions(catalogue), {
          onProgress: progressLine(),
          interrupt,
          budget: budgetOf(options),
          differences: options.has("--accept") ? "accept" : "keep",
        })
      : withoutFormulas(text.bytes, text.reading.sheet);
  const previous = writeWhole(request.output, result.bytes, mode);
  const file = { input, output: request.output, previous, result };
  return text === undefined ? file : { ...file, reading: text.reading };
}

// Text becomes no formula, so nothing is to be computed.
function withoutFormulas(bytes: Uint8Array, sheet: string): RecalculatedWorkbook {
  return {
    bytes,
    sheetNames: [sheet],
    changes: [],
    uncomputed: [],
    differing: [],
    failing: [],
    plans: { statuses: [], notReady: [], ready: [] },
    healed: 0,
  };
}

/** Milliseconds that one formula may take. */
function budgetOf(options: ReadonlySet<string>): number {
  const asked = [...options].find((option) => option.startsWith("--seconds="));
  const seconds = asked === undefined ? 2 : Number(asked.slice("--seconds=".length));
  if (!(seconds >= 0.001 && seconds <= 86_400)) {
    throw new CommandError(`seconds must be a number from 0.001 to 86400, found ${asked ?? ""}`);
  }
  return seconds * 1000;
}

function exitCode({ result, reading }: RecalculatedFile): number {
  const left = result.uncomputed.length + result.differing.length + (reading?.unclear.length ?? 0);
  return left > 0 || isUnfit(result) ? EXIT.someLeft : EXIT.done;
}

function print(outcome: unknown): void {
  process.stdout.write(`${JSON.stringify(outcome, null, 2)}\n`);
}

async function recalculateOne(line: CommandLine): Promise<number> {
  const [input, output] = line.files;
  if (input === undefined) throw new CommandError(USAGE);
  const file = await recalculateFile(input, output, [input], line.options);
  if (line.options.has("--json")) print(jsonOutcome(file));
  else process.stdout.write(summary(file));
  return exitCode(file);
}

// One file that fails never costs the others.
async function recalculateEach(line: CommandLine): Promise<number> {
  const inputs = inputFiles(line.files);
  const outcomes: unknown[] = [];
  let worst: number = EXIT.done;
  for (const input of inputs) {
    try {
      const file = await recalculateFile(input, undefined, inputs, line.options);
      worst = Math.max(worst, exitCode(file));
      if (line.options.has("--json")) outcomes.push({ input, ...jsonOutcome(file) });
      else process.stdout.write(summary(file));
    } catch (error) {
      const sentence = failureText(error, FAILING);
      worst = EXIT.failed;
      outcomes.push({ input, error: sentence });
      process.stderr.write(`${input}: ${sentence}\n`);
    }
  }
  if (line.options.has("--json")) print(outcomes);
  return worst;
}

function recalculate(line: CommandLine): Promise<number> | number {
  if (asksHelp(line)) {
    process.stdout.write(HELP);
    return EXIT.done;
  }
  const isEach = line.files.length > 0 && (line.options.has("--each") || areInputs(line.files));
  return (isEach ? recalculateEach : recalculateOne)(line);
}

const args = process.argv.slice(2);

compressNatively();
process.exitCode = await exitCodeOf(
  () => recalculate(commandLine(args, USAGE, ["--json", "--each", "--accept", "--seconds="])),
  FAILING,
);
