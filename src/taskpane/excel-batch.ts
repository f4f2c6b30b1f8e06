import type { CellRange } from "../formula/address";
import type { SheetArea, SheetCell } from "../formula/scope";
import { HostError } from "./sheet-host";

/** What Excel calls its errors, in its own reference, and what they mean to a person. */
const SENTENCES: Readonly<Record<string, string>> = {
  AccessDenied: "Excel does not allow it here: the sheet or the workbook is protected",
  ItemNotFound: "it is no longer in the workbook",
  InvalidOperationInCellEditMode: "a cell is being edited: press Enter in the sheet first",
  ActivityLimitReached: "Excel is busy: wait a moment and try again",
  RequestPayloadSizeLimitExceeded: "that is too much for Excel at once",
  ResponsePayloadSizeLimitExceeded: "that is too much for Excel at once",
};

function hostError(error: unknown): HostError {
  if (error instanceof HostError) return error;
  const { code, message } = error as { readonly code?: unknown; readonly message?: unknown };
  const known = typeof code === "string" ? SENTENCES[code] : undefined;
  return new HostError(known ?? (typeof message === "string" && message !== "" ? message : String(error)));
}

/** Runs a batch of requests; its errors come as sentences. */
export async function inWorkbook<Result>(
  batch: (context: Excel.RequestContext) => Promise<Result>,
): Promise<Result> {
  try {
    return await Excel.run(batch);
  } catch (error) {
    throw hostError(error);
  }
}

/** The cells of an area. */
export function rangeOfArea(context: Excel.RequestContext, { sheet, range }: SheetArea): Excel.Range {
  return context.workbook.worksheets
    .getItem(sheet)
    .getRangeByIndexes(
      range.firstRow,
      range.firstColumn,
      range.lastRow - range.firstRow + 1,
      range.lastColumn - range.firstColumn + 1,
    );
}

/** One cell. */
export function cellIn(context: Excel.RequestContext, { sheet, row, column }: SheetCell): Excel.Range {
  return context.workbook.worksheets.getItem(sheet).getRangeByIndexes(row, column, 1, 1);
}

/** Where a range lies; its corners must be loaded. */
export function cornersOf(range: Excel.Range): CellRange {
  return {
    firstRow: range.rowIndex,
    firstColumn: range.columnIndex,
    lastRow: range.rowIndex + range.rowCount - 1,
    lastColumn: range.columnIndex + range.columnCount - 1,
  };
}
