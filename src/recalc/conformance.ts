import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { byFunction, conformanceOf, type FileConformance } from "../sheet/conformance";
import { conformanceSource } from "../sheet/conformance-source";
import { cellAddress } from "../formula/address";
import { openWorkbook } from "../workbook/read";
import { compareFiles } from "./compare-engines";
import { commandLine, EXIT, exitCodeOf } from "./file-command";
import { CommandError } from "./file-fault";
import { interrupt } from "./interrupt";
import { quotedValue } from "./recalc-report";

const USAGE =
  "usage: npm run conformance -- FOLDER [--list] [--write], or npm run conformance -- --against [FOLDER ...]";
const SAMPLES = "sample-workbooks";
const TABLE = "src/sheet/conformance-table.ts";

function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".xlsx"))
    .map((name) => join(folder, name))
    .sort();
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

function shareOf({ formulas, deviations }: FileConformance): number {
  return formulas === 0 ? 1 : 1 - deviations.length / formulas;
}

async function conformance(folder: string, options: ReadonlySet<string>): Promise<number> {
  const evidence: FileConformance["evidence"][number][] = [];
  const shares: number[] = [];
  for (const file of filesBelow(folder)) {
    const { model } = openWorkbook(new Uint8Array(readFileSync(file)));
    const found = await conformanceOf(model, { interrupt });
    evidence.push(...found.evidence);
    shares.push(shareOf(found));
    if (found.deviations.length === 0) continue;
    process.stdout.write(`${percent(shareOf(found))} of ${found.formulas} in ${relative(folder, file)}\n`);
    if (!options.has("--list")) continue;
    for (const { sheet, row, column, formula, stored, ours, why } of found.deviations) {
      const place = `${model.sheets[sheet]?.name ?? ""}!${cellAddress(row, column)}`;
      const found = why ?? quotedValue(ours);
      process.stdout.write(`  ${place} =${formula}: stored ${quotedValue(stored)}, ours ${found}\n`);
    }
  }
  if (shares.length === 0) throw new CommandError(`${folder} holds no .xlsx file`);
  const table = byFunction(evidence);
  const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
  for (const [name, { equal, different, left }] of table) {
    if (different + left > 0)
      process.stdout.write(`${name}: ${equal} equal, ${different} different, ${left} left\n`);
  }
  process.stdout.write(`${percent(mean)} by file, ${shares.length} files, ${table.size} functions\n`);
  if (options.has("--write")) writeFileSync(TABLE, conformanceSource(table, mean, shares.length));
  return EXIT.done;
}

process.exitCode = await exitCodeOf(() => {
  const { files, options } = commandLine(process.argv.slice(2), USAGE, ["--list", "--write", "--against"]);
  if (options.has("--against")) {
    const ours = filesBelow(SAMPLES);
    return compareFiles([...ours, ...files.flatMap(filesBelow)], (file) => ours.includes(file));
  }
  const [folder, ...more] = files;
  if (folder === undefined || more.length > 0) throw new CommandError(USAGE);
  return conformance(folder, options);
}, "could not compare");
