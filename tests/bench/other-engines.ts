import { FunctionArgumentType, FunctionPlugin, HyperFormula } from "hyperformula";
import xlsxCalc from "xlsx-calc";
import { cellAddress, MAX_ROWS } from "../../src/formula/address";
import { functionNamed } from "../../src/functions/catalogue";
import { largeCells } from "./large-workbook";

// General engines that compute the same sheet, beside ours in one run. They measure and are no part of what ships:
// HyperFormula is GPL-3.0-only (its key "gpl-v3" says that it is used so), xlsx-calc MIT. No file is read or written.

const COUNT = "BLN_COUNT_SPHERE";

function countSphere(diameter: number, size: number): number {
  const outcome = functionNamed("COUNT_SPHERE")?.call([diameter, size]);
  return outcome?.kind === "value" ? Number(outcome.value) : NaN;
}

class OurFunction extends FunctionPlugin {
  static override implementedFunctions = {
    [COUNT]: {
      method: "count",
      parameters: [
        { argumentType: FunctionArgumentType.NUMBER },
        { argumentType: FunctionArgumentType.NUMBER },
      ],
    },
  };

  count(
    ast: Parameters<FunctionPlugin["runFunction"]>[0] extends infer Args ? { readonly args: Args } : never,
    state: Parameters<FunctionPlugin["runFunction"]>[1],
  ): ReturnType<FunctionPlugin["runFunction"]> {
    return this.runFunction(ast.args, state, this.metadata(COUNT), countSphere);
  }
}

/** The results of the last row, as HyperFormula computes the sheet with an index of each column. */
export function byHyperFormula(rows: number): readonly unknown[] {
  HyperFormula.registerFunctionPlugin(OurFunction, { enGB: { [COUNT]: COUNT } });
  const engine = HyperFormula.buildFromArray(
    largeCells(rows).map((cells) => cells.map((cell) => cell ?? null)),
    { licenseKey: "gpl-v3", useColumnIndex: true, maxRows: MAX_ROWS },
    // It knows FALSE as a function only.
    [{ name: "FALSE", expression: "=FALSE()" }],
  );
  const results = [2, 3, 4, 5, 6].map((col) => engine.getCellValue({ sheet: 0, row: rows - 1, col }));
  engine.destroy();
  return results;
}

/** It has no SUMIFS: a loop stands in, the quickest way there is. */
function sumIfs(values: readonly number[][], tested: readonly number[][], criterion: string): number {
  const limit = Number(criterion.slice(1));
  return values.reduce(
    (sum, [value = 0], at) => sum + ((tested[at]?.[0] ?? Infinity) < limit ? value : 0),
    0,
  );
}

/** The results of the last row, as xlsx-calc computes the sheet. */
export function byXlsxCalc(rows: number): readonly unknown[] {
  xlsxCalc.import_functions({ SUMIFS: sumIfs, [COUNT]: countSphere });
  const sheet: Record<string, { t?: string; v?: unknown; f?: string } | string> = { "!ref": `A1:L${rows}` };
  for (const [row, cells] of largeCells(rows).entries()) {
    for (const [column, cell] of cells.entries()) {
      if (cell === undefined) continue;
      const isFormula = typeof cell === "string" && cell.startsWith("=");
      sheet[cellAddress(row, column)] = isFormula
        ? { t: "n", f: cell.slice(1) }
        : { t: typeof cell === "number" ? "n" : "s", v: cell };
    }
  }
  xlsxCalc({ SheetNames: ["S"], Sheets: { S: sheet } });
  return [2, 3, 4, 5, 6].map((column) => {
    const cell = sheet[cellAddress(rows - 1, column)];
    const value = typeof cell === "object" ? cell.v : undefined;
    // What INDEX gives it keeps as a list of one.
    return Array.isArray(value) ? (value as readonly unknown[])[0] : value;
  });
}
