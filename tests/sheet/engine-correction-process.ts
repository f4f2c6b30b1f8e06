// Evaluates formulas in a process of its own, where a correction for all functions may be left out:
// what it changes in Univer stays changed for the whole process.
import { readFileSync } from "node:fs";
import { UniverFormulas } from "../../src/sheet/univer-formulas";
import type { CellValue } from "../../src/workbook/model";
import { errorText, readerOf, workbookOf } from "./workbook-of";

/** What the process is asked. */
export interface CorrectionQuestion {
  /** The name of the correction to leave out; none where absent. */
  readonly without?: string;
  readonly cells: Readonly<Record<string, CellValue>>;
  /** Formulas in turn, one after the other in the same cell. */
  readonly formulas: readonly string[];
}

/** What it answers for each formula: cells row by row, or why there are none; and the time of its own work. */
export interface CorrectionAnswer {
  readonly values: unknown;
  readonly milliseconds: number;
}

const { without, cells, formulas } = JSON.parse(readFileSync(0, "utf8")) as CorrectionQuestion;

const univer = new UniverFormulas(
  workbookOf({ S: {} }),
  [],
  readerOf(cells),
  (correction) => "name" in correction && correction.name === without,
);

async function answer(formula: string): Promise<CorrectionAnswer> {
  const start = process.cpuUsage();
  let values: unknown;
  try {
    const { rows } = await univer.evaluate(
      { texts: [formula], addresses: [] },
      { sheet: 0, row: 30, column: 30 },
      { budget: 20_000 },
    );
    values = rows.flat().map(errorText);
  } catch (error) {
    values = String(error);
  }
  const { user, system } = process.cpuUsage(start);
  return { values, milliseconds: (user + system) / 1000 };
}

const answers: CorrectionAnswer[] = [];
for (const formula of formulas) answers.push(await answer(formula));
univer.dispose();
process.stdout.write(JSON.stringify(answers));
