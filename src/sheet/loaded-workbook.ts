import type { WorkbookModel } from "../workbook/model";
import { CellReaders } from "./cell-readers";
import type { CellPlace, EngineFunction } from "./engine";
import { Foresight } from "./foresight";
import { type EngineOptions, FormulaResults } from "./formula-results";
import { LazyUniver } from "./lazy-univer";
import { reach, type Touching } from "./reach";
import { cellRange, type SheetRange } from "./rectangles";
import type { FormulaCell } from "./sheet-cells";
import { WorkbookCells } from "./workbook-cells";

/** What the engine holds of a workbook, and who reads what in it. */
export class LoadedWorkbook {
  readonly cells: WorkbookCells;
  readonly univer: LazyUniver;
  readonly results: FormulaResults;
  readonly foresight = new Foresight();
  private readers: CellReaders | undefined;

  constructor(workbook: WorkbookModel, functions: readonly EngineFunction[], how: EngineOptions) {
    const cells = new WorkbookCells(workbook);
    this.cells = cells;
    this.univer = new LazyUniver(async () => {
      const { UniverFormulas } = await import(/* webpackChunkName: "univer" */ "./univer-formulas");
      return new UniverFormulas(workbook, functions, (...place) => cells.read(...place));
    });
    this.results = new FormulaResults(workbook, cells, this.univer, functions, how);
  }

  add(cell: FormulaCell): void {
    this.cells.sheet(cell.sheet).addFormula(cell);
    this.results.file(cell);
    this.readers?.add(cell);
  }

  remove(cell: FormulaCell): void {
    this.readers?.remove(cell);
    cell.pattern?.remove(cell);
    this.cells.sheet(cell.sheet).removeFormula(cell);
  }

  /** Takes a cell into the part in use; one outside of it changes what whole columns and rows mean. */
  growTo(place: CellPlace): void {
    const { cells, results } = this;
    if (results.reaches(place)) return;
    results.growTo(place);
    this.readers = undefined;
    for (const cell of cells.formulas()) cells.sheet(cell.sheet).setPending(cell);
  }

  touchCell(cell: FormulaCell, how: Touching = {}): void {
    if (cell.state === "done") this.cells.sheet(cell.sheet).setPending(cell);
    if (how.isTyped === true) cell.isReached = true;
    const filled = cell.area === undefined ? [] : [{ sheet: cell.sheet, ...cell.area }];
    this.touch([cellRange(cell), ...filled], how);
  }

  /** Marks for another evaluation whatever reads the changed cells, and whatever reads that, and so on. */
  touch(changed: readonly SheetRange[], how: Touching = {}): void {
    this.univer.formulas?.forgetValues();
    reach({ cells: this.cells, results: this.results, readers: this.readersOf() }, changed, how);
  }

  /** Finds out who reads which cell. */
  prepare(): void {
    this.readersOf().walk();
  }

  private readersOf(): CellReaders {
    return (this.readers ??= new CellReaders(this.results, this.cells.formulas()));
  }
}
