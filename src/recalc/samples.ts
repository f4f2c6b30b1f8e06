import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { catalogue } from "../functions/catalogue";
import { SAMPLE_WORKBOOKS } from "../samples/sample-workbooks";
import { engineFunctions } from "../sheet/catalogue-functions";
import { recalculateWorkbook } from "../sheet/recalculate";
import { createWorkbook } from "../workbook/create";

const FOLDER = "sample-workbooks";

/** `npm run samples`: makes the sample workbooks anew, with the values that the engine computes. */
async function makeSamples(): Promise<void> {
  mkdirSync(FOLDER, { recursive: true });
  for (const { file, describe } of SAMPLE_WORKBOOKS) {
    const { bytes, failing, uncomputed } = await recalculateWorkbook(
      createWorkbook(describe()),
      engineFunctions(catalogue),
    );
    const path = join(FOLDER, file);
    const isSame = existsSync(path) && Buffer.from(bytes).equals(readFileSync(path));
    if (!isSame) writeFileSync(path, bytes);
    const left = failing.length + uncomputed.length;
    const note = left === 0 ? "" : `, ${left} cells without a value`;
    process.stdout.write(`${path} ${isSame ? "is up to date" : "was made anew"}${note}\n`);
    for (const cell of failing)
      process.stdout.write(`  sheet ${cell.sheet + 1} row ${cell.row + 1}: ${cell.sentence ?? ""}\n`);
    for (const cell of uncomputed)
      process.stdout.write(`  sheet ${cell.sheet + 1} row ${cell.row + 1}: ${cell.why}\n`);
  }
}

await makeSamples();
