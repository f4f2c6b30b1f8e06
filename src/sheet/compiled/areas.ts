import { checkBudget } from "../deadline";
import { PENDING, type SheetValues, type StoredValue } from "../column-values";
import type { CellValue } from "../../workbook/model";
import { needsResults } from "./signals";

/** A rectangle of cells that a formula looks into. */
export class Area {
  readonly height: number;
  readonly width: number;

  constructor(
    readonly values: SheetValues,
    readonly firstRow: number,
    readonly firstColumn: number,
    readonly lastRow: number,
    readonly lastColumn: number,
  ) {
    this.height = lastRow - firstRow + 1;
    this.width = lastColumn - firstColumn + 1;
  }

  /** The value of a cell, counted from the area's own first one. */
  at(row: number, column: number): CellValue {
    return this.settled(this.values.get(this.firstRow + row, this.firstColumn + column));
  }

  /** How many of its rows may hold something; those below are blank. */
  get usedHeight(): number {
    let used = 0;
    for (let column = this.firstColumn; column <= this.lastUsedColumn; column++)
      used = Math.max(used, (this.values.columns[column]?.values.length ?? 0) - this.firstRow);
    return Math.min(used, this.height);
  }

  /** A number that rises when a value of the area is taken away or replaced. */
  get version(): number {
    let sum = 0;
    for (let column = this.firstColumn; column <= this.lastUsedColumn; column++)
      sum += this.values.columns[column]?.version ?? 0;
    return sum;
  }

  /** Whether both are the same cells. */
  isSame(other: Area): boolean {
    return (
      this === other ||
      (this.values === other.values &&
        this.firstRow === other.firstRow &&
        this.firstColumn === other.firstColumn &&
        this.lastRow === other.lastRow &&
        this.lastColumn === other.lastColumn)
    );
  }

  /** Calls `visit` with each cell that is not blank, row by row; ends where it gives true. */
  forEach(visit: (value: Exclude<CellValue, null>) => boolean): void {
    const columns = this.values.columns.slice(this.firstColumn, this.lastColumn + 1);
    const end = this.firstRow + this.usedHeight;
    for (let row = this.firstRow; row < end; row++) {
      checkBudget();
      for (const column of columns) {
        const value = this.settled((column as (typeof columns)[number] | undefined)?.values[row]);
        if (value !== null && visit(value)) return;
      }
    }
  }

  /** Its cells as rows, as many of them as there are up to the last row and column. */
  rows(lastRow = this.lastRow, lastColumn = this.lastColumn): readonly (readonly CellValue[])[] {
    return Array.from({ length: lastRow - this.firstRow + 1 }, (_, row) =>
      Array.from({ length: lastColumn - this.firstColumn + 1 }, (__, column) => this.at(row, column)),
    );
  }

  /** A value that was read; the area waits for what has none yet. */
  settled(value: StoredValue): CellValue {
    if (value === PENDING) {
      const { firstRow, firstColumn, lastRow, lastColumn } = this;
      return needsResults({ sheet: this.values.sheet, firstRow, firstColumn, lastRow, lastColumn });
    }
    return value ?? null;
  }

  private get lastUsedColumn(): number {
    return Math.min(this.lastColumn, this.values.columns.length - 1);
  }
}
