import { readFileSync } from "node:fs";
import { cellAddress } from "../formula/address";
import { catalogue } from "../functions/catalogue";
import { engineFunctions } from "../sheet/catalogue-functions";
import {
  type CellAnswer,
  compareEngines,
  type EngineDifference,
  type EngineMaker,
  type RightEngine,
} from "../sheet/engine-comparison";
import { UniverEngine } from "../sheet/univer-engine";
import type { WorkbookModel } from "../workbook/model";
import { type OpenWorkbook, openWorkbook } from "../workbook/read";
import { EXIT } from "./file-command";
import { interrupt } from "./interrupt";
import { quotedValue } from "./recalc-report";

const functions = engineFunctions(catalogue);

/** The engine that is used, and the one that it is held against. */
const MAKERS: Readonly<Record<"old" | "new", EngineMaker>> = {
  old: () => new UniverEngine(functions, { fast: false }),
  new: () => new UniverEngine(functions),
};

/** Milliseconds for one formula, so that a slow machine makes no differences. */
const BUDGET = 20_000;

/** Prints of every file which formulas two engines do not compute alike, and who is right where Excel computed them. */
export async function compareFiles(
  files: readonly string[],
  isOurs: (file: string) => boolean,
): Promise<number> {
  const counts = new Map<RightEngine | "different", number>();
  const time = { old: 0, new: 0 };
  let formulas = 0;
  for (const file of files) {
    const workbook = openWorkbook(new Uint8Array(readFileSync(file)));
    const found = await compareEngines(workbook.model, MAKERS, {
      isExcels: !isOurs(file) && isFromExcel(workbook),
      budget: BUDGET,
      interrupt,
      clock: processorSeconds,
    });
    formulas += found.formulas;
    time.old += found.time.old;
    time.new += found.time.new;
    if (found.differences.length > 0)
      process.stdout.write(`${found.differences.length} of ${found.formulas} in ${file}\n`);
    for (const difference of found.differences) {
      const kind = difference.right ?? "different";
      counts.set(kind, (counts.get(kind) ?? 0) + 1);
      process.stdout.write(`  ${differenceText(workbook.model, difference)}\n`);
    }
  }
  const all = [...counts.values()].reduce((sum, count) => sum + count, 0);
  const kinds = [...counts].map(([kind, count]) => `, ${KINDS[kind]} ${count}`);
  process.stdout.write(
    `${formulas} formulas in ${files.length} files: equal ${formulas - all}${kinds.join("")}; ` +
      `old ${time.old.toFixed(1)} s, new ${time.new.toFixed(1)} s of processor time\n`,
  );
  return [...counts.keys()].every((kind) => kind === "new") ? EXIT.done : EXIT.someLeft;
}

const KINDS: Readonly<Record<RightEngine | "different", string>> = {
  old: "old right",
  new: "new right",
  both: "both right to nine digits",
  neither: "neither right",
  different: "different",
};

function processorSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}

/** Our samples carry the name too, so that other programs read them as they read Excel's files. */
function isFromExcel({ parts }: OpenWorkbook): boolean {
  const part = "docProps/app.xml";
  return parts.has(part) && /<Application>Microsoft (?:Macintosh )?Excel/.test(parts.readText(part));
}

/** One difference as a line. */
export function differenceText({ sheets }: WorkbookModel, difference: EngineDifference): string {
  const { sheet, row, column, formula, edits, right, stored } = difference;
  const words = [
    `${sheets[sheet]?.name ?? ""}!${cellAddress(row, column)} =${formula}`,
    ...(edits === 0 ? [] : [`after ${edits} edits`]),
    ...(right === undefined ? [] : [KINDS[right], `stored ${quotedValue(stored ?? null)}`]),
    `old ${answerText(difference.old)}`,
    `new ${answerText(difference.new)}`,
  ];
  return words.join(" | ");
}

function answerText({ value, spilled, why, sentences, isComputed }: CellAnswer): string {
  return [
    spilled === undefined
      ? quotedValue(value)
      : `{${spilled.map((line) => line.map(quotedValue).join(",")).join(";")}}`,
    ...(why === undefined ? [] : [`(${why})`]),
    ...(isComputed ? [] : ["(not computed in this run)"]),
    ...(sentences ?? []).map(({ sentence }) => `"${sentence}"`),
  ].join(" ");
}
