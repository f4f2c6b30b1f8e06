import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { recalculateWorkbook } from "../../src/sheet/recalculate";
import { openWorkbook } from "../../src/workbook/read";

const FOLDER = "../shared/reference/xlsx";

/** Formula cells of files that Excel wrote, whose value must come out as Excel stored it. */
const FILES: readonly (readonly [file: string, formulas: number, uncomputed: number, different: number])[] = [
  ["DataTableCities.xlsx", 14, 0, 0],
  ["MatrixFormulaEvalTestData.xlsx", 36, 0, 0],
  ["StructuredRefs-lots-with-lookups.xlsx", 7274, 0, 0],
  ["cf_tests.xlsx", 12, 0, 0],
  // A user-defined function that the file does not carry.
  ["comments_stress_test.xlsx", 201, 3, 0],
  ["ironcalc_dynamic_arrays.xlsx", 11, 0, 0],
  // Fields of linked data types.
  ["metadata_2019.xlsx", 8, 6, 0],
  ["simple-monthly-budget.xlsx", 5, 0, 0],
  // The spill of a cell that OFFSET finds.
  ["spill_operator.xlsx", 10, 1, 0],
  ["xlookup.xlsx", 4, 0, 0],
];

describe.skipIf(!existsSync(FOLDER))("files that Excel wrote", () => {
  it.each(FILES)("%s", { timeout: 60_000 }, async (file, formulas, uncomputed, different) => {
    const bytes = new Uint8Array(readFileSync(join(FOLDER, file)));
    const before = openWorkbook(bytes).model;
    const result = await recalculateWorkbook(bytes, [], { volatile: "keep" });
    expect(
      before.sheets.flatMap(({ cells }) => cells).filter(({ formula }) => formula !== undefined),
    ).toHaveLength(formulas);
    expect(result.uncomputed).toHaveLength(uncomputed);
    expect(result.changes).toHaveLength(different);
    expect(result.differing).toEqual([]);
  });

  it("writes the changed value and the dependants into the file", async () => {
    const bytes = new Uint8Array(readFileSync(join(FOLDER, "simple-monthly-budget.xlsx")));
    const { model, patched } = openWorkbook(bytes);
    const place = model.sheets
      .flatMap(({ cells }, sheet) => cells.map((cell) => ({ sheet, ...cell })))
      .find(({ formula, value }) => formula !== undefined && typeof value === "number");
    if (place === undefined) throw new Error("the file has no number to compute");
    const { sheet, row, column, value } = place;
    const spoiled = patched([{ sheet, row, column, value: -1 }]);
    const result = await recalculateWorkbook(spoiled, []);
    expect(result.changes).toEqual([{ sheet, row, column, before: -1, value }]);
    const after = openWorkbook(result.bytes).model.sheets[sheet]?.cells.find(
      (cell) => cell.row === row && cell.column === column,
    );
    expect(after?.value).toBe(value);
  });
});
