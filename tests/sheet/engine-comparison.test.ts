import fc from "fast-check";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { type CellRange, contains, parseRange } from "../../src/formula/address";
import { tokenize } from "../../src/formula/tokens";
import { catalogue } from "../../src/functions/catalogue";
import { differenceText } from "../../src/recalc/compare-engines";
import { interrupt } from "../../src/recalc/interrupt";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import type { SheetEngine } from "../../src/sheet/engine";
import { compareEngines, type EngineDifference } from "../../src/sheet/engine-comparison";
import { UniverEngine } from "../../src/sheet/univer-engine";
import type { WorkbookModel } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { FORMULAS_PER_WORKBOOK, randomWorkbook } from "./random-formulas";

const functions = engineFunctions(catalogue);
/** Every formula by itself and by Univer, beside formulas read and computed together. */
const makers = {
  old: (): SheetEngine => new UniverEngine(functions, { fast: false }),
  new: (): SheetEngine => new UniverEngine(functions),
};

const SAMPLES = "sample-workbooks";

it.each(readdirSync(SAMPLES).filter((name) => name.endsWith(".xlsx")))(
  "makes the same of %s",
  { timeout: 120_000 },
  async (name) => {
    const { model } = openWorkbook(new Uint8Array(readFileSync(join(SAMPLES, name))));
    const { formulas, differences } = await compareEngines(model, makers, { interrupt, budget: 20_000 });
    expect(formulas).toBeGreaterThan(0);
    expect(differences.map((difference) => differenceText(model, difference))).toEqual([]);
  },
);

/**
 * Univer's parser does not follow Excel here: two percent signs, two signs before a bracket, and a comparison of the result
 * of a comparison. Code does: 5%% is 0.0005, 2>--(1=1) is TRUE, 1=-1<>0 is TRUE as FALSE is no number.
 */
const MISREAD = /%%|--\(|(?:<>|[<>]=|[<>=])-?[\w.$]+(?:<>|[<>]=|[<>=])/;

/** What is left of differences without formulas that Univer misreads, and those that read such a cell. */
function unexplained(model: WorkbookModel, differences: readonly EngineDifference[]): readonly string[] {
  const misread = new Set<string>();
  const readsMisread = ({ formula }: EngineDifference): boolean =>
    tokenize(formula).some(({ kind, text }, at, all) => {
      const range = kind === "reference" && all[at - 1]?.kind !== "sheet" ? parseRange(text) : undefined;
      return range !== undefined && [...misread].some((place) => lies(place, range));
    });
  const lies = (place: string, range: CellRange): boolean => {
    const [row = -1, column = -1] = place.split(",").map(Number);
    return contains(range, row, column);
  };
  let rest = differences;
  for (let count = -1; count !== rest.length;) {
    count = rest.length;
    rest = rest.filter((difference) => {
      const isExplained = MISREAD.test(difference.formula) || readsMisread(difference);
      if (isExplained) misread.add([difference.row, difference.column].join());
      return !isExplained;
    });
  }
  return rest.map((difference) => differenceText(model, difference));
}

// A hundred thousand: RANDOM_FORMULAS=100000 npx vitest run tests/sheet/engine-comparison.test.ts
const WANTED = Number(process.env["RANDOM_FORMULAS"] ?? 2500);
const SEED = Number(process.env["RANDOM_SEED"] ?? 1);

it("makes the same of random formulas, also after edits", { timeout: 3_600_000 }, async () => {
  const found: string[] = [];
  let formulas = 0;
  const workbooks = fc.sample(randomWorkbook, {
    numRuns: Math.ceil(WANTED / FORMULAS_PER_WORKBOOK),
    seed: SEED,
  });
  for (const { model, edits } of workbooks) {
    const { formulas: count, differences } = await compareEngines(model, makers, {
      edits,
      interrupt,
      budget: 20_000,
    });
    formulas += count;
    found.push(...unexplained(model, differences));
  }
  expect(formulas).toBeGreaterThanOrEqual(WANTED);
  expect(found).toEqual([]);
});
