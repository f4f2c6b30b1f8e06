import type { WorkbookModel } from "../workbook/model";
import {
  type ComputedCells,
  type ConditionalCell,
  conditionalLooks,
  type SheetExtent,
} from "./conditional-looks";

/** Rows below the last filled one that conditions are asked for: there the next entries go. */
const ROWS_AHEAD = 50;

/** The part of each sheet that conditions are asked for. */
export function extentsOf({ sheets }: WorkbookModel): readonly SheetExtent[] {
  return sheets.map(({ cells }) => {
    let [lastRow, lastColumn] = [0, 0];
    for (const { row, column } of cells) {
      lastRow = Math.max(lastRow, row);
      lastColumn = Math.max(lastColumn, column);
    }
    return { lastRow: lastRow + ROWS_AHEAD, lastColumn };
  });
}

/** How all cells look under the conditions of their sheets; undefined where a workbook has none. */
export async function shadedCells(
  model: WorkbookModel,
  cells: ComputedCells,
  signal: AbortSignal,
): Promise<readonly ConditionalCell[] | undefined> {
  const extents = extentsOf(model);
  const found: ConditionalCell[] = [];
  let hasAny = false;
  for (const [sheet, extent] of extents.entries()) {
    const formats = model.features?.[sheet]?.formats;
    if (!formats || formats.conditions.length === 0) continue;
    hasAny = true;
    found.push(...(await conditionalLooks(sheet, formats, extent, cells, signal)));
  }
  return hasAny ? found : undefined;
}
