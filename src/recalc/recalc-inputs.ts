import { readdirSync } from "node:fs";
import { join } from "node:path";
import { CommandError, fileFault } from "./file-fault";
import { isSameFile, statsAt } from "./write-file";

const WORKBOOK = /\.xls[xm]$/i;
/** Files that an office program keeps beside an open workbook, and what earlier runs made. */
const NOT_AN_INPUT = /^(?:~\$|\.)| \((?:recalculated|partner copy|previous [^)]*)\)\.[^.]+$/i;

function isFolder(path: string): boolean {
  return statsAt(path)?.isDirectory() === true;
}

function workbooksIn(folder: string): readonly string[] {
  let names: readonly string[];
  try {
    names = readdirSync(folder);
  } catch (error) {
    throw fileFault(error, folder, "read");
  }
  const files = names.filter((name) => WORKBOOK.test(name) && !NOT_AN_INPUT.test(name)).sort();
  if (files.length === 0)
    throw new CommandError(`there is no workbook to recalculate in the folder ${folder}`);
  return files.map((name) => join(folder, name)).filter((path) => !isFolder(path));
}

/** Whether the files named are all to be read: a folder, or more of them than an input and an output. */
export function areInputs(paths: readonly string[]): boolean {
  return paths.length > 2 || paths.some(isFolder);
}

/** The files to read, each once: a folder stands for the workbooks in it. Throws CommandError for a folder without any. */
export function inputFiles(paths: readonly string[]): readonly string[] {
  return [...new Set(paths.flatMap((path) => (isFolder(path) ? workbooksIn(path) : [path])))];
}

/** Throws CommandError where a result would take the place of one of the inputs. */
export function checkApart(output: string, inputs: readonly string[]): void {
  if (inputs.some((input) => isSameFile(input, output))) {
    throw new CommandError(`${output} is itself to be recalculated, so nothing is written there`);
  }
}
