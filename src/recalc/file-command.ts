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

/** Endings of workbooks; Excel refuses a file whose ending says another kind than its content. */
const WORKBOOK_ENDING = /\.xl[st][xm]$/i;

const HELP: readonly string[] = ["--help", "-h"];

/**
 * Cuts a command line into files and options. Throws CommandError for an option that is not known, or with a value where it
 * takes none.
 *
 * @param known options; one that takes a value ends in `=`
 */
export function commandLine(args: readonly string[], usage: string, known: readonly string[]): CommandLine {
  const isOption = (argument: string): boolean => argument.startsWith("--") || /^-[a-z]$/i.test(argument);
  const options = args.filter(isOption);
  for (const option of options) {
    const fault = optionFault(option, [...known, ...HELP]);
    if (fault !== undefined) throw new CommandError(`the option ${option} ${fault}; ${usage}`);
  }
  return { files: args.filter((argument) => !isOption(argument)), options: new Set(options) };
}

function optionFault(option: string, known: readonly string[]): string | undefined {
  const [name = "", ...value] = option.split("=");
  const isGiven = value.length > 0;
  if (known.includes(isGiven ? `${name}=` : name)) return undefined;
  if (known.includes(`${name}=`)) return `must have its value behind it, ${name}=VALUE`;
  return known.includes(name) ? "must have no value" : "is not known";
}

/** Whether the person asks what a command does. */
export function asksHelp({ options }: CommandLine): boolean {
  return HELP.some((option) => options.has(option));
}

/**
 * A file to read and where its result goes: without `output` beside it as `name (word)`. The input itself is never
 * written over. Throws CommandError where the input cannot be one, or the output.
 */
export function fileRequest(input: string, output: string | undefined, word: string): FileRequest {
  modeOf(input);
  const ending = WORKBOOK_ENDING.exec(input)?.[0] ?? ".xlsx";
  const target = output ?? besides(input, word, ending);
  if (!target.toLowerCase().endsWith(ending.toLowerCase()))
    throw new CommandError(`OUT.xlsx must be a name that ends in ${ending}, found ${target}`);
  if (isSameFile(input, target)) {
    throw new CommandError("OUT.xlsx must be another file than IN.xlsx, which is never written over");
  }
  checkTarget(target);
  return { input, output: target };
}

/** The permissions of a file that can be read as one. Throws CommandError for what is none. */
function modeOf(file: string): number {
  try {
    const stats = statSync(file);
    if (stats.isDirectory()) throw fileFault({ code: "EISDIR" }, file, "read");
    if (!stats.isFile()) throw new CommandError(`${file} cannot be read: it is a device, not a file`);
    if (stats.size > MAX_INPUT) throw new CommandError(`${file} cannot be read: it is larger than 400 MB`);
    return stats.mode & 0o777;
  } catch (error) {
    throw fileFault(error, file, "read");
  }
}

/** Reads a file. Throws CommandError where it cannot be read. */
export function readInput(file: string): InputFile {
  const mode = modeOf(file);
  try {
    return { bytes: new Uint8Array(readFileSync(file)), mode };
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
