import { sortOfRange, tablesOnSheet, type CellBlock, type FoundTable } from "../functions/event/find-tables";
import { contains, type CellRange } from "./address";
import { addressOf, lastingReference } from "./resolve";
import type { Scope, SheetCell } from "./scope";

/** The filled rectangle of a sheet with its cells. */
export interface TableCells {
  readonly sheet: string;
  readonly range: CellRange;
  readonly rows: readonly (readonly unknown[])[];
}

/** Rows under a table that is only cells, so that a row typed below it is read too. */
const ROOM_BELOW = 50;

const moved = (block: CellBlock, { firstRow, firstColumn }: CellRange, by: 1 | -1): CellBlock => ({
  firstRow: block.firstRow + by * firstRow,
  lastRow: block.lastRow + by * firstRow,
  firstColumn: block.firstColumn + by * firstColumn,
  lastColumn: block.lastColumn + by * firstColumn,
});

/**
 * The tables of a job in a workbook, those on the sheet of a cell first. A table of the workbook is named as a whole, so that
 * it grows; what is only cells gets free rows below it, as far as nothing else stands there.
 *
 * @param scope tables and sheets of the workbook
 * @param sheets cells of the sheets to look at
 * @param at cell into which a formula would go; a table that holds it says so and is not read beyond its own rows, and no
 *   other reference holds it
 */
export function jobTables(
  scope: Scope,
  sheets: readonly TableCells[],
  at: SheetCell | undefined,
): readonly FoundTable[] {
  const ordered = [
    ...sheets.filter(({ sheet }) => sheet === at?.sheet),
    ...sheets.filter(({ sheet }) => sheet !== at?.sheet),
  ];
  return ordered.flatMap((cells) => onSheet(scope, cells, at?.sheet === cells.sheet ? at : undefined));
}

function onSheet(scope: Scope, cells: TableCells, at: SheetCell | undefined): readonly FoundTable[] {
  const { sheet, range, rows } = cells;
  const tables = scope.tables.filter((table) => table.sheet === sheet);
  const named = tables.flatMap((table): readonly FoundTable[] => {
    const own = moved(table.range, range, -1);
    const values = rows
      .slice(Math.max(0, own.firstRow), own.lastRow + 1 - table.totalsRows)
      .map((row) => row.slice(Math.max(0, own.firstColumn), own.lastColumn + 1));
    const read = table.headerRows === 0 ? undefined : sortOfRange(values);
    const reference = lastingReference(scope, { sheet, range: table.range });
    return read === undefined ? [] : [{ ...read, reference, holdsCell: isIn(table.range, at) }];
  });
  const taken = tables.map((table) => moved(table.range, range, -1));
  const plain = tablesOnSheet(rows, taken).map((table): FoundTable => {
    const block = moved(table, range, 1);
    const holdsCell = isIn(block, at);
    const area = {
      sheet,
      range: { ...block, lastRow: holdsCell ? block.lastRow : lastFree(cells, block, at) },
    };
    return { sort: table.sort, rows: table.rows, reference: addressOf(area), holdsCell };
  });
  return [...named, ...plain];
}

const isIn = (range: CellRange, at: SheetCell | undefined): boolean =>
  at !== undefined && contains(range, at.row, at.column);

/** The last row below a block up to which its columns are free. */
function lastFree({ range, rows }: TableCells, block: CellBlock, at: SheetCell | undefined): number {
  const isFilled = (cell: unknown): boolean => cell !== null && cell !== undefined && cell !== "";
  const last = block.lastRow + ROOM_BELOW;
  for (let row = block.lastRow + 1; row <= last; row += 1) {
    const cells = (rows[row - range.firstRow] ?? []).slice(
      Math.max(0, block.firstColumn - range.firstColumn),
      block.lastColumn + 1 - range.firstColumn,
    );
    const isSelected = at?.row === row && at.column >= block.firstColumn && at.column <= block.lastColumn;
    // A blank row stays between what is read and what comes next.
    if (isSelected || cells.some(isFilled)) return Math.max(block.lastRow, row - 2);
  }
  return last;
}
