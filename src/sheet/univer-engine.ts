import type { CellValue, WorkbookModel } from "../workbook/model";
import { NeedsResults } from "./compiled/signals";
import { recalculationOf } from "./cell-reports";
import { BudgetSpent } from "./deadline";
import {
  type TypedInput,
  type CellPlace,
  type EngineFunction,
  isTypedFormula,
  type Recalculation,
  type RecalculateOptions,
  type SheetEngine,
} from "./engine";
import { type EngineOptions, storedOutcome, tooSlow } from "./formula-results";
import { LoadedWorkbook } from "./loaded-workbook";
import { cellRange, covers, intersects, type SheetRange } from "./rectangles";
import { type CellOutcome, type FormulaCell, keyOf, newCell, takeOutcome } from "./sheet-cells";
import { RefusedFormula } from "./refused-formula";
import { NotReady } from "./workbook-cells";

/** Milliseconds of work after which the engine lets others have the thread. */
const SLICE = 40;
/** The same where each slice is watched by a thread of its own, which costs as much as some formulas. */
const WATCHED_SLICE = 200;
/** Milliseconds that a formula may take where nobody says otherwise. */
const BUDGET = 2000;
/** Evaluations of one cell in one run after which it counts as unsettled: spills can push each other about. */
const MAX_RUNS = 25;
const REFERS_TO_ITSELF = "it refers to itself, directly or through others";

/** The spreadsheet engine on Univer's formula language, with a schedule of its own. */
export class UniverEngine implements SheetEngine {
  private state: LoadedWorkbook | undefined;
  /** Cells done since a run last came to its end: a run that was stopped leaves its results to the next. */
  private finished = new Set<FormulaCell>();
  /** Cells whose code turned out not to do in this run. */
  private readonly leftToUniver = new Set<FormulaCell>();
  private options: RecalculateOptions = {};
  /** The formula under evaluation. */
  private current: FormulaCell | undefined;

  constructor(
    private readonly functions: readonly EngineFunction[],
    private readonly how: EngineOptions = {},
  ) {}

  load(workbook: WorkbookModel): Promise<void> {
    this.dispose();
    this.state = new LoadedWorkbook(workbook, this.functions, this.how);
    return Promise.resolve();
  }

  setCell(place: CellPlace, input: TypedInput): Promise<void> {
    const loaded = this.loaded();
    const sheet = loaded.cells.sheet(place.sheet);
    const key = keyOf(place.row, place.column);
    const old = sheet.formulas.get(key);
    const changed: SheetRange[] = [cellRange(place)];
    if (old !== undefined) {
      if (old.area !== undefined) changed.push({ sheet: place.sheet, ...old.area });
      loaded.remove(old);
      this.finished.delete(old);
    }
    const owner = sheet.spilled.get(key);
    // From here on the cell is no part of what fills it.
    sheet.spilled.delete(key);
    if (isTypedFormula(input)) {
      const text = input.formula.replace(/^=/, "");
      const cell = newCell(place, { text, kind: "dynamic" }, { error: "#NAME?" });
      cell.isReached = true;
      loaded.add(cell);
    } else sheet.setConstant(place.row, place.column, input);
    loaded.growTo(place);
    loaded.touch(changed, { isTyped: true });
    if (owner !== undefined) loaded.touchCell(owner, { isTyped: true });
    for (const cell of sheet.formulas.values()) {
      if (cell.blocked !== undefined && intersects(cell.blocked, cellRange(place)))
        loaded.touchCell(cell, { isTyped: true });
    }
    return Promise.resolve();
  }

  hold({ sheet, row, column }: CellPlace, why: string): void {
    const cell = this.loaded().cells.sheet(sheet).formulas.get(keyOf(row, column));
    if (cell === undefined) return;
    cell.held = why;
    this.loaded().touchCell(cell);
  }

  async recalculate(options: RecalculateOptions = {}): Promise<Recalculation> {
    const { cells, univer, results } = this.loaded();
    const { onProgress, first } = options;
    this.options = options;
    this.leftToUniver.clear();
    univer.formulas?.forgetValues();
    for (const cell of cells.formulas()) {
      cell.runs = 0;
      if (cell.state !== "done") continue;
      const isAccepted = cell.differs !== undefined && options.differences === "accept";
      if (isAccepted || results.isChanging(cell)) this.loaded().touchCell(cell);
    }
    const total = cells.pendingCount + this.finished.size;
    try {
      if (first !== undefined) {
        const early = first.ranges.flatMap((range) => [...cells.sheet(range.sheet).pendingIn(range)]);
        await this.work(early, total);
        first.done();
      }
      for (let queue = cells.pending(); queue.length > 0; queue = cells.pending())
        await this.work(queue, total);
    } finally {
      for (const cell of cells.formulas()) if (cell.state === "waiting") cell.state = "dirty";
    }
    onProgress?.(1);
    const outcome = recalculationOf(this.finished, [...cells.formulas()]);
    this.finished = new Set();
    return outcome;
  }

  prepare(): void {
    this.loaded().prepare();
  }

  value(place: CellPlace): CellValue {
    return this.loaded().cells.value(place);
  }

  async evaluate(place: CellPlace, formula: string): Promise<CellValue> {
    const cell = newCell(place, { text: formula, kind: "array" }, null);
    try {
      const { univer, results } = this.loaded();
      await univer.bring();
      const outcome = await results.outcome(cell, { budget: BUDGET, accepts: true });
      return outcome.why === undefined ? outcome.value : null;
    } catch {
      return null;
    }
  }

  dispose(): void {
    this.state?.univer.dispose();
    this.state = undefined;
    this.finished = new Set();
  }

  private loaded(): LoadedWorkbook {
    if (this.state === undefined) throw new Error("no workbook is loaded");
    return this.state;
  }

  /** Computes formulas and what they read. */
  private async work(queue: FormulaCell[], total: number): Promise<void> {
    const { onProgress, signal } = this.options;
    queue.reverse();
    this.loaded().foresight.begin();
    const stack: FormulaCell[] = [];
    while (stack.length > 0 || queue.length > 0) {
      await this.slice(stack, queue);
      onProgress?.(Math.min(1, this.finished.size / total));
      await new Promise((resolve) => setTimeout(resolve));
      signal?.throwIfAborted();
    }
  }

  /** Works on the formulas of the stack, then on the last of the queue, until the time of a slice is over. */
  private async slice(stack: FormulaCell[], queue: FormulaCell[]): Promise<void> {
    const { budget = BUDGET, interrupt } = this.options;
    const slice = interrupt === undefined ? SLICE : WATCHED_SLICE;
    const end = performance.now() + slice;
    let waiting: Promise<unknown> | undefined;
    const work = (): void => {
      do {
        const next = stack.at(-1) ?? queue.pop();
        if (next === undefined) return;
        if (stack.length === 0) stack.push(next);
        waiting = this.advance(stack);
      } while (waiting === undefined && performance.now() < end);
    };
    if (interrupt === undefined) work();
    else {
      try {
        interrupt(work, budget + slice);
      } catch (error) {
        const current = this.current ?? stack.at(-1);
        if (current === undefined) throw error;
        this.current = undefined;
        this.loaded().univer.formulas?.abandon();
        this.finish(current, storedOutcome(current, tooSlow(budget)));
      }
    }
    await waiting;
  }

  /** One step towards the result of the cell on top of the stack: what it reads first, then the cell itself. */
  private advance(stack: FormulaCell[]): Promise<unknown> | undefined {
    const { results, univer, cells, foresight } = this.loaded();
    const cell = stack.at(-1);
    foresight.reached(stack);
    if (cell === undefined || cell.state === "done") {
      stack.pop();
      return undefined;
    }
    if (this.options.volatile === "keep" && results.isChanging(cell)) {
      this.finish(cell, cell.stored);
      return undefined;
    }
    const isCompiled = !this.leftToUniver.has(cell) && results.isCompiled(cell);
    if (!isCompiled && this.how.isWithoutUniver === true) {
      this.finish(cell, storedOutcome(cell));
      return undefined;
    }
    if (cell.state === "dirty") {
      const foreseen = foresight.neededBy(stack, cells);
      if (foreseen !== undefined) {
        stack.push(foreseen);
        return undefined;
      }
      cell.state = "waiting";
      // Compiled formulas read when they come to it, so that a branch that is not taken is not waited for.
      if (!isCompiled && this.pushPending(stack, results.pendingOf(cell))) return undefined;
    }
    if (!isCompiled && univer.formulas === undefined) return univer.bring();
    const { budget = BUDGET, differences, onFormula } = this.options;
    const how = { budget, accepts: differences === "accept" };
    this.current = cell;
    onFormula?.(cell);
    try {
      const outcome = isCompiled ? results.compiledOutcome(cell, how) : results.outcome(cell, how);
      if (outcome instanceof Promise) return this.settleLater(stack, cell, outcome);
      this.settle(cell, outcome);
    } catch (error) {
      this.takeFailure(stack, cell, error);
    }
    return undefined;
  }

  private async settleLater(
    stack: FormulaCell[],
    cell: FormulaCell,
    outcome: Promise<CellOutcome>,
  ): Promise<void> {
    try {
      this.settle(cell, await outcome);
    } catch (error) {
      this.takeFailure(stack, cell, error);
    }
  }

  /** Gives a cell its result; one whose code does not do for it waits for Univer. */
  private settle(cell: FormulaCell, outcome: CellOutcome | undefined): void {
    this.current = undefined;
    if (outcome !== undefined) {
      this.finish(cell, outcome);
      return;
    }
    this.leftToUniver.add(cell);
    cell.state = "dirty";
  }

  /** What an evaluation throws: that it needs other results first, or why the cell has none. */
  private takeFailure(stack: FormulaCell[], cell: FormulaCell, error: unknown): void {
    this.current = undefined;
    const { budget = BUDGET } = this.options;
    if (error instanceof NotReady) this.pushPending(stack, [error.cell]);
    else if (error instanceof NeedsResults) {
      this.loaded().foresight.learn(cell, error.range);
      this.pushPending(stack, this.loaded().cells.sheet(error.range.sheet).pendingIn(error.range));
    } else if (error instanceof BudgetSpent) this.finish(cell, storedOutcome(cell, tooSlow(budget)));
    else this.finish(cell, storedOutcome(cell, error instanceof RefusedFormula ? error.message : undefined));
  }

  /** Puts formulas that are needed first on the stack. A formula that waits for itself gets no result. */
  private pushPending(stack: FormulaCell[], pending: Iterable<FormulaCell>): boolean {
    let isWaiting = false;
    for (const cell of pending) {
      isWaiting = true;
      if (cell.state === "dirty") {
        stack.push(cell);
        continue;
      }
      const ring = this.loaded().foresight.ringOf(stack, cell);
      for (const member of ring) this.finish(member, storedOutcome(member, REFERS_TO_ITSELF));
      return true;
    }
    return isWaiting;
  }

  private finish(cell: FormulaCell, outcome: CellOutcome): void {
    const [before, { area }] = [cell.area, outcome];
    const sheet = this.loaded().cells.sheet(cell.sheet);
    sheet.setArea(cell, area);
    takeOutcome(cell, outcome);
    sheet.setDone(cell);
    cell.runs++;
    this.finished.add(cell);
    if (area === undefined || (before !== undefined && covers(before, area))) return;
    if (cell.runs > MAX_RUNS) cell.why = "it does not come to rest";
    else this.loaded().touch([{ sheet: cell.sheet, ...area }], { except: cell });
  }
}
