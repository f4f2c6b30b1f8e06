import type { AxisShift } from "../formula/axis-shift";
import { changeSheets, type SheetListChange } from "./change-sheets";
import { filterRows, type RowFilter } from "./filter-rows";
import { mergeCells } from "./merge-cells";
import type { CellRange } from "../formula/address";
import { shiftSheet } from "./shift-sheet";

/** A change to where cells stand, as opposed to what they hold. Sheets are counted from 0. */
export type Restructuring =
  | { readonly kind: "shift"; readonly sheet: number; readonly shift: AxisShift }
  | { readonly kind: "merge"; readonly sheet: number; readonly range: CellRange; readonly isMerged: boolean }
  | ({ readonly kind: "filter" } & RowFilter)
  | SheetListChange;

/** The file after the change, with everything that speaks of cells moved along. Throws WorkbookError where it cannot be. */
export function restructured(bytes: Uint8Array, change: Restructuring): Uint8Array {
  switch (change.kind) {
    case "shift":
      return shiftSheet(bytes, change.sheet, change.shift);
    case "merge":
      return mergeCells(bytes, change.sheet, change.range, change.isMerged);
    case "filter":
      return filterRows(bytes, change);
    default:
      return changeSheets(bytes, change);
  }
}
