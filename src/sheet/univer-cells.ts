import type { CellValue } from "../workbook/model";
import { type OwnCell, univerCell } from "./univer-values";

/** What the engine reads: the content of one cell, with its formula in file form where it has one. */
export interface CellContent {
  readonly value: CellValue;
  readonly formula?: string;
}

/** Gives the content of a cell, or undefined where it is blank. May throw: the evaluation then ends with that. */
export type ReadCell = (sheet: number, row: number, column: number) => CellContent | undefined;

/** The cells of one sheet as Univer asks for them; it stands where Univer expects its own matrix. */
export class CellSource {
  constructor(
    private readonly sheet: number,
    private readonly readCell: ReadCell,
  ) {}

  getValue(row: number, column: number): (OwnCell & { readonly f?: string }) | null {
    const content = this.readCell(this.sheet, row, column);
    if (content === undefined || content.value === null) return null;
    const { value } = content;
    // A cell that holds an empty text is not blank; Univer takes it for blank unless it has a formula.
    const f = content.formula ?? (value === "" ? '""' : undefined);
    const cell = univerCell(value);
    return f === undefined ? cell : { ...cell, f: `=${f}` };
  }

  /** Asked for by ISFORMULA, which looks cells up by row and column. */
  getMatrix(): unknown {
    const rowOf = (row: number): unknown =>
      new Proxy({}, { get: (_, column) => this.getValue(row, Number(column)) ?? undefined });
    return new Proxy({}, { get: (_, row) => rowOf(Number(row)) });
  }
}
