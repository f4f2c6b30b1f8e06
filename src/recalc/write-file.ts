import { createHash } from "node:crypto";
import {
  type BigIntStats,
  type Stats,
  closeSync,
  constants,
  copyFileSync,
  fchmodSync,
  fsyncSync,
  linkSync,
  lstatSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { hostname } from "node:os";
import { basename, dirname, extname, join, resolve } from "node:path";
import { CommandError, fileFault } from "./file-fault";

/** `name (word).xlsx` beside a file, with its own extension or another. */
export function besides(file: string, word: string, ending?: string): string {
  const extension = extname(file);
  return join(dirname(file), `${basename(file, extension)} (${word})${ending ?? extension}`);
}

/** What stands at a path, links followed; undefined where nothing can be found, of which reading or writing tells the reason. */
export function statsAt(path: string): BigIntStats | undefined {
  try {
    return statSync(path, { bigint: true });
  } catch {
    return undefined;
  }
}

/** True where both paths name one file. */
export function isSameFile(one: string, other: string): boolean {
  if (resolve(one) === resolve(other)) return true;
  const [first, second] = [one, other].map(statsAt);
  return first !== undefined && second !== undefined && first.ino === second.ino && first.dev === second.dev;
}

function standsAt(file: string): Stats | undefined {
  try {
    return lstatSync(file, { throwIfNoEntry: false });
  } catch (error) {
    throw fileFault(error, file, "written");
  }
}

/**
 * Throws CommandError where `file` is something that a whole new file cannot take the place of: a folder, a link to
 * another file, a device.
 */
export function checkTarget(file: string): void {
  const stats = standsAt(file);
  if (stats === undefined || stats.isFile()) return;
  if (stats.isDirectory()) throw fileFault({ code: "EISDIR" }, file, "written");
  const what = stats.isSymbolicLink() ? "a link to another place" : "a device, not a file";
  throw new CommandError(`${file} cannot be written: it is ${what}; name a file`);
}

/** The moment as file names tell it, in the time of the place: `2026-11-26 09.30.05`. */
function moment(date: Date): string {
  const two = (number: number): string => String(number).padStart(2, "0");
  const day = [date.getFullYear(), two(date.getMonth() + 1), two(date.getDate())].join("-");
  return `${day} ${[date.getHours(), date.getMinutes(), date.getSeconds()].map(two).join(".")}`;
}

function isTaken(error: unknown): boolean {
  return (error as NodeJS.ErrnoException).code === "EEXIST";
}

/** Gives a file a second name, which no file may have yet; a copy where the disk knows no second names. */
function secondName(file: string, name: string): void {
  try {
    linkSync(file, name);
  } catch (unlinked) {
    if (isTaken(unlinked)) throw unlinked;
    try {
      copyFileSync(file, name, constants.COPYFILE_EXCL);
    } catch (error) {
      if (!isTaken(error)) rmSync(name, { force: true });
      throw error;
    }
  }
}

// A second name for the old file, so that at no moment the file itself is missing.
function keepBeside(file: string, now: Date): string {
  for (let turn = 1; ; turn++) {
    const previous = besides(file, `previous ${moment(now)}${turn > 1 ? ` ${turn}` : ""}`);
    try {
      secondName(file, previous);
      return previous;
    } catch (error) {
      if (!isTaken(error)) throw error;
    }
  }
}

const digest = (text: string): string => createHash("sha256").update(text).digest("hex").slice(0, 8);

// This machine's and process's own, and short whatever the length of the name.
const PART_START = `.balloon-decor-${digest(hostname())}-`;
const PART = /^\.balloon-decor-[0-9a-f]{8}-(\d+)-[0-9a-f]{8}\.part$/;

function partOf(file: string): string {
  return join(dirname(file), `${PART_START}${process.pid}-${digest(basename(file))}.part`);
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== "ESRCH";
  }
}

/** Removes what killed runs of these commands on this machine left half written in a folder. */
function removeLeftParts(folder: string): void {
  try {
    for (const name of readdirSync(folder)) {
      const pid = name.startsWith(PART_START) ? PART.exec(name)?.[1] : undefined;
      if (pid !== undefined && !isRunning(Number(pid))) rmSync(join(folder, name), { force: true });
    }
  } catch {
    // A folder that can be written but not listed.
  }
}

// Nothing else runs while a file is written, so a signal waits until it is whole.
function withoutInterruption<T>(run: () => T): T {
  const wait = (): void => undefined;
  const signals = ["SIGINT", "SIGTERM", "SIGHUP"] as const;
  for (const signal of signals) process.on(signal, wait);
  try {
    return run();
  } finally {
    for (const signal of signals) process.removeListener(signal, wait);
  }
}

function writePart(part: string, bytes: Uint8Array, mode: number | undefined): void {
  const handle = openSync(part, "wx", mode === undefined ? 0o666 : 0o600);
  try {
    writeFileSync(handle, bytes);
    if (mode !== undefined) fchmodSync(handle, mode);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Puts a part in its place; what was there is kept. */
function putInPlace(part: string, file: string, now: Date): string | undefined {
  for (;;) {
    checkTarget(file);
    if (standsAt(file) !== undefined) {
      const previous = keepBeside(file, now);
      renameSync(part, file);
      return previous;
    }
    try {
      linkSync(part, file);
      return undefined;
    } catch (error) {
      // Somebody else made it meanwhile.
      if (isTaken(error)) continue;
      renameSync(part, file);
      return undefined;
    }
  }
}

/**
 * Writes a file whole or not at all: into a temporary file beside it, then by renaming. A file that was there before is
 * kept as `name (previous DATE TIME)`, a name that no other file has. Throws CommandError where it cannot.
 *
 * @param mode the new file's permissions, such as those of the file it comes from
 * @returns where the former file went, if there was one
 */
export function writeWhole(file: string, bytes: Uint8Array, mode?: number): string | undefined {
  const part = partOf(file);
  try {
    checkTarget(file);
    removeLeftParts(dirname(file));
    return withoutInterruption(() => {
      try {
        rmSync(part, { force: true });
        writePart(part, bytes, mode);
        return putInPlace(part, file, new Date());
      } finally {
        rmSync(part, { force: true });
      }
    });
  } catch (error) {
    throw fileFault(error, file, "written");
  }
}
