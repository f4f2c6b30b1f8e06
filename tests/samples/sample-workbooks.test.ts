import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import { SAMPLE_WORKBOOKS } from "../../src/samples/sample-workbooks";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import { FormulaTranslator } from "../../src/sheet/formula-translation";
import { recalculateWorkbook } from "../../src/sheet/recalculate";
import { parseCell } from "../../src/formula/address";
import { createWorkbook } from "../../src/workbook/create";
import type { CellValue, WorkbookModel } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";

const functions = engineFunctions(catalogue);
const file = new Uint8Array(readFileSync("sample-workbooks/regatta-evening.xlsx"));

function valueAt(model: WorkbookModel, sheetName: string, address: string): CellValue {
  const sheet = model.sheets.find((candidate) => candidate.name === sheetName);
  const place = parseCell(address);
  const cell = sheet?.cells.find(({ row, column }) => row === place?.row && column === place.column);
  return cell?.value ?? null;
}

const numberAt = (model: WorkbookModel, sheetName: string, address: string): number =>
  Number(valueAt(model, sheetName, address));

/** Rows of a spilled table below its header, up to the first blank first cell. */
function spilledRows(
  model: WorkbookModel,
  sheetName: string,
  firstRow: number,
  columns: string,
): CellValue[][] {
  const rows: CellValue[][] = [];
  for (let row = firstRow; rows.length < 60; row += 1) {
    const values = [...columns].map((column) => valueAt(model, sheetName, `${column}${row}`));
    if (values.every((value) => value === null)) break;
    rows.push(values);
  }
  return rows;
}

describe.each(SAMPLE_WORKBOOKS.map((sample) => [sample.file, sample] as const))("%s", (_, sample) => {
  it("is what npm run samples makes, with values that recalculation keeps", async () => {
    const stored = new Uint8Array(readFileSync(`sample-workbooks/${sample.file}`));
    const made = await recalculateWorkbook(createWorkbook(sample.describe()), functions);
    expect(made.uncomputed).toEqual([]);
    expect(made.failing).toEqual([]);
    expect(Buffer.from(made.bytes).equals(Buffer.from(stored)), "run npm run samples").toBe(true);
    const again = await recalculateWorkbook(stored, functions);
    expect(again.changes).toEqual([]);
  });
});

describe("the regatta evening", () => {
  const { model } = openWorkbook(file);

  it("adds up from bags to the price to pay", () => {
    const lines = [5, 6, 7, 8, 9, 10].map((row) => ({
      kind: String(valueAt(model, "Costing", `B${row}`)),
      cost: numberAt(model, "Costing", `C${row}`) * numberAt(model, "Costing", `D${row}`),
    }));
    // By hand: price = cost / (1 - margin), each kind to the cent, tax on top, deposit is half of the total.
    const margin = 0.45;
    const cents = (value: number): number => Math.round(value * 100);
    const priced = ["materials", "work", "travel"].map((kind) => {
      const cost = lines.filter((line) => line.kind === kind).reduce((sum, line) => sum + line.cost, 0);
      return cents(cost / (1 - margin));
    });
    const before = priced.reduce((sum, value) => sum + value, 0);
    const total = before + Math.round(before * 0.2);
    expect(cents(numberAt(model, "Costing", "B21"))).toBe(before);
    expect(cents(numberAt(model, "Costing", "B23"))).toBe(total);
    expect(cents(numberAt(model, "Costing", "B24")) + cents(numberAt(model, "Costing", "B25"))).toBe(total);
    expect(cents(numberAt(model, "Start", "D37"))).toBe(total);
  });

  it("buys enough of every size and colour, stock counted in", () => {
    const needs = spilledRows(model, "Needs", 5, "ACE");
    const wanted = new Map<string, number>();
    for (const [size, colour, count] of needs) {
      const key = `${String(size)} ${String(colour)}`;
      wanted.set(key, (wanted.get(key) ?? 0) + Number(count));
    }
    const had = new Map<string, number>([
      ["11 White", 30],
      ["5 Coral", 40],
    ]);
    const good = new Map<string, number>();
    for (let row = 5; row <= 27; row += 1) {
      const [supplier, size, colour, bag] = ["A", "B", "C", "D"].map((column) =>
        valueAt(model, "Price list", `${column}${row}`),
      );
      const share = numberAt(model, "Price list", `F${row}`);
      good.set([supplier, size, colour, bag].map(String).join(" "), Math.floor(Number(bag) * share + 1e-9));
    }
    for (const [size, colour, , , supplier, bag, , bags] of spilledRows(model, "Buying", 5, "ABCDEFGHIJK")) {
      if (size === null || size === "") continue;
      const key = `${String(size)} ${String(colour)}`;
      const each = good.get([supplier, size, colour, bag].map(String).join(" ")) ?? 0;
      had.set(key, (had.get(key) ?? 0) + each * Number(bags));
    }
    for (const [key, count] of wanted) expect(had.get(key) ?? 0, key).toBeGreaterThanOrEqual(count);
  });

  it("shares the cost of buying over the pieces to the cent", () => {
    const pieces = spilledRows(model, "Pieces", 17, "ABC");
    const shared = pieces.reduce((sum, [, , cost]) => sum + Math.round(Number(cost) * 100), 0);
    expect(shared).toBe(Math.round(numberAt(model, "Costing", "C5") * 100));
  });

  it("follows a bag price from its cell to the quote and leaves the rest alone", async () => {
    const sheet = model.sheets.findIndex((candidate) => candidate.name === "Price list");
    // Every bag of navy 11 in, so that the shopping list cannot step aside to another supplier.
    const rows = [8, 18];
    const dearer = openWorkbook(file).patched(
      rows.map((row) => ({
        sheet,
        row: row - 1,
        column: 4,
        value: numberAt(model, "Price list", `E${row}`) + 1,
      })),
    );
    const { bytes, changes } = await recalculateWorkbook(dearer, functions);
    const after = openWorkbook(bytes).model;
    const bags = (of: WorkbookModel): number =>
      spilledRows(of, "Buying", 5, "ABCDEFGHIJK")
        .filter(([size, colour]) => size === 11 && colour === "Navy")
        .reduce((sum, row) => sum + Number(row[7]), 0);
    expect(bags(model)).toBe(bags(after));
    expect(bags(after)).toBeGreaterThan(0);
    const rise = numberAt(after, "Costing", "C5") - numberAt(model, "Costing", "C5");
    expect(rise).toBeCloseTo(bags(after), 9);
    const priceRise = numberAt(after, "Costing", "B21") - numberAt(model, "Costing", "B21");
    expect(priceRise).toBeCloseTo(rise / 0.55, 1);
    expect(numberAt(after, "Quote", "B18") - numberAt(model, "Quote", "B18")).toBeCloseTo(
      numberAt(after, "Costing", "B23") - numberAt(model, "Costing", "B23"),
      9,
    );
    const touched = new Set(changes.map((change) => model.sheets[change.sheet]?.name));
    expect([...touched].sort()).toEqual(["Buying", "Costing", "Pieces", "Quote", "Start", "What-if"]);
    const needs = (of: WorkbookModel): CellValue[][] => spilledRows(of, "Needs", 5, "ABCDEF");
    expect(needs(after)).toEqual(needs(model));
  });

  it("chains at most three levels of our functions", () => {
    const translator = new FormulaTranslator({
      sheetNames: model.sheets.map((sheet) => sheet.name),
      names: model.names,
      tables: model.tables,
      lastRow: 200,
      lastColumn: 40,
      engineSheet: (sheet) => `sheet${sheet}`,
      knowsFunction: () => true,
    });
    const ours = new Set(catalogue.map((fn) => `BLN_${fn.name}`));
    const cells = model.sheets.flatMap((sheet, index) =>
      sheet.cells.flatMap((cell) =>
        cell.formula === undefined ? [] : [{ sheet: index, ...cell, formula: cell.formula }],
      ),
    );
    const parsed = cells.map((cell) => ({
      cell,
      extent: cell.formula.range ?? {
        firstRow: cell.row,
        lastRow: cell.row,
        firstColumn: cell.column,
        lastColumn: cell.column,
      },
      translation: translator.translate(cell.formula.text, {
        sheet: cell.sheet,
        row: cell.row,
        column: cell.column,
      }),
    }));
    const levels = new Map<number, number>();
    const levelOf = (index: number): number => {
      const known = levels.get(index);
      if (known !== undefined) return known;
      const entry = parsed[index];
      if (entry === undefined) return 0;
      const before = entry.translation.reads.flatMap((read) =>
        parsed.flatMap(({ cell, extent }, other) => {
          const meets =
            cell.sheet === read.sheet &&
            extent.firstRow <= read.lastRow &&
            read.firstRow <= extent.lastRow &&
            extent.firstColumn <= read.lastColumn &&
            read.firstColumn <= extent.lastColumn;
          return meets && other !== index ? [levelOf(other)] : [];
        }),
      );
      const isOurs = [...entry.translation.calls].some((name) => ours.has(name));
      const level = Math.max(0, ...before) + (isOurs ? 1 : 0);
      levels.set(index, level);
      return level;
    };
    const deepest = Math.max(...parsed.map((_, index) => levelOf(index)));
    expect(deepest).toBe(3);
  });
});
