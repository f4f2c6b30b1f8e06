import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { afterAll, beforeAll, expect, it } from "vitest";
import { ENGINE_CORRECTIONS } from "../../src/sheet/univer-corrections";
import type { CorrectionAnswer, CorrectionQuestion } from "./engine-correction-process";

interface Case {
  readonly cells?: CorrectionQuestion["cells"];
  readonly formulas: readonly string[];
  /** What the last formula gives, cell by cell. */
  readonly gives: readonly unknown[];
  /** At least how many times the work of a formula it takes without the correction, where only that differs. */
  readonly work?: number;
}

const LIST = Object.fromEntries(
  Array.from({ length: 3000 }, (_, row) => [`A${String(row + 1)}`, row + 1] as const),
);

/** For each correction of the whole engine a case that fails without it. */
const CASES: Readonly<Record<string, Case>> = {
  // A text is never equal to a number in Excel; the first formula makes the index that the second would look into.
  "value index": {
    cells: { A1: 5, A2: 10, A3: "5" },
    formulas: ["SUM(--(A1:A3=5))", "SUM(--(A1:A3=5))"],
    gives: [1],
  },
  // 0.1 times the sum of 1 to 3000, 3000 x 3001 / 2, by way of enough arithmetic that little else counts; the first times go
  // into reading the cells.
  "decimal arithmetic": {
    cells: LIST,
    formulas: Array.from({ length: 8 }, () => "SUM(A1:A3000*0.1+A1:A3000*0.1-A1:A3000*0.3+A1:A3000*0.2)"),
    gives: [450150],
    work: 3,
  },
  "numbers in formulas": { formulas: ["ISNUMBER(1.50)"], gives: [true] },
  // Microsoft support, Calculation operators: a text that spells a number is converted where a number is expected.
  "texts in cells": { cells: { A1: "4" }, formulas: ["SQRT(A1)"], gives: [2] },
  "values of cells": { cells: { A1: "#N/A" }, formulas: ["LEN(A1)"], gives: [4] },
  wildcards: {
    cells: { A1: "a".repeat(250) },
    formulas: ['MATCH("*a*a*a*b",A1:A1,0)'],
    gives: ["#N/A"],
    work: 20,
  },
  "texts in formulas": { formulas: ['ISTEXT("50%")'], gives: [true] },
  // The numbers from 1 to 3000 found in themselves: 3000 x 3001 / 2.
  "exact lookup": {
    cells: LIST,
    formulas: ["SUM(VLOOKUP(A1:A3000,A1:A3000,1,FALSE))"],
    gives: [4501500],
    work: 2,
  },
  // Excel stores #VALUE! for what CELL cannot tell, in the files of the conformance table.
  "CELL without reference": { formulas: ['CELL("hello")'], gives: ["#VALUE!"] },
};

/** Where the script finds the packages of the project, or of another version of Univer. */
const PACKAGES = process.env["UNIVER_FOLDER"] ?? join(import.meta.dirname, "../../dist");
let folder = "";
let script = "";

beforeAll(async () => {
  mkdirSync(PACKAGES, { recursive: true });
  folder = mkdtempSync(join(PACKAGES, "corrections-"));
  script = join(folder, "process.mjs");
  await build({
    entryPoints: [join(import.meta.dirname, "engine-correction-process.ts")],
    bundle: true,
    platform: "node",
    format: "esm",
    packages: "external",
    outfile: script,
  });
}, 60_000);
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** What a process answers to the last formula, with the least work that one of them took. */
function ask({ cells = {}, formulas }: Case, without?: string): CorrectionAnswer {
  const question: CorrectionQuestion = { cells, formulas, ...(without === undefined ? {} : { without }) };
  const text = execFileSync(process.execPath, [script], {
    input: JSON.stringify(question),
    encoding: "utf8",
  });
  const answers = JSON.parse(text) as CorrectionAnswer[];
  // The others bear what the machine did besides.
  const milliseconds = Math.min(...answers.map((answer) => answer.milliseconds));
  return { values: answers.at(-1)?.values, milliseconds };
}

it("has a case for each correction of the whole engine", () => {
  expect(ENGINE_CORRECTIONS.map(({ name }) => name).sort()).toEqual(Object.keys(CASES).sort());
});

it.each(Object.entries(CASES))(
  "%s is put right, and is not without its correction",
  { timeout: 60_000 },
  (name, given) => {
    const right = ask(given);
    const wrong = ask(given, name);
    expect(right.values).toEqual(given.gives);
    if (given.work === undefined) expect(wrong.values).not.toEqual(given.gives);
    // Processor time, so that a busy machine does not matter.
    else expect(wrong.milliseconds).toBeGreaterThan(given.work * right.milliseconds);
  },
);
