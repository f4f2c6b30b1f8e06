import { PatternReaders } from "./compiled/pattern-readers";
import { Dependents } from "./dependents";
import type { FormulaResults } from "./formula-results";
import type { SheetRange } from "./rectangles";
import type { FormulaCell } from "./sheet-cells";

/** Finds the formulas that read a cell: pattern by pattern, and one by one where a formula has none. */
export class CellReaders {
  private readonly single = new Dependents<FormulaCell>();
  private ofPatterns: PatternReaders | undefined;

  constructor(
    private readonly results: FormulaResults,
    cells: Iterable<FormulaCell>,
  ) {
    for (const cell of cells) this.add(cell);
  }

  add(cell: FormulaCell): void {
    if (cell.pattern === undefined) this.single.add(cell, this.results.readsOf(cell));
    else this.ofPatterns = undefined;
  }

  remove(cell: FormulaCell): void {
    if (cell.pattern === undefined) this.single.remove(cell, this.results.readsOf(cell));
  }

  /** A walk that gives each reading cell about once, however many changed cells it is asked for. */
  walk(): (changed: SheetRange) => Generator<FormulaCell> {
    this.ofPatterns ??= new PatternReaders(this.results.patterns.all());
    const patterns = this.ofPatterns.walk();
    const single = this.single.walk();
    return function* (changed) {
      yield* patterns(changed);
      yield* single(changed);
    };
  }
}
