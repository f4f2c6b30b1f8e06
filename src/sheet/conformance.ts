import type { CellValue, SheetModel, WorkbookModel } from "../workbook/model";
import type { CellPlace, ComputedCell, RecalculateOptions } from "./engine";
import { FormulaTranslator } from "./formula-translation";
import { mapRange } from "./rectangles";
import { codeOf, isSameResult, NOT_COMPARED } from "./trust";
import { UniverEngine } from "./univer-engine";
import { WorkbookCells } from "./workbook-cells";
import { placeNumber } from "./place-number";

/** How many formulas with a function give what Excel stored, give something else, or are not computed. */
export interface FunctionConformance {
  equal: number;
  different: number;
  left: number;
}

/** A formula that does not give what Excel stored. */
export interface Deviation extends CellPlace {
  readonly formula: string;
  readonly stored: CellValue;
  readonly ours: CellValue;
  /** Why it was not computed. */
  readonly why?: string;
}

/** One file held against the values that Excel stored in it. */
export interface FileConformance {
  readonly formulas: number;
  readonly deviations: readonly Deviation[];
  /** Functions of each formula, and whether its value is Excel's; formulas that read a deviation are left out. */
  readonly evidence: readonly {
    readonly calls: readonly string[];
    readonly found: keyof FunctionConformance;
  }[];
}

/** Computes every formula of a workbook and holds the results against those that are stored in it. */
export async function conformanceOf(
  workbook: WorkbookModel,
  options: Pick<RecalculateOptions, "budget" | "interrupt"> = {},
): Promise<FileConformance> {
  const engine = new UniverEngine([]);
  try {
    await engine.load(workbook);
    const { computed, uncomputed } = await engine.recalculate({
      ...options,
      volatile: "keep",
      differences: "accept",
    });
    const results = new Map(computed.map((cell) => [placeNumber(cell), cell]));
    const reasons = new Map(uncomputed.map((cell) => [placeNumber(cell), cell.why]));
    const formulas = workbook.sheets.flatMap(storedFormulas);
    const deviations = formulas.flatMap(({ text, value, values, ...place }): Deviation[] => {
      const result = results.get(placeNumber(place));
      if (result !== undefined && isSame(values, value, result)) return [];
      const why = reasons.get(placeNumber(place));
      const ours = engine.value(place);
      return [{ ...place, formula: text, stored: value, ours, ...(why === undefined ? {} : { why }) }];
    });
    const translator = translatorOf(workbook);
    const odd = new Map(deviations.map((cell) => [placeNumber(cell), cell]));
    const evidence = formulas.flatMap(({ text, ...place }) => {
      const { calls, reads } = translator.translate(text, place);
      const deviation = odd.get(placeNumber(place));
      const isLed = [...odd.values()].some(
        (cell) =>
          cell !== deviation &&
          reads.some(
            (range) =>
              range.sheet === cell.sheet &&
              cell.row >= range.firstRow &&
              cell.row <= range.lastRow &&
              cell.column >= range.firstColumn &&
              cell.column <= range.lastColumn,
          ),
      );
      if (isLed) return [];
      const found = deviation === undefined ? "equal" : deviation.why === undefined ? "different" : "left";
      return [{ calls: [...calls].filter((name) => !NOT_COMPARED.has(name)), found } as const];
    });
    return { formulas: formulas.length, deviations, evidence };
  } finally {
    engine.dispose();
  }
}

/** The table by function. What a formula of several functions deviates by is laid to the least sound of them. */
export function byFunction(
  evidence: FileConformance["evidence"],
): ReadonlyMap<string, Readonly<FunctionConformance>> {
  const all = tallied(evidence.map(({ calls, found }) => ({ calls, found })));
  const soundness = (name: string): number => {
    const { equal, different } = all.get(name) ?? { equal: 0, different: 1 };
    return equal / (equal + different);
  };
  return tallied(
    evidence.map(({ calls, found }) => {
      const least = Math.min(...calls.map(soundness));
      return {
        calls: found === "different" ? calls.filter((name) => soundness(name) === least) : calls,
        found,
      };
    }),
  );
}

function tallied(evidence: FileConformance["evidence"]): Map<string, FunctionConformance> {
  const table = new Map<string, FunctionConformance>();
  for (const { calls, found } of evidence) {
    for (const name of calls) {
      const row = table.get(name) ?? { equal: 0, different: 0, left: 0 };
      row[found]++;
      table.set(name, row);
    }
  }
  return new Map([...table].sort(([a], [b]) => (a < b ? -1 : 1)));
}

function translatorOf(workbook: WorkbookModel): FormulaTranslator {
  return new FormulaTranslator({
    sheetNames: workbook.sheets.map(({ name }) => name),
    names: workbook.names,
    tables: workbook.tables,
    ...new WorkbookCells(workbook).extent(),
    knowsFunction: () => true,
  });
}

/** A formula with the values that the file holds for it. */
export interface StoredFormula extends CellPlace {
  readonly text: string;
  readonly value: CellValue;
  /** What it fills, where that is more than its cell. */
  readonly values: readonly (readonly CellValue[])[];
}

/** Formulas of a sheet with the values that the file holds for them. */
export function storedFormulas({ cells }: SheetModel, sheet: number): StoredFormula[] {
  const values = new Map(cells.map(({ row, column, value }) => [placeNumber({ sheet, row, column }), value]));
  return cells.flatMap(({ row, column, value, formula }): StoredFormula[] => {
    // Programs that do not compute store no value, and a data table is no formula.
    if (formula === undefined || value === null || formula.kind === "dataTable") return [];
    const range =
      formula.kind === "normal" || formula.range === undefined
        ? { firstRow: row, lastRow: row, firstColumn: column, lastColumn: column }
        : formula.range;
    const filled = mapRange(range, (r, c) => values.get(placeNumber({ sheet, row: r, column: c })) ?? null);
    return [{ sheet, row, column, text: formula.text, value, values: filled }];
  });
}

/** Whether a result is what the file holds, with all that it fills. */
export function isSame(
  stored: readonly (readonly CellValue[])[],
  value: CellValue,
  { value: own, spilled }: Pick<ComputedCell, "value" | "spilled">,
): boolean {
  if (!isSameStored(value, own)) return false;
  const rows = spilled ?? [[own]];
  return stored.every((line, row) =>
    line.every((cell, column) => isSameStored(cell, rows[row]?.[column] ?? null)),
  );
}

/** Some programs store an error as its text. */
function isSameStored(stored: CellValue, ours: CellValue): boolean {
  return isSameResult(stored, ours) || (typeof stored === "string" && stored === codeOf(ours));
}
