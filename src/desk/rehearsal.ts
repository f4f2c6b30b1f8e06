import type { CellPlace, SheetEngine } from "../sheet/engine";
import type { WorkbookModel } from "../workbook/model";

/** Cells of each sheet that take part: enough to make code quick, whatever the workbook's size. */
const CELLS = 3000;
/** How many numbers are written again: enough to meet what reads the prices and the counts of a workbook. */
const NUMBERS = 16;
/** How often they are written. */
const ROUNDS = 2;
/** Milliseconds that one formula may take. */
const BUDGET = 20;

/** Numbers from all over a workbook. */
function someNumbers({ sheets }: WorkbookModel): readonly (CellPlace & { readonly value: number })[] {
  const numbers = sheets.flatMap(({ cells }, sheet) =>
    cells.flatMap(({ row, column, value, formula }) =>
      formula === undefined && typeof value === "number" ? [{ sheet, row, column, value }] : [],
    ),
  );
  const step = Math.max(1, Math.floor(numbers.length / NUMBERS));
  return numbers.filter((_, at) => at % step === 0).slice(0, NUMBERS);
}

/**
 * Runs what a change of a price runs, on an engine of its own that nobody sees: code takes several times as long while it is
 * new to the browser, and the first one to wait for it would be a person. Throws the signal's reason where it is stopped.
 */
export async function rehearse(
  engine: SheetEngine,
  model: WorkbookModel,
  signal: AbortSignal,
): Promise<void> {
  const part = {
    ...model,
    sheets: model.sheets.map((sheet) => ({ ...sheet, cells: sheet.cells.slice(0, CELLS) })),
  };
  const options = { signal, budget: BUDGET };
  try {
    await engine.load(part);
    await engine.recalculate(options);
    engine.prepare();
    const numbers = someNumbers(part);
    for (let round = 0; round < ROUNDS; round++) {
      for (const { value, ...place } of numbers) await engine.setCell(place, value);
      await engine.recalculate(options);
    }
  } finally {
    engine.dispose();
  }
}
