import { type CellCheck, readCellChecks } from "./cell-checks";
import { readConditions, type SheetConditions } from "./conditions";
import { type SheetModel, WorkbookError } from "./model";
import { readOutsideRows } from "./outside-rows";
import type { WorkbookPackage } from "./package";
import { readConditionalLooks } from "./styles";
import { findWorkbookPart } from "./workbook-part";

/** What a sheet holds beside its cells and a page of a browser can show. */
export interface SheetFeatures {
  readonly checks: readonly CellCheck[];
  readonly formats: SheetConditions;
}

/** What the sheets of a workbook hold beside their cells; undefined for a sheet where that cannot be read. */
export function readFeatures(
  parts: WorkbookPackage,
  sheets: readonly Pick<SheetModel, "part">[],
): readonly (SheetFeatures | undefined)[] {
  const looks = readConditionalLooks(parts, findWorkbookPart(parts));
  return sheets.map(({ part }) => {
    try {
      const root = readOutsideRows(parts, part);
      return { checks: readCellChecks(root), formats: readConditions(root, looks) };
    } catch (error) {
      // The cells were read: what stands around them is named as not drawn.
      if (error instanceof WorkbookError) return undefined;
      throw error;
    }
  });
}
