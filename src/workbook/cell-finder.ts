import { MAX_COLUMNS } from "../formula/address";
import type { WorkbookCell, WorkbookModel } from "./model";

/** Finds a cell by its sheet's position, its row and its column. */
export type CellFinder = (sheet: number, row: number, column: number) => WorkbookCell | undefined;

/** Finds the stored cells of a workbook; each sheet is filed once, when it is first asked for. */
export function cellFinder({ sheets }: Pick<WorkbookModel, "sheets">): CellFinder {
  const filed = new Map<number, ReadonlyMap<number, WorkbookCell>>();
  const key = (row: number, column: number): number => row * MAX_COLUMNS + column;
  return (sheet, row, column) => {
    let cells = filed.get(sheet);
    if (cells === undefined) {
      cells = new Map(sheets[sheet]?.cells.map((cell) => [key(cell.row, cell.column), cell]));
      filed.set(sheet, cells);
    }
    return cells.get(key(row, column));
  };
}
