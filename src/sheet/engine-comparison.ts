import type { CellRange } from "../formula/address";
import type { CellValue, WorkbookModel } from "../workbook/model";
import { isSame, storedFormulas } from "./conformance";
import { placeNumber } from "./place-number";
import {
  type TypedInput,
  type CellPlace,
  type CellSentence,
  isTypedFormula,
  type Recalculation,
  type RecalculateOptions,
  type SheetEngine,
} from "./engine";

/** Makes an engine with nothing loaded. */
export type EngineMaker = () => SheetEngine;

/** A cell set by a person. */
export interface CellEdit extends CellPlace {
  readonly input: TypedInput;
}

/** What an engine makes of one formula. */
export interface CellAnswer {
  readonly value: CellValue;
  readonly spill?: CellRange;
  readonly spilled?: readonly (readonly CellValue[])[];
  /** Why it is not computed. */
  readonly why?: string;
  readonly sentences?: readonly CellSentence[];
  /** Whether the last run computed it; after an edit this tells what the edit reached. */
  readonly isComputed: boolean;
}

/** Which of two engines gives what Excel stored. */
export type RightEngine = "old" | "new" | "both" | "neither";

/** A formula of which two engines do not make the same. */
export interface EngineDifference extends CellPlace {
  readonly formula: string;
  readonly old: CellAnswer;
  readonly new: CellAnswer;
  /** How many edits came before. */
  readonly edits: number;
  /** What the file holds, and who is right, where Excel computed it. */
  readonly stored?: CellValue;
  readonly right?: RightEngine;
}

/** Two engines over one workbook. */
export interface EngineComparison {
  readonly formulas: number;
  readonly differences: readonly EngineDifference[];
  /** What the clock went on by. */
  readonly time: Readonly<Record<"old" | "new", number>>;
}

export interface ComparisonOptions extends Pick<RecalculateOptions, "budget" | "interrupt"> {
  /** Whether the values of the workbook are those that Excel computed. */
  readonly isExcels?: boolean;
  /** The time by any measure, such as that of the processor. Milliseconds by the wall where absent. */
  readonly clock?: () => number;
  /** Cells set one after the other, with a recalculation after each. */
  readonly edits?: readonly CellEdit[];
}

type Answers = ReadonlyMap<number, CellAnswer>;

/**
 * Computes a workbook with one engine, then with the other, and tells every formula of which they do not make the same
 * to the last digit: value, spill, reason for not computing, sentences, and after each edit which formulas it reached.
 */
export async function compareEngines(
  workbook: WorkbookModel,
  makers: Readonly<Record<"old" | "new", EngineMaker>>,
  options: ComparisonOptions = {},
): Promise<EngineComparison> {
  const { edits = [], isExcels = false } = options;
  const formulas = new Map<number, CellPlace & { readonly text: string }>();
  for (const [index, { cells }] of workbook.sheets.entries()) {
    for (const { row, column, formula } of cells) {
      const place = { sheet: index, row, column };
      if (formula !== undefined) formulas.set(placeNumber(place), { ...place, text: formula.text });
    }
  }
  for (const { input, ...place } of edits) {
    if (isTypedFormula(input)) formulas.set(placeNumber(place), { ...place, text: input.formula });
  }
  const old = await answersOf(workbook, makers.old, [...formulas.values()], options);
  const now = await answersOf(workbook, makers.new, [...formulas.values()], options);
  const stored = new Map(
    (isExcels ? workbook.sheets.flatMap(storedFormulas) : []).map((cell) => [placeNumber(cell), cell]),
  );
  const differences = old.runs.flatMap((before, run) =>
    [...before].flatMap(([key, answer]): EngineDifference[] => {
      const other = now.runs[run]?.get(key);
      const formula = formulas.get(key);
      if (other === undefined || formula === undefined || isAlike(answer, other)) return [];
      const { text, ...place } = formula;
      const excels = run === 0 ? stored.get(key) : undefined;
      const isRight = ({ why, ...found }: CellAnswer): boolean =>
        excels !== undefined && why === undefined && isSame(excels.values, excels.value, found);
      const found = { ...place, formula: text, old: answer, new: other, edits: run };
      if (excels === undefined) return [found];
      return [{ ...found, stored: excels.value, right: rightOf(isRight(answer), isRight(other)) }];
    }),
  );
  return { formulas: formulas.size, differences, time: { old: old.time, new: now.time } };
}

function rightOf(old: boolean, now: boolean): RightEngine {
  if (old) return now ? "both" : "old";
  return now ? "new" : "neither";
}

/** Same to the last digit; which zero it is does not show. */
function isAlike(one: CellAnswer, other: CellAnswer): boolean {
  const text = (answer: CellAnswer): string =>
    JSON.stringify(answer, (_, value: unknown) =>
      typeof value === "number" && !isFinite(value) ? String(value) : value,
    );
  return text(one) === text(other);
}

/** What an engine makes of all formulas, after loading and after each edit. An engine that throws has answered so. */
async function answersOf(
  workbook: WorkbookModel,
  make: EngineMaker,
  formulas: readonly CellPlace[],
  { edits = [], budget, interrupt, clock = () => performance.now() }: ComparisonOptions,
): Promise<{ readonly runs: readonly Answers[]; readonly time: number }> {
  const started = clock();
  const engine = make();
  const runs: Answers[] = [];
  const run = async (before: () => Promise<void>): Promise<void> => {
    try {
      await before();
      const outcome = await engine.recalculate({
        volatile: "keep",
        differences: "accept",
        ...(budget === undefined ? {} : { budget }),
        ...(interrupt === undefined ? {} : { interrupt }),
      });
      runs.push(answers(engine, formulas, outcome));
    } catch (error) {
      const why = `the engine threw: ${error instanceof Error ? error.message : String(error)}`;
      runs.push(
        new Map(formulas.map((place) => [placeNumber(place), { value: null, why, isComputed: false }])),
      );
    }
  };
  try {
    await run(() => engine.load(workbook));
    for (const { input, ...place } of edits) await run(() => engine.setCell(place, input));
  } finally {
    engine.dispose();
  }
  return { runs, time: clock() - started };
}

function answers(engine: SheetEngine, formulas: readonly CellPlace[], outcome: Recalculation): Answers {
  const computed = new Map(outcome.computed.map((cell) => [placeNumber(cell), cell]));
  const reasons = new Map(outcome.uncomputed.map((cell) => [placeNumber(cell), cell.why]));
  return new Map(
    formulas.map((place) => {
      const key = placeNumber(place);
      const why = reasons.get(key);
      const cell = computed.get(key);
      const answer: CellAnswer = {
        value: engine.value(place),
        ...(cell?.spill === undefined ? {} : { spill: cell.spill }),
        ...(cell?.spilled === undefined ? {} : { spilled: cell.spilled }),
        ...(why === undefined ? {} : { why }),
        ...(cell?.sentences === undefined ? {} : { sentences: cell.sentences }),
        isComputed: cell !== undefined,
      };
      return [key, answer] as const;
    }),
  );
}
