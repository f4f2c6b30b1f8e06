import type { CellValue } from "../workbook/model";
import type { CellPlace, ComputedCell } from "./engine";

/** A cell that shows an error of a function of ours: a formula's own cell or one that it fills. */
export interface FailingCell extends CellPlace {
  readonly value: CellValue;
  readonly sentence: string;
}

/** The cells that show errors of functions of ours, each with its sentence. */
export function failingCells(computed: readonly ComputedCell[]): readonly FailingCell[] {
  return computed.flatMap(({ sheet, row, column, value, spill, spilled, sentences = [] }) =>
    sentences.map((at) => ({
      sheet,
      row: at.row,
      column: at.column,
      value:
        at.row === row && at.column === column
          ? value
          : ((spill && spilled?.[at.row - spill.firstRow]?.[at.column - spill.firstColumn]) ?? null),
      sentence: at.sentence,
    })),
  );
}
