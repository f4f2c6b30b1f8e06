import { labelOf } from "../formula/scope";
import { partnerCopy, putFormulasBack } from "../partner/file-copy";
import type { LeftCell } from "../partner/rule";
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
import { compressNatively } from "./native-compression";
import { writeWhole } from "./write-file";

const PUT_BACK = "--put-back";
const MOST_LISTED = 20;
const USAGE = `usage: npm run share -- IN.xlsx [OUT.xlsx] [${PUT_BACK}]`;
const HELP = `${USAGE}

IN.xlsx      the workbook; it is never written, moved or removed
OUT.xlsx     where the copy goes, else "IN (partner copy).xlsx"; what is there already is kept beside it
${PUT_BACK}   puts the formulas of a partner copy back, else into "IN (with formulas).xlsx"

The exit code is 0, or 1 where cells stay as they are, or 2 where the copy could not be made.
`;

function write(output: string, bytes: Uint8Array, mode: number): void {
  const previous = writeWhole(output, bytes, mode);
  if (previous !== undefined) process.stdout.write(`the file that was there is now ${previous}\n`);
}

/** The cells that stay as they are, each with the reason. */
function listed(left: readonly LeftCell[], what: string): string {
  if (left.length === 0) return "";
  const lines = left.slice(0, MOST_LISTED).map((cell) => `  ${labelOf(cell)}: ${cell.why}\n`);
  const more = left.length - MOST_LISTED;
  return `${left.length} ${what}:\n${lines.join("")}${more > 0 ? `  and ${more} more\n` : ""}`;
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
    const copy = partnerCopy(bytes, new Date().toISOString());
    write(output, copy.bytes, mode);
    process.stdout.write(
      `${copy.formulas} formulas are values in ${output}, each kept on a sheet of its own\n${listed(copy.left, "stay formulas")}`,
    );
    return copy.left.length > 0 ? EXIT.someLeft : EXIT.done;
  }
  const back = putFormulasBack(bytes);
  write(output, back.bytes, mode);
  process.stdout.write(`${back.formulas} formulas are back in ${output}\n`);
  if (back.healed > 0)
    process.stdout.write(`${back.healed} formulas damaged by another program were mended\n`);
  process.stdout.write(listed(back.left, "stay values"));
  return back.left.length > 0 ? EXIT.someLeft : EXIT.done;
}

compressNatively();
process.exitCode = await exitCodeOf(
  () => share(commandLine(process.argv.slice(2), USAGE, [PUT_BACK])),
  "could not make the copy",
);
