import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { openWorkbook } from "../../src/workbook/read";

const sample = "sample-workbooks/price-list.xlsx";
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "share-"));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

const share = (...args: string[]): { status: number | null; stdout: string; stderr: string } =>
  spawnSync(process.execPath, ["dist/node/share.cjs", ...args], { encoding: "utf8" });

const formulas = (file: string): readonly string[] =>
  openWorkbook(new Uint8Array(readFileSync(file))).model.sheets.flatMap((sheet) =>
    sheet.cells.flatMap((cell) =>
      cell.formula === undefined ? [] : [`${sheet.name} ${cell.row} ${cell.column} ${cell.formula.text}`],
    ),
  );

it("makes a partner copy without our functions and puts them back exactly", () => {
  const copy = join(folder, "copy.xlsx");
  const back = join(folder, "back.xlsx");
  expect(share(sample, copy).status).toBe(0);
  expect(formulas(copy).some((formula) => formula.includes("BLN"))).toBe(false);
  // Formulas that are not ours stay: bags rounded up and their sum.
  expect(formulas(copy).filter((formula) => /ROUNDUP|SUM/.test(formula))).toHaveLength(11);
  expect(share(copy, back, "--put-back").status).toBe(0);
  expect(formulas(back)).toEqual(formulas(sample));
});

it("says what it does", () => {
  const { status, stdout } = share("--help");
  expect(status).toBe(0);
  expect(stdout).toMatch(/^usage: npm run share[^]*--put-back/);
});

it.each([
  [[], /^usage: npm run share/],
  [[sample, sample], /must be another file/],
  [[sample, "out.xlsx", "--force"], /--force is not known/],
  [["missing.xlsx", "out.xlsx"], /^there is no file missing\.xlsx$/m],
] as const)("says why it cannot: %j", (args, sentence) => {
  const result = share(...args);
  expect(result.status).toBe(2);
  expect(result.stderr).toMatch(sentence);
});
