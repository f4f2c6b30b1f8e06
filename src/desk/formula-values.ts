import type { CellPlace } from "../sheet/engine";
import type { CellValue } from "../workbook/model";
import type { ComputedCells } from "./conditional-looks";

/** Most values of one formula that are told: nobody chooses from a longer list. */
const MOST_VALUES = 1000;

/** The values that a formula gives where it stands in a cell, in one row or column; null where one cannot be told. */
export async function formulaValues(
  cells: Pick<ComputedCells, "evaluate">,
  place: CellPlace,
  formula: string,
): Promise<readonly CellValue[]> {
  const count = await cells.evaluate(place, `ROWS(${formula})*COLUMNS(${formula})`);
  if (typeof count !== "number" || count <= 1) return [await cells.evaluate(place, formula)];
  const values: CellValue[] = [];
  for (let at = 1; at <= Math.min(count, MOST_VALUES); at++)
    values.push(await cells.evaluate(place, `INDEX(${formula},${String(at)})`));
  return values;
}
