import { type CellCheck, readCellChecks } from "./cell-checks";
import { type SheetModel, WorkbookError } from "./model";
import { readOutsideRows } from "./outside-rows";
import type { WorkbookPackage } from "./package";

/** What a sheet holds beside its cells and a page of a browser can show. */
export interface SheetFeatures {
  readonly checks: readonly CellCheck[];
}

/** What the sheets of a workbook hold beside their cells; undefined for a sheet where that cannot be read. */
export function readFeatures(
  parts: WorkbookPackage,
  sheets: readonly Pick<SheetModel, "part">[],
): readonly (SheetFeatures | undefined)[] {
  return sheets.map(({ part }) => {
    try {
      const root = readOutsideRows(parts, part);
      return { checks: readCellChecks(root) };
    } catch (error) {
      // The cells were read: what stands around them is named as not drawn.
      if (error instanceof WorkbookError) return undefined;
      throw error;
    }
  });
}
