import type { CellValue, WorkbookModel } from "../workbook/model";
import { withinSeconds } from "../functions/search-steps";
import { PatternResults } from "./compiled/pattern-results";
import { FormulaPatterns } from "./compiled/patterns";
import { rangeIn } from "./compiled/references";
import { spelledNumber } from "./compiled/spelled-numbers";
import type { CellPlace, EngineFunction } from "./engine";
import { FormulaTranslator } from "./formula-translation";
import { knowsFunction } from "./known-functions";
import type { LazyUniver } from "./lazy-univer";
import { cellCount, cellRange, mapRange, type SheetRange } from "./rectangles";
import { callsAny, CHANGING, WANDERING } from "./restless-functions";
import { type CellOutcome, type FormulaCell, keyOf, MAX_CELLS_FILLED } from "./sheet-cells";
import { placed } from "./spills";
import { addressFor, dateProblem, type FormulaContext, type Translation } from "./translation";
import { codeOf, differences, mayStand, objection } from "./trust";
import type { Evaluated } from "./univer-formulas";
import { usedPart } from "./vast-ranges";
import { joinedText, type WrittenFormula } from "./written-formula";
import { NotReady, type WorkbookCells } from "./workbook-cells";

/** How formulas are computed. */
export interface EngineOptions {
  /** Whether formulas that were filled into many cells are read and computed together; true where absent. */
  readonly fast?: boolean;
  /** Whether formulas that need Univer keep their stored value; false where absent. */
  readonly isWithoutUniver?: boolean;
}

/** What a run wants of a formula. */
export interface OutcomeOptions {
  /** Milliseconds that it may take. */
  readonly budget: number;
  /** Whether ours takes the place of a stored value in any case. */
  readonly accepts: boolean;
}

const NOT_FOLLOWED = "the engine cannot follow this formula";
/** Errors by which Univer says that it cannot follow a formula. */
const NOT_UNDERSTOOD = ["#NAME?", "#ERROR!", "#CYCLE!"];

/** What stands in the file as the result, with the reason why ours does not. */
export function storedOutcome(cell: FormulaCell, why: string = NOT_FOLLOWED): CellOutcome {
  return { ...cell.stored, why };
}

/** Why a formula has no result that took longer than `budget` milliseconds. */
export function tooSlow(budget: number): string {
  return `it takes longer than ${String(budget / 1000)} s`;
}

/** Computes single formulas of a workbook as it stands: translates, evaluates, places and judges. */
export class FormulaResults {
  private context: FormulaContext;
  private translator: FormulaTranslator;
  private compiled: PatternResults;
  readonly patterns: FormulaPatterns;

  constructor(
    private readonly workbook: WorkbookModel,
    private readonly cells: WorkbookCells,
    private readonly univer: LazyUniver,
    private readonly functions: readonly EngineFunction[],
    private readonly options: EngineOptions,
  ) {
    const { context, translator, compiled } = this.reaching();
    this.context = context;
    this.translator = translator;
    this.compiled = compiled;
    this.patterns = new FormulaPatterns({ context, lookup: translator.lookup });
    for (const cell of cells.formulas()) this.file(cell);
  }

  /** Takes a cell outside the part in use into it. */
  growTo(place: CellPlace): void {
    const { context, translator, compiled } = this.reaching(place);
    this.context = context;
    this.translator = translator;
    this.compiled = compiled;
    for (const cell of this.cells.formulas()) if (cell.translation !== undefined) delete cell.translation;
  }

  /** What depends on the part in use, once `grown` is in it too. */
  private reaching(grown?: CellPlace): {
    readonly context: FormulaContext;
    readonly translator: FormulaTranslator;
    readonly compiled: PatternResults;
  } {
    const { sheets, names, tables } = this.workbook;
    const context = {
      sheetNames: sheets.map(({ name }) => name),
      names,
      tables,
      ...this.cells.extent(grown),
      knowsFunction,
    };
    const ours = new Map(this.functions.map((fn) => [fn.name, fn]));
    const compiled = new PatternResults({
      sheets: sheets.map((_, sheet) => this.cells.sheet(sheet).values),
      extent: context,
      ours: (name) => ours.get(name),
      numberIn: (text) => spelledNumber(text, this.univer.formulas?.numberIn),
    });
    return { context, translator: new FormulaTranslator(context), compiled };
  }

  /** Finds out whether a formula is one that other cells have too. To be called for each new one. */
  file(cell: FormulaCell): void {
    if (cell.translation !== undefined) delete cell.translation;
    cell.pattern = this.options.fast === false ? undefined : this.patterns.add(cell);
  }

  /** Whether a cell lies in the part in use. */
  reaches({ row, column }: CellPlace): boolean {
    return row <= this.context.lastRow && column <= this.context.lastColumn;
  }

  /** The functions that a formula calls. */
  callsOf(cell: FormulaCell): ReadonlySet<string> {
    return cell.pattern?.formula.calls ?? this.translationOf(cell).calls;
  }

  /** Whether the result of a formula changes although nothing it reads does. */
  isChanging(cell: FormulaCell): boolean {
    return cell.pattern?.isChanging ?? callsAny(this.callsOf(cell), CHANGING);
  }

  /** Whether a formula reads other cells than its text says. */
  isWandering(cell: FormulaCell): boolean {
    return cell.pattern?.isWandering ?? callsAny(this.callsOf(cell), WANDERING);
  }

  /** The cells that a formula reads, as far as its text says. */
  readsOf(cell: FormulaCell): readonly SheetRange[] {
    if (cell.pattern === undefined) return this.translationOf(cell).reads;
    return cell.pattern.formula.references.flatMap((reference) => {
      const range = rangeIn(reference, cell);
      return range === undefined ? [] : { ...usedPart(range, this.context), sheet: range.sheet };
    });
  }

  /** The formulas without a result yet that a formula reads. */
  *pendingOf(cell: FormulaCell): Generator<FormulaCell> {
    for (const range of this.readsOf(cell)) yield* this.cells.sheet(range.sheet).pendingIn(range);
  }

  /** Kept with a cell that has no pattern; others share what costs more. */
  private translationOf(cell: FormulaCell): Translation {
    const translation = cell.translation ?? this.translator.translate(cell.formula.text, cell);
    if (cell.pattern === undefined) cell.translation = translation;
    return translation;
  }

  /** Whether a formula is computed without Univer, and so reads cells when it comes to them. */
  isCompiled(cell: FormulaCell): boolean {
    const isLarge = cell.formula.range !== undefined && cellCount(cell.formula.range) > MAX_CELLS_FILLED;
    return cell.held === undefined && !isLarge && this.compiled.computes(cell);
  }

  /**
   * The result of a formula that is computed without Univer; undefined where this cell needs it after all. Throws
   * NeedsResults where it needs others first, BudgetSpent after `budget` milliseconds.
   */
  compiledOutcome(cell: FormulaCell, { budget, accepts }: OutcomeOptions): CellOutcome | undefined {
    const result = withinSeconds(budget / 1000, () => this.compiled.compute(cell, budget));
    if (result === undefined) return undefined;
    // Most results are one value that may stand.
    if (typeof result !== "object" || result === null) {
      const value = result ?? 0;
      if (accepts || cell.isReached || mayStand(cell, value)) return { value };
    }
    return this.settled(cell, this.compiled.evaluated(result), "", accepts);
  }

  /**
   * The result of a formula. Throws NotReady where it needs another first, RefusedFormula where it is not to be computed,
   * BudgetSpent after `budget` milliseconds, and what Univer throws.
   */
  outcome(cell: FormulaCell, { budget, accepts }: OutcomeOptions): CellOutcome | Promise<CellOutcome> {
    const translation = this.translationOf(cell);
    const problem = this.problemOf(cell, translation);
    if (problem !== undefined && !mayBeUnknown(cell, translation)) return storedOutcome(cell, problem);
    const written = this.written(translation, cell.sheet);
    // What is not known here may be unknown to Excel too: then it stored what an unknown name gives.
    const settle = (evaluated: Evaluated): CellOutcome => {
      const text = joinedText(written);
      if (problem === undefined) return this.settled(cell, evaluated, text, accepts);
      const outcome = this.settled(cell, evaluated, text, true);
      return differences(cell.stored, outcome).length === 0 ? cell.stored : storedOutcome(cell, problem);
    };
    const { formulas } = this.univer;
    if (formulas === undefined) throw new Error("Univer was not brought");
    const evaluated = withinSeconds(budget / 1000, () =>
      formulas.evaluate(written, cell, {
        budget,
        ...(translation.shortened === undefined ? {} : { shortened: translation.shortened }),
      }),
    );
    return evaluated instanceof Promise ? evaluated.then(settle) : settle(evaluated);
  }

  private problemOf({ formula, held }: FormulaCell, translation: Translation): string | undefined {
    if (held !== undefined) return held;
    if (formula.kind === "dataTable") return "it is a what-if table";
    if (formula.range !== undefined && cellCount(formula.range) > MAX_CELLS_FILLED)
      return "it fills too many cells";
    if (translation.problem !== undefined) return translation.problem;
    return this.workbook.date1904 ? dateProblem(translation.calls) : undefined;
  }

  private written({ parts }: Translation, sheet: number): WrittenFormula {
    const texts = [""];
    const addresses: string[] = [];
    const write = (text: string): void => {
      texts.push((texts.pop() ?? "") + text);
    };
    for (const part of parts) {
      if (typeof part === "string") {
        write(part);
        continue;
      }
      const address = "address" in part ? part.address : this.spillAddress(part.spillOf, sheet);
      for (const [at, end] of address.split(":").entries()) {
        if (at > 0) write(":");
        addresses.push(end);
        texts.push("");
      }
    }
    return { texts, addresses };
  }

  /** The rectangle that the formula in a cell fills at present, as text. */
  private spillAddress(anchor: SheetRange, sheet: number): string {
    const cell = this.cells.sheet(anchor.sheet).formulas.get(keyOf(anchor.firstRow, anchor.firstColumn));
    if (cell?.state !== "done") {
      if (cell !== undefined) throw new NotReady(cell);
      return "#REF!";
    }
    return addressFor(sheet, { ...(cell.area ?? cellRange(cell)), sheet: anchor.sheet });
  }

  private settled(cell: FormulaCell, evaluated: Evaluated, text: string, accepts: boolean): CellOutcome {
    const isOurs = (code: string): boolean => evaluated.failures.some((failure) => failure.code === code);
    const reads = (test: (value: CellValue) => boolean): boolean => this.reads(cell, test);
    const errors = new Set(evaluated.rows.flat().map(codeOf));
    const odd = NOT_UNDERSTOOD.find((code) => errors.has(code));
    if (odd !== undefined && codeOf(cell.stored.value) !== odd && !isOurs(odd)) {
      if (!reads((value) => codeOf(value) === odd)) return storedOutcome(cell);
    }
    const outcome = withSentence(
      cell,
      evaluated,
      placed(
        cell,
        () => this.readsOf(cell),
        evaluated,
        text,
        (area) => this.cells.sheet(cell.sheet).isBlocked(cell, area),
      ),
    );
    const why =
      accepts || cell.isReached
        ? undefined
        : objection(cell, { calls: this.callsOf(cell), reads: this.readsOf(cell) }, outcome, {
            isOurs,
            reads,
          });
    return why === undefined ? outcome : { ...cell.stored, differs: { ours: outcome.value, why } };
  }

  private reads(cell: FormulaCell, test: (value: CellValue) => boolean): boolean {
    return this.readsOf(cell).some((range) =>
      mapRange(range, (row, column) => this.cells.value({ sheet: range.sheet, row, column }))
        .flat()
        .some(test),
    );
  }
}

function mayBeUnknown({ held, stored, formula }: FormulaCell, { isUnknown }: Translation): boolean {
  const isNamed =
    codeOf(stored.value) === "#NAME?" || /\b(?:IFERROR|IFNA|ISERR|ISERROR)\(/i.test(formula.text);
  return isUnknown === true && held === undefined && isNamed;
}

/** An error that went through an operation may have lost its sentence: then it is that of a call with this error. */
function withSentence(
  { row, column }: FormulaCell,
  { failures }: Evaluated,
  outcome: CellOutcome,
): CellOutcome {
  if (outcome.sentences !== undefined) return outcome;
  const shown = new Set((outcome.table ?? [[outcome.value]]).flat().map(codeOf));
  const failure = failures.find(({ code }) => shown.has(code));
  return failure === undefined
    ? outcome
    : { ...outcome, sentences: [{ row, column, sentence: failure.sentence }] };
}
