import type { CellValue } from "../../workbook/model";
import { startBudget } from "../deadline";
import type { CellSentence } from "../engine";
import { knownError } from "../known-errors";
import type { FormulaCell } from "../sheet-cells";
import type { Evaluated } from "../univer-formulas";
import { Area } from "./areas";
import { type Code, type FailedCall, isTable, type TableResult } from "./code";
import { compile, type CodeSurroundings } from "./compile";
import { isError, NO_VALUE, storable } from "./operands";
import type { FormulaPattern } from "./patterns";
import { NeedsUniver } from "./signals";

/** Computes formulas by the code of their patterns. */
export class PatternResults {
  private readonly codes = new Map<FormulaPattern, Code | undefined>();
  private readonly surroundings: CodeSurroundings;
  private failures: FailedCall[] = [];

  constructor(surroundings: Omit<CodeSurroundings, "fail">) {
    this.surroundings = {
      ...surroundings,
      fail: ({ error }, sentence) => {
        const failure = { error: { error: knownError(error) }, sentence };
        this.failures.push(failure);
        return failure.error;
      },
    };
  }

  /** Whether the formula of a cell is one that is computed here. */
  computes({ pattern, formula }: FormulaCell): boolean {
    return pattern !== undefined && formula.kind !== "array" && this.codeOf(pattern) !== undefined;
  }

  /**
   * The result of a formula; undefined where it turns out to be Univer's to compute. Throws NeedsResults where it needs
   * others first, and BudgetSpent after `budget` milliseconds.
   */
  compute(
    { row, column, pattern, formula }: FormulaCell,
    budget: number,
  ): CellValue | TableResult | undefined {
    const code = pattern && this.codeOf(pattern);
    if (code === undefined) return undefined;
    startBudget(budget);
    if (this.failures.length > 0) this.failures = [];
    try {
      const result = code(row, column);
      if (result instanceof Area) return result.height > 1 || result.width > 1 ? undefined : result.at(0, 0);
      return isTable(result) && formula.kind !== "dynamic" ? undefined : result;
    } catch (error) {
      if (error instanceof NeedsUniver) return undefined;
      throw error;
    }
  }

  /** The latest result with what is known of its errors. */
  evaluated(result: CellValue | TableResult): Evaluated {
    return isTable(result) ? this.filled(result) : this.single(result);
  }

  private codeOf(pattern: FormulaPattern): Code | undefined {
    const known = this.codes.get(pattern);
    if (known !== undefined || this.codes.has(pattern)) return known;
    const code = compile(pattern.formula.tree, this.surroundings);
    this.codes.set(pattern, code);
    return code;
  }

  private single(value: CellValue): Evaluated {
    const failure = isError(value) ? this.failures.find(({ error }) => error === value) : undefined;
    return {
      rows: [[value]],
      sentences: failure === undefined ? [] : [{ row: 0, column: 0, sentence: failure.sentence }],
      failures: this.failures.map(({ error, sentence }) => ({ code: error.error, sentence })),
      isSpread: false,
    };
  }

  private filled({ table }: TableResult): Evaluated {
    const sentences: CellSentence[] = [];
    const width = Math.max(0, ...table.map((cells) => cells.length));
    const rows = table.map((cells, row) =>
      Array.from({ length: width }, (_, column): CellValue => {
        const cell = cells[column];
        if (typeof cell === "object") {
          const error = this.surroundings.fail({ error: cell.error }, cell.sentence);
          sentences.push({ row, column, sentence: cell.sentence });
          return error;
        }
        return cell === undefined ? NO_VALUE : storable(cell);
      }),
    );
    const failures = this.failures.map(({ error, sentence }) => ({ code: error.error, sentence }));
    return { rows, sentences, failures, isSpread: false };
  }
}
