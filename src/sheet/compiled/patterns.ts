import { contains } from "../../formula/address";
import { type FormulaTemplate, parseFormula } from "../../formula/shift";
import { callsAny, CHANGING, WANDERING } from "../restless-functions";
import type { FormulaCell } from "../sheet-cells";
import { untrusted } from "../trust";
import { isFilledDown } from "./filled-down";
import { type Names, parsePlain } from "./parser";
import { distanceText } from "./references";
import type { PlainFormula } from "./tree";

/** A formula that was filled into several cells, and those cells. */
export class FormulaPattern {
  /** Its cells by column, from the top down. */
  readonly cells = new Map<number, FormulaCell[]>();

  /** Whether all its functions are known to agree with Excel. */
  readonly isTrusted: boolean;
  /** Whether its results change although nothing it reads does. */
  readonly isChanging: boolean;
  /** Whether it reads other cells than its text says. */
  readonly isWandering: boolean;

  constructor(
    readonly sheet: number,
    readonly formula: PlainFormula,
  ) {
    this.isTrusted = untrusted(formula).length === 0;
    this.isChanging = callsAny(formula.calls, CHANGING);
    this.isWandering = callsAny(formula.calls, WANDERING);
  }

  add(cell: FormulaCell): void {
    const cells = this.cells.get(cell.column);
    if (cells === undefined) this.cells.set(cell.column, [cell]);
    else cells.splice(firstAtOrBelow(cells, cell.row), 0, cell);
  }

  remove(cell: FormulaCell): void {
    const cells = this.cells.get(cell.column) ?? [];
    const at = cells.indexOf(cell);
    if (at >= 0) cells.splice(at, 1);
  }
}

/** Position of the first cell of a column in or below a row. */
export function firstAtOrBelow(cells: readonly FormulaCell[], row: number): number {
  let low = 0;
  let high = cells.length;
  // Cells come from the top down as a rule.
  if ((cells.at(-1)?.row ?? -1) < row) return high;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((cells[middle]?.row ?? 0) < row) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The last formula read in a column, with which the next one is compared first. */
interface Above {
  readonly template: FormulaTemplate;
  readonly row: number;
  readonly pattern: FormulaPattern | undefined;
}

/** Finds which formulas of a workbook are one and the same, filled into several cells. */
export class FormulaPatterns {
  private readonly patterns = new Map<string, FormulaPattern | undefined>();
  private readonly above = new Map<string, Above>();

  constructor(private readonly names: Names) {}

  *all(): Generator<FormulaPattern> {
    for (const pattern of this.patterns.values()) if (pattern !== undefined) yield pattern;
  }

  /** Files a cell with its pattern; undefined where the formula means something else in each cell. */
  add(cell: FormulaCell): FormulaPattern | undefined {
    const pattern = this.patternOf(cell);
    pattern?.add(cell);
    return pattern;
  }

  private patternOf(cell: FormulaCell): FormulaPattern | undefined {
    const { sheet, row, column, formula } = cell;
    const { text } = formula;
    if (formula.kind === "dataTable") return undefined;
    const hasStructure = text.includes("[");
    const place = `${String(sheet)}!${String(column)}`;
    const above = hasStructure ? undefined : this.above.get(place);
    if (above !== undefined && isFilledDown(above.template, text, row - above.row)) return above.pattern;
    const template = parseFormula(text);
    const parts = [String(sheet), distanceText(template, row, column)];
    if (hasStructure) parts.push(this.tablesAt(cell));
    const key = parts.join("!");
    if (!this.patterns.has(key)) {
      const plain = parsePlain(text, cell, this.names);
      this.patterns.set(key, plain && new FormulaPattern(sheet, plain));
    }
    const pattern = this.patterns.get(key);
    if (!hasStructure) this.above.set(place, { template, row, pattern });
    return pattern;
  }

  /** Where a cell stands with regard to the tables, on which "this row" and a table without a name depend. */
  private tablesAt({ sheet, row, column }: FormulaCell): string {
    return this.names.context.tables
      .map((table) => {
        const { range, headerRows, totalsRows } = table;
        const isBeside = row >= range.firstRow + headerRows && row <= range.lastRow - totalsRows;
        const isInside = table.sheet === sheet && contains(range, row, column);
        return `${isBeside ? "b" : ""}${isInside ? "i" : ""}`;
      })
      .join();
  }
}
