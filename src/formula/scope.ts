import { cellAddress, type CellPosition, type CellRange } from "./address";
import type { TableArea } from "./structured-reference";

/** A rectangle on a sheet. */
export interface SheetArea {
  readonly sheet: string;
  readonly range: CellRange;
}

/** A cell on a sheet, counted from 0. */
export interface SheetCell extends CellPosition {
  readonly sheet: string;
}

/** A table and its sheet. */
export interface TableInfo extends TableArea {
  readonly name: string;
  readonly sheet: string;
}

/** A defined name and what it refers to, without an equals sign. */
export interface NameInfo {
  readonly name: string;
  /** The sheet it belongs to, where it does not belong to the whole workbook. */
  readonly sheet?: string;
  readonly reference: string;
}

/** What the formulas of a workbook can name. */
export interface Scope {
  readonly sheets: readonly { readonly name: string }[];
  readonly tables: readonly TableInfo[];
  readonly names: readonly NameInfo[];
}

/** A cell as a person names it, such as `Plan!B3`. */
export function labelOf({ sheet, row, column }: SheetCell): string {
  return `${sheet}!${cellAddress(row, column)}`;
}

/** A key that no other cell has. */
export function cellKey({ sheet, row, column }: SheetCell): string {
  return `${sheet}\n${String(row)}\n${String(column)}`;
}
