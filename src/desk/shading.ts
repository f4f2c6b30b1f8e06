import type { SheetModel, WorkbookModel } from "../workbook/model";
import {
  type ComputedCells,
  type ConditionalCell,
  conditionalLooks,
  type SheetExtent,
} from "./conditional-looks";

/** Rows below the last filled one that conditions are asked for: there the next entries go. */
const ROWS_AHEAD = 50;

/** The part of a sheet that conditions are asked for. */
export function conditionExtent({ cells }: SheetModel): SheetExtent {
  let [lastRow, lastColumn] = [0, 0];
  for (const { row, column } of cells) {
    lastRow = Math.max(lastRow, row);
    lastColumn = Math.max(lastColumn, column);
  }
  return { lastRow: lastRow + ROWS_AHEAD, lastColumn };
}

/** How all cells look under the conditions of their sheets; undefined where a workbook has none. */
export async function shadedCells(
  model: WorkbookModel,
  cells: ComputedCells,
  signal: AbortSignal,
): Promise<readonly ConditionalCell[] | undefined> {
  const found: ConditionalCell[] = [];
  let hasAny = false;
  for (const [sheet, of] of model.sheets.entries()) {
    const formats = model.features?.[sheet]?.formats;
    if (!formats || formats.conditions.length === 0) continue;
    hasAny = true;
    found.push(...(await conditionalLooks(sheet, formats, conditionExtent(of), cells, signal)));
  }
  return hasAny ? found : undefined;
}
