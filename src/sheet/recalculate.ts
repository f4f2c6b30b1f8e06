import { cellFinder } from "../workbook/cell-finder";
import { healWorkbook } from "../workbook/heal";
import type { WorkbookModel } from "../workbook/model";
import { openWorkbook } from "../workbook/read";
import { type ChangedCell, changesOf } from "./changes";
import type {
  DifferingCell,
  EngineFunction,
  Recalculation,
  RecalculateOptions,
  UncomputedCell,
} from "./engine";
import { type FailingCell, failingCells } from "./failing-cells";
import { planStatuses, type PlanStatuses } from "../functions/plan-statuses";
import { UniverEngine } from "./univer-engine";

/** A file with fresh values, and what became of its formulas. */
export interface RecalculatedWorkbook {
  readonly bytes: Uint8Array;
  readonly sheetNames: readonly string[];
  readonly changes: readonly ChangedCell[];
  /** Formula cells that keep their stored value, and why. */
  readonly uncomputed: readonly UncomputedCell[];
  /** Formula cells whose stored value stands although the engine gives another one. */
  readonly differing: readonly DifferingCell[];
  /** Cells that show an error of a function of ours, with its sentence. */
  readonly failing: readonly FailingCell[];
  /** Statuses of plans that are not ok, and verdicts that do not let the job go, with their cells. */
  readonly plans: PlanStatuses;
  /** Formulas of ours that another program had damaged and that are mended in the file. */
  readonly healed: number;
}

/**
 * Recalculates a whole .xlsx file and writes the values that changed; all else stays as it is.
 * Throws WorkbookError where the file cannot be read or written, and the signal's reason where it is stopped.
 */
export async function recalculateWorkbook(
  bytes: Uint8Array,
  functions: readonly EngineFunction[],
  options: RecalculateOptions = {},
): Promise<RecalculatedWorkbook> {
  const workbook = openWorkbook(bytes);
  const { model, changes: healing, healed } = healWorkbook(workbook.model);
  const { computed, uncomputed, differing } = await computedCells(model, functions, options);
  const changes = changesOf(cellFinder(model), computed);
  return {
    bytes: changes.length + healed === 0 ? bytes : workbook.patched([...healing, ...changes]),
    sheetNames: model.sheets.map((sheet) => sheet.name),
    changes,
    uncomputed,
    differing,
    failing: failingCells(computed),
    plans: planStatuses(computed),
    healed,
  };
}

/** Its engine is gone before the file is written: both are large. */
async function computedCells(
  model: WorkbookModel,
  functions: readonly EngineFunction[],
  options: RecalculateOptions,
): Promise<Recalculation> {
  const engine = new UniverEngine(functions);
  try {
    await engine.load(model);
    return await engine.recalculate(options);
  } finally {
    engine.dispose();
  }
}
