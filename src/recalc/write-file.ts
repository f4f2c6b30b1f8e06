import {
  closeSync,
  copyFileSync,
  fsyncSync,
  linkSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { dirname, extname, join, basename, resolve } from "node:path";

/** `name (word).xlsx` beside a file. */
export function besides(file: string, word: string): string {
  const extension = extname(file);
  return join(dirname(file), `${basename(file, extension)} (${word})${extension}`);
}

function isThere(file: string): boolean {
  return statSync(file, { throwIfNoEntry: false }) !== undefined;
}

/** True where both paths name one file. */
export function isSameFile(one: string, other: string): boolean {
  if (resolve(one) === resolve(other)) return true;
  const first = statSync(one, { throwIfNoEntry: false });
  const second = statSync(other, { throwIfNoEntry: false });
  return first !== undefined && second !== undefined && first.ino === second.ino && first.dev === second.dev;
}

// A second name for the old file, so that at no moment the file itself is missing.
function keepBeside(file: string, previous: string): void {
  rmSync(previous, { force: true });
  try {
    linkSync(file, previous);
  } catch {
    copyFileSync(file, previous);
  }
}

/**
 * Writes a file whole or not at all: into a temporary file beside it, then by renaming. A file that was there before is
 * kept as `name (previous)`.
 *
 * @returns where the former file went, if there was one
 */
export function writeWhole(file: string, bytes: Uint8Array): string | undefined {
  const temporary = join(dirname(file), `.${basename(file)}.${process.pid}.part`);
  try {
    const handle = openSync(temporary, "w");
    try {
      writeFileSync(handle, bytes);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    const previous = isThere(file) ? besides(file, "previous") : undefined;
    if (previous !== undefined) keepBeside(file, previous);
    renameSync(temporary, file);
    return previous;
  } catch (error) {
    rmSync(temporary, { force: true });
    throw error;
  }
}
