import { WorkbookError } from "../workbook/model";
import { besides, isSameFile } from "./write-file";

/** Exit codes of the commands that work on files. */
export const EXIT = { done: 0, someLeft: 1, failed: 2 } as const;

/** Why a command cannot do what it was asked; the message is a sentence. */
export class CommandError extends Error {}

/** What a command is asked: a file to read, a file to write and options. */
export interface FileRequest {
  readonly input: string;
  readonly output: string;
  readonly options: ReadonlySet<string>;
}

/**
 * Reads a command line of `IN [OUT] [--option ...]`. Without OUT the result goes beside IN as `name (word)`; IN itself is
 * never written over.
 */
export function fileRequest(
  args: readonly string[],
  usage: string,
  wordOf: (options: ReadonlySet<string>) => string,
  known: readonly string[],
): FileRequest {
  const options = new Set(args.filter((argument) => argument.startsWith("--")));
  const unknown = [...options].find((option) => !known.includes(option));
  if (unknown !== undefined) throw new CommandError(`the option ${unknown} is not known; ${usage}`);
  const [input, output, ...more] = args.filter((argument) => !argument.startsWith("--"));
  if (input === undefined || more.length > 0) throw new CommandError(usage);
  const target = output ?? besides(input, wordOf(options));
  if (isSameFile(input, target)) {
    throw new CommandError("OUT.xlsx must be another file than IN.xlsx, which is never written over");
  }
  return { input, output: target, options };
}

/** Runs a command; says in a sentence why it could not, with exit code 2. */
export async function exitCodeOf(run: () => Promise<number> | number, failing: string): Promise<number> {
  try {
    return await run();
  } catch (error) {
    const isSaid = error instanceof CommandError || error instanceof WorkbookError;
    const code = (error as NodeJS.ErrnoException).code;
    const reason =
      code === "ENOENT" ? "there is no such file" : error instanceof Error ? error.message : String(error);
    process.stderr.write(isSaid ? `${reason}\n` : `${failing}: ${reason}\n`);
    return EXIT.failed;
  }
}
