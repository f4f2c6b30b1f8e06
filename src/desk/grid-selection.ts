import type { Nullable, Workbook } from "@univerjs/core";
import type { SheetsSelectionsService } from "@univerjs/sheets";
import type { CellRange } from "../formula/address";
import type { CellPlace } from "../sheet/engine";
import { sheetOf } from "./grid-data";

/** The selected cell; the first of the first sheet where nothing is selected yet. */
export function selectedPlace(workbook: Nullable<Workbook>, selections: SheetsSelectionsService): CellPlace {
  const sheet = workbook?.getActiveSheet().getSheetId();
  const cell = selections.getCurrentLastSelection()?.primary;
  return {
    sheet: sheet === undefined ? 0 : sheetOf(sheet),
    row: cell?.actualRow ?? 0,
    column: cell?.actualColumn ?? 0,
  };
}

/** The selected cells around the selected one; what is selected last, where several ranges are. */
export function selectedCells({ row, column }: CellPlace, selections: SheetsSelectionsService): CellRange {
  const range = selections.getCurrentLastSelection()?.range;
  return {
    firstRow: range?.startRow ?? row,
    firstColumn: range?.startColumn ?? column,
    lastRow: range?.endRow ?? row,
    lastColumn: range?.endColumn ?? column,
  };
}
