import { describe, expect, it } from "vitest";
import { cellAddress } from "../../src/formula/address";
import { catalogue } from "../../src/functions/catalogue";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import { recalculateWorkbook } from "../../src/sheet/recalculate";
import { createWorkbook } from "../../src/workbook/create";
import type { NewCell } from "../../src/workbook/create-sheet";
import type { CellValue, WorkbookModel } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { evening, stand, type Rows } from "../functions/event/worked-jobs";

const functions = engineFunctions(catalogue);
const PLANS = ["COST_PLAN", "OPTION_PLAN", "GOODS_PLAN", "PART_PLAN"] as const;

/** A workbook with one sheet for each table and one for each plan over all of them. */
function workbookOf(tables: Readonly<Record<string, Rows>>): Uint8Array {
  const ranges = Object.entries(tables).map(([name, rows]) => {
    const last = cellAddress(rows.length - 1, (rows[0]?.length ?? 1) - 1);
    return `${name}!A1:${last}`;
  });
  const typed = Object.entries(tables).map(([name, rows]) => ({
    name,
    cells: Object.fromEntries(
      rows.flatMap((row, r) =>
        row.flatMap((value, c): [string, NewCell][] =>
          value === null ? [] : [[cellAddress(r, c), { value }]],
        ),
      ),
    ),
  }));
  const planned = PLANS.map((name) => ({
    name,
    cells: {
      A1: {
        formula: {
          text: `_xldudf_BLN_${name}(${ranges.join(",")})`,
          kind: "dynamic" as const,
          range: { firstRow: 0, firstColumn: 0, lastRow: 30, lastColumn: 18 },
        },
      },
    },
  }));
  return createWorkbook({
    author: "a decorator",
    generator: "a test",
    date: "2027-01-01T00:00:00Z",
    sheets: [...typed, ...planned],
  });
}

/** Cells of a plan by name of the row and column. */
function cellsOf(model: WorkbookModel, plan: string): (key: string, column: string) => CellValue {
  const sheet = model.sheets.find(({ name }) => name === plan);
  const at = (row: number, column: number): CellValue =>
    sheet?.cells.find((cell) => cell.row === row && cell.column === column)?.value ?? null;
  const columns = Array.from({ length: 19 }, (_, column) => at(0, column));
  return (key, column) => {
    for (let row = 1; row < 30; row += 1)
      if (
        columns.some((title, index) => /^(name|item|option)$/.test(String(title)) && at(row, index) === key)
      )
        return at(row, columns.indexOf(column));
    return null;
  };
}

async function recalculated(bytes: Uint8Array): Promise<WorkbookModel> {
  const result = await recalculateWorkbook(bytes, functions);
  expect(result.uncomputed).toEqual([]);
  return openWorkbook(result.bytes).model;
}

describe("the worked jobs in fresh workbooks, recalculated headless", () => {
  it("costs the stand bouquet, and moves with one cell", async () => {
    const bytes = workbookOf(stand);
    const before = cellsOf(await recalculated(bytes), "COST_PLAN");
    expect([before("Stand bouquet", "cost"), before("Stand bouquet", "price")]).toEqual([57.14, 95.23]);
    expect(before("travel and loading", "price")).toBe(156.12);
    const { model, patched } = openWorkbook(bytes);
    const sheet = model.sheets.findIndex(({ name }) => name === "terms");
    // The pay, from 20 to 30: 33.71 and 66.67 of work become half as much again.
    const changed = await recalculated(patched([{ sheet, row: 1, column: 1, value: 30 }]));
    const after = cellsOf(changed, "COST_PLAN");
    expect([after("Stand bouquet", "work"), after("travel and loading", "work")]).toEqual([50.56, 100]);
    expect([after("Stand bouquet", "materials"), after("Stand bouquet", "goods")]).toEqual([15.83, 7.6]);
  }, 60_000);

  it("costs the evening to the cent on every plan", async () => {
    const model = await recalculated(workbookOf(evening));
    const cost = cellsOf(model, "COST_PLAN");
    expect(
      ["Railing garland", "Door columns", "Logo wall", "Table bouquets"].map((name) => cost(name, "price")),
    ).toEqual([588.67, 142.74, 286.44, 805.2]);
    expect(cellsOf(model, "GOODS_PLAN")("cylinder", "cost")).toBe(190);
    expect(cellsOf(model, "PART_PLAN")("Logo wall", "balloons")).toBe(254);
  }, 60_000);

  it("writes a withheld number as an error in its own cell", async () => {
    const prices = (stand["prices"] ?? []).filter(([, , colour]) => colour !== "Coral");
    const cost = cellsOf(await recalculated(workbookOf({ ...stand, prices })), "COST_PLAN");
    expect(cost("Stand bouquet", "materials")).toEqual({ error: "#N/A" });
    expect(cost("Stand bouquet", "work")).toBe(33.71);
    expect(String(cost("Stand bouquet", "status"))).toMatch(/^stop: nobody sells 12 in Coral, 8 short/);
  }, 60_000);
});
