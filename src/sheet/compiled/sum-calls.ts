import type { CellValue } from "../../workbook/model";
import { Area } from "./areas";
import { ARITHMETIC, plus } from "./arithmetic";
import { type AreaCode, type Code, type CompileCall, hasArguments } from "./code";
import { isError, NO_NUMBER, operandNumber, VALUE_ERROR } from "./operands";
import { needsUniver } from "./signals";
import type { ErrorValue } from "./tree";

/** Takes numbers one by one and sums them up. */
interface Summary {
  add(number: number): void;
  result(): number | ErrorValue;
}

function summing(): Summary {
  let sum = 0;
  return {
    add(number) {
      sum = plus(sum, number);
    },
    result: () => sum,
  };
}

function averaging(): Summary {
  let sum = 0;
  let count = 0;
  return {
    add(number) {
      sum = plus(sum, number);
      count++;
    },
    result: () => ARITHMETIC["/"](sum, count),
  };
}

function extreme(isBeyond: (a: number, b: number) => boolean): () => Summary {
  return () => {
    let found: number | undefined;
    return {
      add(number) {
        if (found === undefined || isBeyond(number, found)) found = number;
      },
      result: () => found ?? 0,
    };
  };
}

/** Numbers of references count, and what arguments stand for; the first error ends it. */
const ofNumbers =
  (start: () => Summary): CompileCall =>
  (args, compiler) => {
    if (!hasArguments(args, 1, 255)) return undefined;
    const codes = args.map((tree) => compiler.any(tree));
    return (row, column) => {
      const summary = start();
      for (const code of codes) {
        const failed = addAll(summary, code(row, column));
        if (failed !== undefined) return failed;
      }
      const result = summary.result();
      return typeof result === "number" && !Number.isFinite(result) ? NO_NUMBER : result;
    };
  };

function addAll(summary: Summary, result: ReturnType<Code>): ErrorValue | undefined {
  if (result instanceof Area) {
    let failed: ErrorValue | undefined;
    result.forEach((value) => {
      if (typeof value === "number") summary.add(value);
      else if (isError(value)) failed = value;
      return failed !== undefined;
    });
    return failed;
  }
  // A text that a call gave is for Univer to take or leave.
  if (result === null || typeof result === "string") return needsUniver();
  if (typeof result === "object" && !isError(result)) return needsUniver();
  const number = operandNumber(result);
  if (typeof number !== "number") return number;
  summary.add(number);
  return undefined;
}

/** Counts cells of references, and arguments, that pass a test. */
const counting =
  (counts: (value: Exclude<CellValue, null>) => boolean): CompileCall =>
  (args, compiler) => {
    if (!hasArguments(args, 1, 255)) return undefined;
    const codes = args.map((tree) => compiler.any(tree));
    return (row, column) => {
      let count = 0;
      for (const code of codes) {
        const result = code(row, column);
        if (!(result instanceof Area)) return needsUniver();
        result.forEach((value) => {
          if (counts(value)) count++;
          return false;
        });
      }
      return count;
    };
  };

/** The sum of products of areas of one size: what is no number counts as 0. */
const sumOfProducts: CompileCall = (args, compiler) => {
  if (!hasArguments(args, 2, 255)) return undefined;
  const [firstCode, ...codes] = args.map((tree) => compiler.area(tree)) as [AreaCode, ...AreaCode[]];
  return (row, column) => {
    const first = firstCode(row, column);
    const areas = [first, ...codes.map((code) => code(row, column))];
    if (areas.some(({ height, width }) => height !== first.height || width !== first.width))
      return VALUE_ERROR;
    let failed: ErrorValue | undefined;
    first.forEach((value) => {
      if (isError(value)) failed = value;
      return failed !== undefined;
    });
    if (failed !== undefined) return failed;
    let sum = 0;
    const height = Math.max(...areas.map(({ usedHeight }) => usedHeight));
    for (let down = 0; down < height; down++) {
      for (let across = 0; across < first.width; across++) {
        let product = 1;
        for (const area of areas) {
          const value = area.at(down, across);
          if (isError(value)) return value;
          product = typeof value === "number" ? product * value : 0;
        }
        sum += product;
      }
    }
    return Number.isFinite(sum) ? sum || 0 : NO_NUMBER;
  };
};

export const SUM_CALLS: Readonly<Record<string, CompileCall>> = {
  SUM: ofNumbers(summing),
  AVERAGE: ofNumbers(averaging),
  MIN: ofNumbers(extreme((a, b) => a < b)),
  MAX: ofNumbers(extreme((a, b) => a > b)),
  COUNT: counting((value) => typeof value === "number"),
  COUNTA: counting(() => true),
  SUMPRODUCT: sumOfProducts,
};
