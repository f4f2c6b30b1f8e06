import type { CellValue } from "../workbook/model";

/** Stands where a formula has no result yet. */
export const PENDING: unique symbol = Symbol("pending");

/** What stands in a cell; undefined where it is blank. */
export type StoredValue = CellValue | undefined | typeof PENDING;

/** The values of one column, by row. */
export class ColumnValues {
  readonly values: StoredValue[] = [];
  /** Rises whenever a value is taken away or replaced: what was derived from the column does not hold any more. */
  version = 0;

  set(row: number, value: StoredValue): void {
    const { values } = this;
    const old = values[row];
    if (old === value) return;
    // A result that arrives takes nothing away, as nobody could read what it stands for.
    if (old !== PENDING || value === undefined) this.version++;
    values[row] = value;
  }
}

/** The values of a sheet by column: what formulas read, while `SheetCells` knows where they come from. */
export class SheetValues {
  readonly columns: (ColumnValues | undefined)[] = [];

  constructor(readonly sheet: number) {}

  column(column: number): ColumnValues {
    return (this.columns[column] ??= new ColumnValues());
  }

  get(row: number, column: number): StoredValue {
    return this.columns[column]?.values[row];
  }

  set(row: number, column: number, value: StoredValue): void {
    if (value === undefined && this.columns[column] === undefined) return;
    this.column(column).set(row, value);
  }
}
