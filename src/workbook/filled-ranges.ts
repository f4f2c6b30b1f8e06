import { type CellRange, contains } from "../formula/address";

/** The ranges that formulas of a sheet fill, asked cell by cell; quick where the cells come row by row. */
export class FilledRanges {
  private readonly ordered: readonly CellRange[];
  private row = -1;
  private ofRow: readonly CellRange[] = [];
  private next = 0;

  constructor(ranges: Iterable<CellRange>) {
    this.ordered = [...ranges].sort((a, b) => a.firstRow - b.firstRow);
  }

  /** The ranges that a cell lies in. */
  over(row: number, column: number): readonly CellRange[] {
    if (this.ordered.length === 0) return this.ordered;
    this.turnTo(row);
    return this.ofRow.filter((range) => contains(range, row, column));
  }

  has(row: number, column: number): boolean {
    return this.over(row, column).length > 0;
  }

  private turnTo(row: number): void {
    if (row === this.row) return;
    if (row < this.row) {
      this.next = 0;
      this.ofRow = [];
    }
    this.row = row;
    const begun: CellRange[] = [];
    for (; (this.ordered[this.next]?.firstRow ?? Infinity) <= row; this.next++) {
      const range = this.ordered[this.next];
      if (range !== undefined) begun.push(range);
    }
    this.ofRow = [...this.ofRow, ...begun].filter((range) => range.lastRow >= row);
  }
}
