import {
  type BaseFunction,
  BaseReferenceObject,
  CELL_INVERTED_INDEX_CACHE,
  type IFunctionService,
  NumberValueObject,
  StringValueObject,
  ValueObjectFactory,
} from "@univerjs/engine-formula";
import type { BlanksBeyond } from "./conditional-functions";
import type { Calculate } from "./plain-functions";
import { type Correction, corrections } from "./corrections";
import { withExactIndex } from "./exact-lookup";
import { cellByCell, PlainFunction, tableOf } from "./plain-functions";
import { readTextInCells } from "./text-arithmetic";
import { regexExtract, regexReplace, regexTest } from "./texts";
import { quickenArithmetic } from "./univer-arithmetic";
import { isOwnCell, valueObject } from "./univer-values";
import { isPattern, wildcardTest } from "./wildcards";

/** Something in Univer that is put right for all functions, once for the process. */
export interface EngineCorrection {
  readonly name: string;
  /** What Univer does wrong, or what it takes too long for. */
  readonly defect: string;
  readonly apply: (functions: IFunctionService) => void;
}

/** Everything in Univer 0.25.1 that is put right for all functions. */
export const ENGINE_CORRECTIONS: readonly EngineCorrection[] = [
  {
    name: "value index",
    defect: "finds values of intermediate results, and texts that spell a number, where they are not",
    apply: closeValueIndex,
  },
  {
    name: "decimal arithmetic",
    defect: "adds and multiplies through a decimal library, tens of times slower",
    apply: quickenArithmetic,
  },
  {
    name: "numbers in formulas",
    defect: "a number that is not written in the shortest way is a text",
    apply: readNumbersAsNumbers,
  },
  {
    name: "texts in cells",
    defect: "a text in a cell that spells a number is an error where a function wants a number",
    apply: readTextInCells,
  },
  {
    name: "values of cells",
    defect: "a text in a cell that looks like an error is that error",
    apply: readCellsAsTheyAre,
  },
  {
    name: "wildcards",
    defect: "matches in a time that grows with the power of their number",
    apply: matchInLinearTime,
  },
  {
    name: "texts in formulas",
    defect: 'a text such as "50%" in a formula is a number',
    apply: keepTexts,
  },
  {
    name: "exact lookup",
    defect: "compares every cell each time",
    apply: lookUpByIndex,
  },
  {
    name: "CELL without reference",
    defect: "lacks an argument instead of telling about its own cell",
    apply: (functions) => {
      const cell = functions.getExecutor("CELL");
      if (cell) cell.minParams = 1;
    },
  },
];

/** Puts right where Univer gives other values than Excel; `without` leaves a correction out. */
export function correctFunctions(
  functions: IFunctionService,
  blanksBeyond: BlanksBeyond,
  without: (correction: Correction | EngineCorrection) => boolean = () => false,
): void {
  functions.registerExecutors(
    new PlainFunction("REGEXTEST", 2, 3, cellByCell(regexTest)),
    new PlainFunction("REGEXEXTRACT", 2, 4, tableOf(regexExtract)),
    new PlainFunction("REGEXREPLACE", 3, 5, cellByCell(regexReplace)),
  );
  for (const correction of ENGINE_CORRECTIONS) if (!without(correction)) correction.apply(functions);
  for (const correction of corrections(blanksBeyond)) {
    if (without(correction)) continue;
    for (const name of correction.functions) {
      const executor = functions.getExecutor(name);
      if (!executor) continue;
      const univer = executor.calculate.bind(executor) as Calculate;
      executor.calculate = correction.correct(univer, name) as BaseFunction["calculate"];
    }
  }
}

/** Text such as "50%" or "18:30" in a formula is text, also where a function takes it. */
function keepTexts(functions: IFunctionService): void {
  for (const executor of functions.getExecutors().values()) {
    executor.isArgumentsIgnoreNumberPattern = () => true;
  }
}

function lookUpByIndex(functions: IFunctionService): void {
  for (const name of ["VLOOKUP", "HLOOKUP", "XLOOKUP"]) {
    const executor = functions.getExecutor(name);
    if (executor) withExactIndex(executor);
  }
}

/**
 * Univer's index of values by cell position also takes in intermediate results, at positions they do not have,
 * and takes text for the number it spells, so that a lookup can find what is not there. Lookups go without it.
 */
function closeValueIndex(): void {
  const index = CELL_INVERTED_INDEX_CACHE;
  index.set = () => undefined;
  index.setContinueBuildingCache = () => undefined;
  index.canUseCache = () => ({ rowsInCache: [], rowsNotInCache: [] });
}

function isNumber(text: string): boolean {
  return /^\s*[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:e[+-]?[0-9]+)?\s*$/i.test(text);
}

const makeValue = ValueObjectFactory.create.bind(ValueObjectFactory);

/** Univer takes a number for text where it is not written in the shortest way, such as 1.50 or 1E3. */
function readNumbersAsNumbers(): void {
  ValueObjectFactory.create = (raw, isIgnoreNumberPattern) =>
    typeof raw === "string" && isNumber(raw)
      ? NumberValueObject.create(Number(raw))
      : makeValue(raw, isIgnoreNumberPattern);
}

type ValueOfCell = typeof BaseReferenceObject.prototype.getCellValueObject;
const valueOfCell = BaseReferenceObject.prototype.getCellValueObject;

/** Univer takes a cell's text for the error that it looks like. */
function readCellsAsTheyAre(): void {
  BaseReferenceObject.prototype.getCellValueObject = function (this: BaseReferenceObject, cell) {
    return isOwnCell(cell) ? valueObject(cell.own) : valueOfCell.call(this, cell);
  } as ValueOfCell;
}

/** Univer makes a regular expression of a text with wildcards, whose time grows with the power of their number. */
function matchInLinearTime(): void {
  const text = StringValueObject.prototype;
  const compareBy = text.compareBy;
  if (patched.has(compareBy)) return;
  const ours: typeof compareBy = function (this: StringValueObject, value, operator, isCaseSensitive) {
    const isMatch = operator === "=" || operator === "<>";
    return isMatch && typeof value === "string" && isPattern(value)
      ? valueObject(matcher(value.toLowerCase())(this.getValue().toLowerCase()) === (operator === "="))
      : compareBy.call(this, value, operator, isCaseSensitive);
  } as typeof compareBy;
  patched.add(ours);
  text.compareBy = ours;
}

const patched = new WeakSet<object>();
let latest: { readonly pattern: string; readonly test: (text: string) => boolean } | undefined;

/** The test for a pattern; it is asked for once for every cell of a range. */
function matcher(pattern: string): (text: string) => boolean {
  if (latest?.pattern !== pattern) latest = { pattern, test: wildcardTest(pattern) };
  return latest.test;
}
