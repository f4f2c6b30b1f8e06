import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { Calculation } from "../../src/desk/calculation";
import { makeEngine } from "../../src/desk/make-engine";
import type { Edit, CalculationOutcome } from "../../src/desk/messages";
import { catalogue } from "../../src/functions/catalogue";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import { recalculateWorkbook } from "../../src/sheet/recalculate";
import type { CellValue, WorkbookCell } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { quoteWorkbook } from "./desk-page";

const QUIET = new AbortController().signal;
const done = (): void => undefined;

async function loaded(): Promise<Calculation> {
  const calculation = new Calculation(quoteWorkbook());
  await calculation.load(makeEngine());
  return calculation;
}

async function compute(calculation: Calculation, ...edits: readonly Edit[]): Promise<CalculationOutcome> {
  await calculation.edit(edits);
  return calculation.recalculate(done, QUIET);
}

const at = (
  row: number,
  column: number,
): { readonly sheet: number; readonly row: number; readonly column: number } => ({
  sheet: 0,
  row,
  column,
});

describe("an open workbook", () => {
  it("formats what a typed formula fills, where the cells have no format, also in the file", async () => {
    const calculation = await loaded();
    const lines = '{"text","kind","cost","quantity";"Balloons","materials",120,1}';
    const formula = `=BLN.QUOTE_PLAN(${lines},0.4)`;
    const { formats } = await compute(calculation, { ...at(0, 7), input: { formula } });
    // Twelve amounts below the heading, by the function's definition.
    expect(formats).toEqual(
      Array.from({ length: 12 }, (_, row) => ({ ...at(row + 1, 8), numberFormat: "#,##0.00" })),
    );
    const { model } = openWorkbook(calculation.bytes());
    const formatOf = (row: number, column: number): string | undefined => {
      const cell = model.sheets[0]?.cells.find((one) => one.row === row && one.column === column);
      return model.styles[cell?.style ?? 0]?.numberFormat;
    };
    expect([formatOf(0, 8), formatOf(1, 8), formatOf(12, 8), formatOf(1, 7)]).toEqual([
      "General",
      "#,##0.00",
      "#,##0.00",
      "General",
    ]);
  });

  it("leaves formats alone where nothing was typed", async () => {
    const calculation = await loaded();
    expect((await compute(calculation)).formats).toEqual([]);
  });

  it("shows what the file stores before anything is computed", () => {
    const [spill] = new Calculation(quoteWorkbook()).filled;
    expect(spill).toMatchObject({ ...at(1, 3), values: [[1], [2]] });
  });

  it("reports only what changed, and all that fails", async () => {
    const calculation = await loaded();
    const first = await compute(calculation);
    // 120 x 0.25; the stored values of the spill stand.
    expect(first.changed).toContainEqual({ ...at(3, 1), value: 30 });
    expect(first.changed).not.toContainEqual(expect.objectContaining(at(1, 3)));
    expect(first.failing).toEqual([
      { ...at(6, 1), error: "#VALUE!", sentence: expect.stringMatching(/^length must/) },
    ]);
    const second = await compute(calculation, { ...at(2, 1), input: 4 });
    expect(second.changed).toEqual([{ ...at(3, 1), value: 1 }]);
    expect(second.failing).toEqual(first.failing);
  });

  it("writes no change where there is none", async () => {
    const calculation = await loaded();
    await compute(calculation);
    const { bytes } = calculation.written("workbook");
    const again = new Calculation(bytes);
    await again.load(makeEngine());
    await compute(again);
    expect(again.written("workbook").bytes).toEqual(bytes);
  });

  it.each(readdirSync("sample-workbooks"))(
    "writes what the command writes: %s",
    { timeout: 60_000 },
    async (file) => {
      const bytes = new Uint8Array(readFileSync(join("sample-workbooks", file)));
      const { model, patched } = openWorkbook(bytes);
      // One number of the sheet is spoiled, so that there is something to write.
      const [place] = model.sheets.flatMap(({ cells }, sheet) =>
        cells.flatMap(({ row, column, value, formula }) =>
          formula !== undefined && typeof value === "number" ? [{ sheet, row, column }] : [],
        ),
      );
      if (place === undefined) throw new Error("the file has no number to compute");
      for (const given of [bytes, patched([{ ...place, value: -1 }])]) {
        const calculation = new Calculation(given);
        await calculation.load(makeEngine());
        await compute(calculation);
        const command = await recalculateWorkbook(given, engineFunctions(catalogue));
        expect(calculation.written("workbook").bytes).toEqual(command.bytes);
      }
    },
  );

  it("clears what a spill leaves whose formula was typed over, and no input", async () => {
    const calculation = await loaded();
    await compute(calculation, { ...at(1, 3), input: "typed" });
    const cellsOf = (): readonly WorkbookCell[] =>
      openWorkbook(calculation.written("workbook").bytes).model.sheets[0]?.cells ?? [];
    const find = (row: number, column: number): WorkbookCell | undefined =>
      cellsOf().find((cell) => cell.row === row && cell.column === column);
    expect(find(1, 3)).toMatchObject({ value: "typed" });
    expect(find(2, 3)?.value ?? null).toBeNull();
    await compute(calculation, { ...at(2, 3), input: "mine" });
    expect(find(2, 3)).toMatchObject({ value: "mine" });
  });

  it("keeps an input that stands in the way of a spill, and fills a cell that was only emptied", async () => {
    const calculation = await loaded();
    await compute(calculation, { ...at(2, 3), input: "mine" });
    const stored = (): readonly (CellValue | undefined)[] => {
      const { cells = [] } = openWorkbook(calculation.written("workbook").bytes).model.sheets[0] ?? {};
      return [1, 2].map((row) => cells.find((cell) => cell.row === row && cell.column === 3)?.value);
    };
    expect(stored()).toEqual([{ error: "#VALUE!" }, "mine"]);
    await compute(calculation, { ...at(2, 3), input: null });
    expect(stored()).toEqual([1, 2]);
  });

  it("clears what a shorter spill leaves", async () => {
    const calculation = await loaded();
    await compute(calculation, { ...at(5, 1), input: 1 });
    const { cells = [] } = openWorkbook(calculation.written("workbook").bytes).model.sheets[0] ?? {};
    expect(cells.find(({ row, column }) => row === 2 && column === 3)?.value ?? null).toBeNull();
    const anchor = cells.find(({ row, column }) => row === 1 && column === 3);
    expect(anchor?.formula?.range).toEqual({ firstRow: 1, firstColumn: 3, lastRow: 1, lastColumn: 3 });
  });

  it("marks a formula that may fill more cells, and no other", async () => {
    const calculation = await loaded();
    await compute(
      calculation,
      { ...at(20, 0), input: { formula: "=FILTER(B3,TRUE)" } },
      { ...at(21, 0), input: { formula: '=BLN.METRES("1 ft")' } },
    );
    const { cells = [] } = openWorkbook(calculation.written("workbook").bytes).model.sheets[0] ?? {};
    const kinds = cells.filter(({ row }) => row >= 20).map(({ formula }) => [formula?.text, formula?.kind]);
    expect(kinds).toEqual([
      ["_xlfn._xlws.FILTER(B3,TRUE)", "dynamic"],
      ['_xldudf_BLN_METRES("1 ft")', "normal"],
    ]);
  });

  it("goes on after it was stopped", async () => {
    const calculation = await loaded();
    const stopping = new AbortController();
    stopping.abort();
    await calculation.recalculate(done, stopping.signal).catch(() => undefined);
    const outcome = await compute(calculation);
    expect(await compute(calculation)).toMatchObject({ changed: [], failing: outcome.failing });
    expect(calculation.written("workbook").note).toBe("");
  });

  it("tells the new values of cells in sight once, before all others", async () => {
    const calculation = await loaded();
    await compute(calculation);
    await calculation.edit([{ ...at(2, 1), input: 4 }]);
    const glances: unknown[] = [];
    const ranges = [{ sheet: 0, firstRow: 0, firstColumn: 0, lastRow: 5, lastColumn: 5 }];
    const { changed } = await calculation.recalculate(done, QUIET, {
      ranges,
      told: (cells) => glances.push(cells),
    });
    // 4 x 0.25
    expect(glances).toEqual([[{ ...at(3, 1), value: 1 }]]);
    expect(changed).toEqual([]);
  });
});
