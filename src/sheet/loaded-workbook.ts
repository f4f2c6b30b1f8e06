import type { WorkbookModel } from "../workbook/model";
import type { EngineFunction } from "./engine";
import { type EngineOptions, FormulaResults } from "./formula-results";
import { LazyUniver } from "./lazy-univer";
import { WorkbookCells } from "./workbook-cells";

/** What the engine holds of a workbook. */
export interface Loaded {
  readonly cells: WorkbookCells;
  readonly univer: LazyUniver;
  readonly results: FormulaResults;
}

export function loadedFrom(
  workbook: WorkbookModel,
  functions: readonly EngineFunction[],
  how: EngineOptions,
): Loaded {
  const cells = new WorkbookCells(workbook);
  const univer = new LazyUniver(async () => {
    const { UniverFormulas } = await import(/* webpackChunkName: "univer" */ "./univer-formulas");
    return new UniverFormulas(workbook, functions, (...place) => cells.read(...place));
  });
  return { cells, univer, results: new FormulaResults(workbook, cells, univer, functions, how) };
}
