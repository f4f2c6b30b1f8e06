import type { CellPlace } from "../sheet/engine";
import type { Restructuring } from "../workbook/restructure";
import type { GridChange } from "./grid-changes";
import type { GridValue } from "./grid-reading";

/** What the grid tells the page. */
export interface GridEvents {
  /** What a person changed, undo and redo included. */
  changed(change: GridChange): void;
  /** Rows, columns, sheets or merges are to change: the file does that, and the page opens it again. */
  restructured(change: Restructuring): void;
  selected(place: CellPlace): void;
  /** How many steps can be undone and done again in the workbook that is shown. */
  history(undos: number, redos: number): void;
  /** A sentence for something that the grid refused. */
  refused(sentence: string): void;
  /** The mark of a filter in the selected heading was pressed. */
  filterPressed(): void;
  /** Cells came to stand elsewhere in the window. */
  moved(): void;
  /** Why a value that a person typed must not go into a cell, as a sentence. */
  fault(place: CellPlace, value: GridValue): string | undefined;
  /** Content that a person typed, as it is to go into the cell. */
  typed(content: string): TypedCell | undefined;
  /** A formula that a person typed, as it is to go into the cell; undefined where it is to go as it was typed. */
  typedFormula(formula: string): string | undefined;
}

/** What typed text means where it is more than text. */
export interface TypedCell {
  readonly value: number | string;
  readonly numberFormat?: string;
}
