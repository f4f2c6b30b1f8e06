import { MAX_COLUMNS } from "../formula/address";
import type { WorkbookCell, WorkbookModel } from "./model";

/** Finds a cell by its sheet's position, its row and its column. */
export type CellFinder = (sheet: number, row: number, column: number) => WorkbookCell | undefined;

/** Finds a cell of one sheet by its row and column. */
type SheetFinder = (row: number, column: number) => WorkbookCell | undefined;

/** Finds the stored cells of a workbook; each sheet is looked through once, when it is first asked for. */
export function cellFinder({ sheets }: Pick<WorkbookModel, "sheets">): CellFinder {
  const finders = new Map<number, SheetFinder>();
  return (sheet, row, column) => {
    let finder = finders.get(sheet);
    if (finder === undefined) {
      finder = finderOf(sheets[sheet]?.cells ?? []);
      finders.set(sheet, finder);
    }
    return finder(row, column);
  };
}

function keyOf(row: number, column: number): number {
  return row * MAX_COLUMNS + column;
}

function finderOf(cells: readonly WorkbookCell[]): SheetFinder {
  const find = positionFinder(cells);
  if (find !== undefined) return (row, column) => cells[find(row, column)];
  const filed = new Map(cells.map((cell) => [keyOf(cell.row, cell.column), cell]));
  return (row, column) => filed.get(keyOf(row, column));
}

/** Whether cells come row by row and within a row by column, as programs write them. */
function isInOrder(cells: readonly WorkbookCell[]): boolean {
  let last = -1;
  for (const { row, column } of cells) {
    const key = keyOf(row, column);
    if (key <= last) return false;
    last = key;
  }
  return true;
}

/** Mostly the same cell is asked for again, or one shortly behind it. */
const NEAR = 8;

/** Finds the positions of cells, -1 for one that is not there; undefined where they do not come in order. */
export function positionFinder(
  cells: readonly WorkbookCell[],
): ((row: number, column: number) => number) | undefined {
  if (!isInOrder(cells)) return undefined;
  let latest = 0;
  return (row, column) => {
    for (let at = latest; at < Math.min(latest + NEAR, cells.length); at++) {
      const cell = cells[at];
      if (cell?.row !== row || cell.column !== column) continue;
      latest = at;
      return at;
    }
    const at = search(cells, keyOf(row, column));
    if (at >= 0) latest = at;
    return at;
  };
}

/** Position of a cell by its number; -1 where it is not there. */
function search(cells: readonly WorkbookCell[], key: number): number {
  let low = 0;
  let high = cells.length - 1;
  while (low <= high) {
    const middle = (low + high) >>> 1;
    const cell = cells[middle];
    const at = cell === undefined ? Infinity : keyOf(cell.row, cell.column);
    if (at === key) return middle;
    if (at < key) low = middle + 1;
    else high = middle - 1;
  }
  return -1;
}
