import type { CellReaders } from "./cell-readers";
import type { FormulaResults } from "./formula-results";
import { cellRange, type SheetRange } from "./rectangles";
import type { FormulaCell } from "./sheet-cells";
import type { WorkbookCells } from "./workbook-cells";

/** How cells are marked: whether a person typed what they read, and which cell is not to be marked. */
export interface Touching {
  readonly isTyped?: boolean;
  readonly except?: FormulaCell;
}

/** Changed cells that are still to be asked for their readers; cells one below the other are asked for at once. */
type Run = SheetRange & { lastRow: number };

function isBelow({ sheet, row, column }: FormulaCell, run: SheetRange): boolean {
  return (
    run.sheet === sheet && run.lastRow === row - 1 && run.firstColumn === column && run.lastColumn === column
  );
}

/** Marks for another evaluation whatever reads the changed cells, and whatever reads that, and so on. */
export function reach(
  workbook: {
    readonly cells: WorkbookCells;
    readonly results: FormulaResults;
    readonly readers: CellReaders;
  },
  changed: readonly SheetRange[],
  { isTyped = false, except }: Touching,
): void {
  const { cells, results, readers } = workbook;
  const readersOf = readers.walk();
  const queue: Run[] = changed.map((range) => ({ ...range }));
  const mark = (cell: FormulaCell): void => {
    const isNews = cell.state === "done" || (isTyped && !cell.isReached);
    if (!isNews || cell === except) return;
    if (cell.state === "done") cells.sheet(cell.sheet).setPending(cell);
    if (isTyped) cell.isReached = true;
    const run = queue.at(-1);
    if (run !== undefined && isBelow(cell, run)) run.lastRow++;
    else queue.push({ ...cellRange(cell) });
    if (cell.area !== undefined) queue.push({ sheet: cell.sheet, ...cell.area });
  };
  for (const cell of cells.formulas()) if (results.isWandering(cell)) mark(cell);
  for (let range = queue.pop(); range !== undefined; range = queue.pop()) {
    for (const cell of readersOf(range)) mark(cell);
  }
}
