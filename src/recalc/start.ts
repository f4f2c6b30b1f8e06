import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { catalogue, functionNamed } from "../functions/catalogue";
import { engineFunctions } from "../sheet/catalogue-functions";
import { recalculateWorkbook } from "../sheet/recalculate";
import { openWorkbook } from "../workbook/read";
import { paperText, verdictText } from "./demo-event";
import { compressNatively } from "./native-compression";
import { changedText, isUnfit, problemReport } from "./recalc-report";
import { wrapped } from "./text-table";

const FOLDER = "sample-workbooks";
const DEMO = {
  file: "regatta-evening.xlsx",
  paper: "Offer",
  topics: ["helium", "outdoor", "latex"],
} as const;
const LINE = 96;

function cautionsText(): string {
  const cautions = functionNamed("CAUTIONS");
  return DEMO.topics
    .flatMap((topic) => {
      const outcome = cautions?.call([topic]);
      return outcome?.kind === "table" ? outcome.rows.slice(1) : [];
    })
    .map(([topic, danger, advice]) =>
      wrapped(`${topic}: ${danger} ${advice}`, LINE - 2).map((line, index) =>
        index === 0 ? `- ${line}` : `  ${line}`,
      ),
    )
    .flat()
    .join("\n");
}

function demoText(bytes: Uint8Array): string {
  const { model } = openWorkbook(bytes);
  return `${paperText(model, DEMO.paper)}\n\nCan it go out?\n${verdictText(model)}`;
}

/** Recalculates every sample workbook in memory; says what became of each. */
async function recalculateSamples(): Promise<boolean> {
  let isWhole = true;
  for (const file of readdirSync(FOLDER).filter((name) => name.endsWith(".xlsx"))) {
    const bytes = new Uint8Array(readFileSync(join(FOLDER, file)));
    const result = await recalculateWorkbook(bytes, engineFunctions(catalogue));
    const notes = [
      changedText(result.changes.length),
      ...(result.failing.length > 0 ? [`${result.failing.length} with an error`] : []),
      ...(result.uncomputed.length > 0 ? [`${result.uncomputed.length} not computed`] : []),
    ];
    process.stdout.write(`${join(FOLDER, file)}: recalculated, ${notes.join(", ")}\n`);
    process.stdout.write(problemReport(result));
    isWhole = isWhole && result.uncomputed.length === 0 && !isUnfit(result);
    if (file === DEMO.file) {
      process.stdout.write(`\n${demoText(result.bytes)}\n\nCautions\n${cautionsText()}\n\n`);
    }
  }
  return isWhole;
}

compressNatively();
process.exitCode = (await recalculateSamples()) ? 0 : 1;
