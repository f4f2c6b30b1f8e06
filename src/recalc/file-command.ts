import { readFileSync, statSync } from "node:fs";
import { WorkbookError } from "../workbook/model";
import { CommandError, fileFault } from "./file-fault";
import { besides, checkTarget, isSameFile } from "./write-file";

/** Exit codes of the commands that work on files. */
export const EXIT = { done: 0, someLeft: 1, failed: 2 } as const;

/** A file as it was read, with the permissions that what is made of it takes over. */
export interface InputFile {
  readonly bytes: Uint8Array;
  readonly mode: number;
}

/** A file to read and a file to write. */
export interface FileRequest {
  readonly input: string;
  readonly output: string;
}

/** What can be said on a command line. */
export interface CommandLine {
  readonly files: readonly string[];
  readonly options: ReadonlySet<string>;
}

/** Longer files hold more than can be opened, whatever they are. */
const MAX_INPUT = 400 * 2 ** 20;

/** Names of files that may be read but are not what is written. */
const OTHER_FILE = /\.(?:csv|tsv|tab|txt|ods|xls|xlsb)$/i;

const HELP: readonly string[] = ["--help", "-h"];

/** Cuts a command line into files and options. Throws CommandError for an option that is not known. */
export function commandLine(args: readonly string[], usage: string, known: readonly string[]): CommandLine {
  const isOption = (argument: string): boolean => argument.startsWith("--") || HELP.includes(argument);
  const options = new Set(args.filter(isOption));
  const unknown = [...options].find(
    (option) => !known.includes(option.replace(/=.*/s, "")) && !HELP.includes(option),
  );
  if (unknown !== undefined) throw new CommandError(`the option ${unknown} is not known; ${usage}`);
  return { files: args.filter((argument) => !isOption(argument)), options };
}

/** Whether the person asks what a command does. */
export function asksHelp({ options }: CommandLine): boolean {
  return HELP.some((option) => options.has(option));
}

/**
 * A file to read and where its result goes: without `output` beside it as `name (word)`. The input itself is never
 * written over. Throws CommandError where the output cannot be one.
 */
export function fileRequest(input: string, output: string | undefined, word: string): FileRequest {
  const target = output ?? besides(input, word, OTHER_FILE.test(input) ? ".xlsx" : undefined);
  if (OTHER_FILE.test(target))
    throw new CommandError(`OUT.xlsx must be a name that ends in .xlsx, found ${target}`);
  if (isSameFile(input, target)) {
    throw new CommandError("OUT.xlsx must be another file than IN.xlsx, which is never written over");
  }
  checkTarget(target);
  return { input, output: target };
}

/** Reads a file. Throws CommandError where it cannot be read. */
export function readInput(file: string): InputFile {
  try {
    const stats = statSync(file);
    if (!stats.isFile() && !stats.isDirectory()) {
      throw new CommandError(`${file} cannot be read: it is a device, not a file`);
    }
    if (stats.size > MAX_INPUT) throw new CommandError(`${file} cannot be read: it is larger than 400 MB`);
    return { bytes: new Uint8Array(readFileSync(file)), mode: stats.mode & 0o777 };
  } catch (error) {
    throw fileFault(error, file, "read");
  }
}

/** The sentence for why a command failed. */
export function failureText(error: unknown, failing: string): string {
  const reason = error instanceof Error ? error.message : String(error);
  return error instanceof CommandError || error instanceof WorkbookError ? reason : `${failing}: ${reason}`;
}

/** Runs a command; says in a sentence why it could not, with exit code 2. */
export async function exitCodeOf(run: () => Promise<number> | number, failing: string): Promise<number> {
  try {
    return await run();
  } catch (error) {
    process.stderr.write(`${failureText(error, failing)}\n`);
    return EXIT.failed;
  }
}
