import { formulaWriting } from "../sheet/formula-writing";
import { partnerCopy, putFormulasBack } from "../workbook/partner-copy";
import {
  asksHelp,
  type CommandLine,
  commandLine,
  EXIT,
  exitCodeOf,
  fileRequest,
  readInput,
} from "./file-command";
import { CommandError } from "./file-fault";
import { writeWhole } from "./write-file";

const PUT_BACK = "--put-back";
const USAGE = `usage: npm run share -- IN.xlsx [OUT.xlsx] [${PUT_BACK}]`;
const HELP = `${USAGE}

IN.xlsx      the workbook; it is never written, moved or removed
OUT.xlsx     where the copy goes, else "IN (partner copy).xlsx"; what is there already is kept beside it
${PUT_BACK}   puts the formulas of a partner copy back, else into "IN (with formulas).xlsx"

The exit code is 0, or 1 where formulas stay values, or 2 where the copy could not be made.
`;

function write(output: string, bytes: Uint8Array, mode: number): void {
  const previous = writeWhole(output, bytes, mode);
  if (previous !== undefined) process.stdout.write(`the file that was there is now ${previous}\n`);
}

function share(line: CommandLine): number {
  if (asksHelp(line)) {
    process.stdout.write(HELP);
    return EXIT.done;
  }
  const [from, to, ...more] = line.files;
  if (from === undefined || more.length > 0) throw new CommandError(USAGE);
  const isBack = line.options.has(PUT_BACK);
  const word = isBack ? "with formulas" : "partner copy";
  const { input, output } = fileRequest(from, to, word);
  const { bytes, mode } = readInput(input);
  if (!isBack) {
    const copy = partnerCopy(bytes, formulaWriting, new Date().toISOString());
    write(output, copy.bytes, mode);
    process.stdout.write(
      `${copy.formulas} formulas are values in ${output}, each kept on a sheet of its own\n`,
    );
    return EXIT.done;
  }
  const back = putFormulasBack(bytes, formulaWriting);
  write(output, back.bytes, mode);
  process.stdout.write(`${back.formulas} formulas are back in ${output}\n`);
  if (back.left.length > 0)
    process.stdout.write(`${back.left.length} stay values, their cells were changed\n`);
  return back.left.length > 0 ? EXIT.someLeft : EXIT.done;
}

process.exitCode = await exitCodeOf(
  () => share(commandLine(process.argv.slice(2), USAGE, [PUT_BACK])),
  "could not make the copy",
);
