import type { CellValue } from "../../workbook/model";
import { exactProduct } from "./arithmetic";
import { type CompileCall, hasArguments } from "./code";
import { BY_ZERO, isError, NO_NUMBER } from "./operands";
import { needsUniver } from "./signals";
import type { ErrorValue } from "./tree";

type OfNumbers = (first: number, second: number) => number | ErrorValue;

/**
 * Functions of numbers, to the last digit as Univer has them: where all arguments are numbers there is nothing else that the
 * formula could mean.
 */
const ofNumbers =
  (count: 1 | 2, compute: OfNumbers): CompileCall =>
  (args, compiler) => {
    if (!hasArguments(args, count)) return undefined;
    const codes = args.map((tree) => compiler.value(tree));
    return (row, column): CellValue => {
      const numbers: number[] = [];
      for (const code of codes) {
        const value = code(row, column);
        if (isError(value) && codes.length === 1) return value;
        numbers.push(typeof value === "number" ? value : needsUniver());
      }
      const [first = 0, second = 0] = numbers;
      const result = compute(first, second);
      if (typeof result !== "number") return result;
      return Number.isFinite(result) ? result || 0 : NO_NUMBER;
    };
  };

/** Rounds steps of a decimal place that may lie a hair beside what they stand for. */
type RoundSteps = (steps: number, hair: number) => number;

const near: RoundSteps = (steps, hair) => Math.round(steps + hair);
const down: RoundSteps = (steps, hair) => Math.floor(steps + hair);
const up: RoundSteps = (steps, hair) => Math.ceil(steps - hair);

/** A number from 0 up, rounded to so many decimals. */
function rounded(number: number, digits: number, round: RoundSteps): number {
  const factor = 10 ** Math.trunc(digits);
  const steps = exactProduct(number, factor);
  return round(steps, Number.EPSILON * Math.max(1, Math.abs(steps))) / factor;
}

/** To so many decimals, below 0 as above it. */
const toDigits =
  (round: RoundSteps): OfNumbers =>
  (number, digits) =>
    number < 0 ? -rounded(-number, digits, round) : rounded(number, digits, round);

/** To a multiple; what 0 as the multiple gives is the function's own. */
const toMultiple =
  (round: RoundSteps, ofNothing: number | ErrorValue): OfNumbers =>
  (number, step) => {
    if (number > 0 && step < 0) return NO_NUMBER;
    if (number === 0) return 0;
    return step === 0 ? ofNothing : rounded(number / step, 0, round) * step;
  };

/** How many times a divisor may go into a number. Source: Microsoft support, MOD. */
const MOST_TIMES = 1_125_900_000_000;

const modulo: OfNumbers = (number, divisor) => {
  if (divisor === 0) return BY_ZERO;
  if (Math.abs(divisor) * MOST_TIMES <= Math.abs(number)) return NO_NUMBER;
  return number - divisor * Math.floor(number / divisor);
};

export const NUMBER_CALLS: Readonly<Record<string, CompileCall>> = {
  ROUND: ofNumbers(2, toDigits(near)),
  ROUNDUP: ofNumbers(2, toDigits(up)),
  ROUNDDOWN: ofNumbers(2, toDigits(down)),
  INT: ofNumbers(1, Math.floor),
  CEILING: ofNumbers(2, toMultiple(up, 0)),
  FLOOR: ofNumbers(2, toMultiple(down, BY_ZERO)),
  MOD: ofNumbers(2, modulo),
  ABS: ofNumbers(1, Math.abs),
  SQRT: ofNumbers(1, Math.sqrt),
};
