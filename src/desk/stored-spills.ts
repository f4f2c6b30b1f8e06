import type { CellFinder } from "../workbook/cell-finder";
import type { CellValue, SheetModel } from "../workbook/model";
import type { Spill } from "./messages";

/** What array and spilling formulas of a sheet fill, as the file stores it. */
export function storedSpills(sheet: SheetModel, position: number, stored: CellFinder): readonly Spill[] {
  const spills: Spill[] = [];
  for (const { row, column, formula } of sheet.cells) {
    if (formula?.range === undefined || formula.kind === "normal") continue;
    const { range } = formula;
    const values: CellValue[][] = [];
    for (let down = range.firstRow; down <= range.lastRow; down++) {
      const cells: CellValue[] = [];
      for (let across = range.firstColumn; across <= range.lastColumn; across++)
        cells.push(stored(position, down, across)?.value ?? null);
      values.push(cells);
    }
    spills.push({ sheet: position, row, column, range, values });
  }
  return spills;
}
