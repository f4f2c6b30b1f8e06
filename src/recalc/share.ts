import { readFileSync } from "node:fs";
import { formulaWriting } from "../sheet/formula-writing";
import { partnerCopy, putFormulasBack } from "../workbook/partner-copy";
import { EXIT, exitCodeOf, fileRequest, type FileRequest } from "./file-command";
import { writeWhole } from "./write-file";

const PUT_BACK = "--put-back";
const USAGE = `usage: npm run share -- IN.xlsx [OUT.xlsx] [${PUT_BACK}]`;

function write(output: string, bytes: Uint8Array): void {
  const previous = writeWhole(output, bytes);
  if (previous !== undefined) process.stdout.write(`the file that was there is now ${previous}\n`);
}

function share({ input, output, options }: FileRequest): number {
  const bytes = new Uint8Array(readFileSync(input));
  if (!options.has(PUT_BACK)) {
    const copy = partnerCopy(bytes, formulaWriting, new Date().toISOString());
    write(output, copy.bytes);
    process.stdout.write(
      `${copy.formulas} formulas are values in ${output}, each kept on a sheet of its own\n`,
    );
    return EXIT.done;
  }
  const back = putFormulasBack(bytes, formulaWriting);
  write(output, back.bytes);
  process.stdout.write(`${back.formulas} formulas are back in ${output}\n`);
  if (back.left.length > 0)
    process.stdout.write(`${back.left.length} stay values, their cells were changed\n`);
  return back.left.length > 0 ? EXIT.someLeft : EXIT.done;
}

const args = process.argv.slice(2);
const wordOf = (options: ReadonlySet<string>): string =>
  options.has(PUT_BACK) ? "with formulas" : "partner copy";

// Exit code 0, 1 where formulas stay values, 2 where it could not run.
process.exitCode = await exitCodeOf(
  () => share(fileRequest(args, USAGE, wordOf, [PUT_BACK])),
  "could not make the copy",
);
