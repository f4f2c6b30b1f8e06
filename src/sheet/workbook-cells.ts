import { MAX_COLUMNS, MAX_ROWS } from "../formula/address";
import type { CellValue, WorkbookModel } from "../workbook/model";
import { PENDING } from "./column-values";
import type { CellPlace } from "./engine";
import { type FormulaCell, keyOf, SheetCells, spilledValue } from "./sheet-cells";
import type { CellContent } from "./univer-cells";

/** Ends an evaluation that needs another formula first. */
export class NotReady extends Error {
  constructor(readonly cell: FormulaCell) {
    super("a cell is not computed yet");
  }
}

/** The cells of a workbook as they stand. */
export class WorkbookCells {
  private readonly sheets: readonly SheetCells[];

  constructor(workbook: WorkbookModel) {
    this.sheets = workbook.sheets.map((sheet, index) => new SheetCells(sheet, index));
  }

  sheet(index: number): SheetCells {
    const cells = this.sheets[index];
    if (cells === undefined) throw new RangeError(`the workbook has no sheet ${String(index + 1)}`);
    return cells;
  }

  *formulas(): Generator<FormulaCell> {
    for (const sheet of this.sheets) yield* sheet.formulas.values();
  }

  /** Formulas that wait to be computed. */
  pending(): FormulaCell[] {
    const pending: FormulaCell[] = [];
    for (const cell of this.formulas()) if (cell.state !== "done") pending.push(cell);
    return pending;
  }

  get pendingCount(): number {
    let count = 0;
    for (const cell of this.formulas()) if (cell.state !== "done") count++;
    return count;
  }

  value({ sheet, row, column }: CellPlace): CellValue {
    const cells = this.sheet(sheet);
    const key = keyOf(row, column);
    const formula = cells.formulas.get(key);
    if (formula !== undefined) return formula.value;
    const owner = cells.spilled.get(key);
    return owner === undefined ? cells.constant(row, column) : spilledValue(owner, row, column);
  }

  /** What a formula reads. Throws NotReady where that is not computed yet. */
  read(sheet: number, row: number, column: number): CellContent | undefined {
    const cells = this.sheet(sheet);
    const value = cells.values.get(row, column);
    if (value === undefined) return undefined;
    const key = keyOf(row, column);
    const formula = cells.formulas.get(key);
    if (value !== PENDING)
      return formula === undefined ? { value } : { value, formula: formula.formula.text };
    const missing = formula ?? cells.spilled.get(key);
    if (missing === undefined) throw new RangeError("a value is pending that no formula gives");
    throw new NotReady(missing);
  }

  /** The last row and column up to which whole columns and rows are read, once `grown` is in use too. */
  extent(grown?: CellPlace): { readonly lastRow: number; readonly lastColumn: number } {
    const extents = [
      { lastRow: grown?.row ?? 0, lastColumn: grown?.column ?? 0 },
      ...this.sheets.map((sheet) => sheet.extent()),
    ];
    const lastRow = extents.reduce((last, extent) => Math.max(last, extent.lastRow), 0);
    const lastColumn = extents.reduce((last, extent) => Math.max(last, extent.lastColumn), 0);
    // Room to grow, so that a new row does not change the meaning of every whole column.
    return {
      lastRow: Math.min(MAX_ROWS - 1, 2 ** Math.ceil(Math.log2(lastRow + 64)) - 1),
      lastColumn: Math.min(MAX_COLUMNS - 1, 2 ** Math.ceil(Math.log2(lastColumn + 16)) - 1),
    };
  }
}
