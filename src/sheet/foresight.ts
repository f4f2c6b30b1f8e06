import type { FormulaPattern } from "./compiled/patterns";
import { cellCount, type SheetRange } from "./rectangles";
import { type FormulaCell, keyOf } from "./sheet-cells";
import type { WorkbookCells } from "./workbook-cells";

/** From a formula to the cell of its sheet that it needed. */
interface Way {
  readonly rows: number;
  readonly columns: number;
}

/**
 * What a formula is likely to need first: cells that one formula was filled into mostly need the neighbour that the one
 * before needed, and to find that out by a computation that ends halfway costs more than to compute it. A formula may do
 * without what was foreseen for it, so it does not count as waiting for it.
 */
export class Foresight {
  private readonly ways = new Map<FormulaPattern, Way>();
  /** Where on the stack something was foreseen for a formula, which is worked on above it. */
  private open: number[] = [];
  /** A formula that nothing is foreseen for: the last one foreseen, or two could name each other for ever. */
  private plain: FormulaCell | undefined;

  /** Begins with an empty stack. */
  begin(): void {
    this.open = [];
  }

  /** Takes note that `cell` could not be computed before `range`. */
  learn({ pattern, sheet, row, column }: FormulaCell, range: SheetRange): void {
    if (pattern === undefined) return;
    if (range.sheet === sheet && cellCount(range) === 1)
      this.ways.set(pattern, { rows: range.firstRow - row, columns: range.firstColumn - column });
    else this.ways.delete(pattern);
  }

  /** Takes note that the top of the stack is worked on. */
  reached(stack: readonly FormulaCell[]): void {
    if (this.open.at(-1) === stack.length - 1) this.open.pop();
  }

  /** A formula that waits to be computed and that the top of the stack may need, to go on the stack above it. */
  neededBy(stack: readonly FormulaCell[], cells: WorkbookCells): FormulaCell | undefined {
    const cell = stack.at(-1);
    const way = cell?.pattern && this.ways.get(cell.pattern);
    if (cell === undefined || way === undefined || cell === this.plain) return undefined;
    const key = keyOf(cell.row + way.rows, cell.column + way.columns);
    const needed = cells.sheet(cell.sheet).formulas.get(key);
    if (needed?.state !== "dirty") return undefined;
    this.plain = needed;
    this.open.push(stack.length - 1);
    return needed;
  }

  /**
   * The formulas of the stack that wait for each other where the top needs `cell`, which waits below. None where something was
   * foreseen between them, which is taken back: whether they wait shows only once each asks for what it needs itself.
   */
  ringOf(stack: FormulaCell[], cell: FormulaCell): readonly FormulaCell[] {
    const from = stack.lastIndexOf(cell);
    const first = this.open.findIndex((at) => at > from);
    const at = this.open[first];
    if (at === undefined) return stack.slice(from).filter(({ state }) => state === "waiting");
    for (const taken of stack.splice(at + 1)) if (taken.state === "waiting") taken.state = "dirty";
    this.plain = stack.at(-1);
    this.open = this.open.slice(0, first);
    return [];
  }
}
