import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { EngineFunction } from "../../src/sheet/engine";
import { changesOf, recalculateWorkbook } from "../../src/sheet/recalculate";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { openWorkbook } from "../../src/workbook/read";
import { workbookOf } from "./workbook-of";

const stairs: EngineFunction = {
  name: "STAIRS",
  text: "",
  parameters: [{ name: "rows", text: "", isOptional: false, takesRange: false }],
  call: ([rows]) => ({ kind: "table", rows: Array.from({ length: Number(rows) }, (_, row) => [row + 1]) }),
};

async function changesIn(workbook: ReturnType<typeof workbookOf>): Promise<readonly unknown[]> {
  const engine = new UniverEngine([stairs]);
  await engine.load(workbook);
  const { computed } = await engine.recalculate();
  engine.dispose();
  return changesOf(workbook.sheets, computed);
}

describe("changes", () => {
  it("are only the cells whose value became another one", async () => {
    const changes = await changesIn(
      workbookOf({
        S: { A1: 2, B1: { f: "A1*2", v: 4 }, B2: { f: "A1*3", v: 5 }, B3: { f: "0.1+0.2", v: 0.3 } },
      }),
    );
    expect(changes).toEqual([{ sheet: 0, row: 1, column: 1, before: 5, value: 6 }]);
  });

  it("write what a spill gains and clear what it leaves", async () => {
    const cells = (rows: number, range: string) => ({
      A1: rows,
      B1: { f: "BLN.STAIRS(A1)", v: 1, kind: "dynamic", range } as const,
      B2: 2,
    });
    expect(await changesIn(workbookOf({ S: cells(3, "B1:B2") }))).toEqual([
      {
        sheet: 0,
        row: 0,
        column: 1,
        before: 1,
        value: 1,
        range: { firstRow: 0, firstColumn: 1, lastRow: 2, lastColumn: 1 },
      },
      { sheet: 0, row: 2, column: 1, before: null, value: 3 },
    ]);
    expect(await changesIn(workbookOf({ S: cells(1, "B1:B2") }))).toEqual([
      { sheet: 0, row: 1, column: 1, before: 2, value: null },
      {
        sheet: 0,
        row: 0,
        column: 1,
        before: 1,
        value: 1,
        range: { firstRow: 0, firstColumn: 1, lastRow: 0, lastColumn: 1 },
      },
    ]);
    expect(await changesIn(workbookOf({ S: cells(2, "B1:B2") }))).toEqual([]);
  });

  it("leave an error alone that a file can only keep as #VALUE!", async () => {
    const blocked = { f: "BLN.STAIRS(2)", v: { error: "#VALUE!" }, kind: "dynamic", range: "A1" } as const;
    expect(await changesIn(workbookOf({ S: { A1: blocked, A2: "here" } }))).toEqual([]);
  });
});

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
  // A binary search in a list that is not in order.
  ["xlookup.xlsx", 4, 0, 1],
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
