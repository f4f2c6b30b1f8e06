import type { ICellData, IRange, IStyleData } from "@univerjs/core";
import { CellValueType, ObjectMatrix } from "@univerjs/core";
import type { CellPosition, CellRange } from "../formula/address";
import type { CellPlace } from "../sheet/engine";
import { gridValue, sheetId } from "./grid-data";
import type { FilledCells, GridValue } from "./grid-reading";
import type { Spill } from "./messages";

/** A cell to be written as a person would. */
export interface WrittenCell {
  readonly content: GridValue;
  readonly numberFormat?: string;
  /** The whole look, in the grid's own terms, in place of the one that the cell has. */
  readonly style?: IStyleData;
}

/** Cells as the grid takes them, by sheet. */
export function matrices(
  cells: readonly (CellPlace & { readonly data: ICellData })[],
): ReadonlyMap<number, ObjectMatrix<ICellData>> {
  const bySheet = new Map<number, ObjectMatrix<ICellData>>();
  for (const { sheet, row, column, data } of cells) {
    const matrix = bySheet.get(sheet) ?? new ObjectMatrix<ICellData>();
    matrix.setValue(row, column, data);
    bySheet.set(sheet, matrix);
  }
  return bySheet;
}

/** A block of cells as the grid takes it from a person; short rows are filled up with blanks. */
export function writtenBlock(
  { row, column }: CellPosition,
  rows: readonly (readonly WrittenCell[])[],
): { readonly range: IRange; readonly value: ICellData[][] } {
  const width = rows.reduce((most, cells) => Math.max(most, cells.length), 1);
  const value = rows.map((cells) =>
    [...cells, ...Array<WrittenCell>(width - cells.length).fill({ content: null })].map(
      ({ content, numberFormat, style: whole }): ICellData => {
        const format = numberFormat === undefined ? {} : { s: { n: { pattern: numberFormat } } };
        const style = whole === undefined ? format : { s: whole };
        if (typeof content === "string" && content.startsWith("=")) return { f: content, v: null, ...style };
        return { ...gridValue(content), f: null, si: null, ...style };
      },
    ),
  );
  const range = {
    startRow: row,
    endRow: row + rows.length - 1,
    startColumn: column,
    endColumn: column + width - 1,
  };
  return { range, value };
}

/** A look for every cell of a range, as the grid takes it. */
export function dressedCells(
  style: IStyleData | ((row: number, column: number, range: CellRange) => IStyleData),
  range: CellRange,
): Record<number, Record<number, ICellData>> {
  const value: Record<number, Record<number, ICellData>> = {};
  for (let row = range.firstRow; row <= range.lastRow; row++) {
    for (let column = range.firstColumn; column <= range.lastColumn; column++) {
      const s = typeof style === "function" ? style(row, column, range) : style;
      (value[row] ??= {})[column] = { s };
    }
  }
  return value;
}

/** What formulas fill beyond their own cell, as the grid takes it: ranges by their first cell, and values by cell. */
export function filledCells(spills: readonly Spill[]): {
  readonly ranges: Record<string, Record<number, Record<number, object>>>;
  readonly values: FilledCells;
} {
  const ranges: Record<string, Record<number, Record<number, object>>> = {};
  const values: FilledCells = {};
  for (const spill of spills) {
    const id = sheetId(spill.sheet);
    const { firstRow, firstColumn, lastRow, lastColumn } = spill.range;
    ((ranges[id] ??= {})[spill.row] ??= {})[spill.column] = {
      startRow: firstRow,
      startColumn: firstColumn,
      endRow: lastRow,
      endColumn: lastColumn,
    };
    for (const [down, row] of spill.values.entries()) {
      for (const [across, value] of row.entries()) {
        ((values[id] ??= {})[firstRow + down] ??= {})[firstColumn + across] =
          value === null ? { v: "", t: CellValueType.STRING } : gridValue(value);
      }
    }
  }
  return { ranges, values };
}
