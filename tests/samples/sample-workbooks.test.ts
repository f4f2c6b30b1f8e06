import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { catalogue } from "../../src/functions/catalogue";
import { SAMPLE_WORKBOOKS } from "../../src/samples/sample-workbooks";
import { engineFunctions } from "../../src/sheet/catalogue-functions";
import { FormulaTranslator } from "../../src/sheet/formula-translation";
import { recalculateWorkbook } from "../../src/sheet/recalculate";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { blankRow } from "./sample-cells";

const functions = engineFunctions(catalogue);

describe.each(SAMPLE_WORKBOOKS.map((sample) => [sample.file, sample] as const))("%s", (_, sample) => {
  it("is what npm run samples makes, with values that recalculation keeps", async () => {
    const stored = new Uint8Array(readFileSync(`sample-workbooks/${sample.file}`));
    const made = await recalculateWorkbook(createWorkbook(sample.describe()), functions);
    expect(made.uncomputed).toEqual([]);
    expect(made.failing).toEqual([]);
    expect(Buffer.from(made.bytes).equals(Buffer.from(stored)), "run npm run samples").toBe(true);
    const again = await recalculateWorkbook(stored, functions);
    expect(again.changes).toEqual([]);
  }, 30_000);
});

const EVENT_FILES = ["regatta-evening.xlsx", "two-events-week.xlsx"];

describe.each(EVENT_FILES)("%s", (name) => {
  const { model } = openWorkbook(new Uint8Array(readFileSync(`sample-workbooks/${name}`)));
  const formulas = model.sheets.flatMap((sheet) =>
    sheet.cells.flatMap(({ formula }) => (formula === undefined ? [] : [formula.text])),
  );
  const papers = model.sheets.filter((sheet) =>
    sheet.cells.some(({ formula }) => formula?.text.includes("PAPER_PLAN") === true),
  );

  it("adds up nothing that a missing row would make smaller", () => {
    expect(formulas.filter((text) => /\b(?:SUM|SUMIFS?|SUMPRODUCT|VLOOKUP)\(/.test(text))).toEqual([]);
  });

  it("names no cell of its tables, so that a row typed below the others is read", () => {
    const ours = formulas.filter((text) => text.includes("_PLAN("));
    expect(ours.length).toBeGreaterThan(10);
    for (const text of ours) expect(text).not.toMatch(/![$A-Z]/);
  });

  it("has room below every table", () => {
    for (const { name: table } of model.tables.filter((one) => one.name !== "Chosen")) {
      const area = model.tables.find((one) => one.name === table);
      const size = (area?.range.lastRow ?? 0) - (area?.range.firstRow ?? 0);
      expect(blankRow(model, table), table).toBeLessThanOrEqual(size);
    }
  });

  it("prints each paper one page wide, its headings on every page, whole columns so that nothing is cut", () => {
    expect(papers.length).toBeGreaterThanOrEqual(6);
    for (const { name: sheet } of papers) {
      const ofSheet = model.names.filter(
        (entry) => entry.sheet === model.sheets.findIndex((one) => one.name === sheet),
      );
      const text = (of: string): string => ofSheet.find((entry) => entry.name === of)?.text ?? "";
      expect(text("_xlnm.Print_Area"), sheet).toMatch(/![$][AB]:[$][EF]$/);
      expect(text("_xlnm.Print_Titles"), sheet).toMatch(/![$](\d+):[$]\1$/);
    }
  });

  it("needs one level of our functions: no formula of ours reads what another one gives", () => {
    const translator = new FormulaTranslator({
      sheetNames: model.sheets.map((sheet) => sheet.name),
      names: model.names,
      tables: model.tables,
      lastRow: 300,
      lastColumn: 40,
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
    expect(deepest).toBe(1);
  });
});
