import type { CellValue } from "../workbook/model";
import { CellError, isCells, numberOf, type PlainArgument } from "./plain-functions";
import { codeOf } from "./trust";

/** Numbers of ranges, and what typed values stand for; errors end it. Text, logical values and blanks of ranges are left out. */
export function numbersIn(args: readonly PlainArgument[]): readonly number[] {
  return args.flatMap((argument) => (isCells(argument) ? numbersOfCells(argument) : [numberOf(argument)]));
}

function numbersOfCells(rows: readonly (readonly CellValue[])[]): number[] {
  return rows.flat().flatMap((value) => {
    const code = codeOf(value);
    if (code !== undefined) throw new CellError(code);
    return typeof value === "number" ? [value] : [];
  });
}

/** As `numbersIn`, with text of ranges as 0 and logical values as 0 and 1. */
function valuesIn(args: readonly PlainArgument[]): readonly number[] {
  return args.flatMap((argument) =>
    isCells(argument)
      ? argument.flat().flatMap((value) => {
          if (value === null) return [];
          return [typeof value === "string" ? 0 : numberOf(value)];
        })
      : [numberOf(argument)],
  );
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}

function need(isGiven: boolean, code: string): void {
  if (!isGiven) throw new CellError(code);
}

function meanOf(numbers: readonly number[], none = "#DIV/0!"): number {
  need(numbers.length > 0, none);
  return sum(numbers) / numbers.length;
}

/** Sum of powers of the deviations from the mean. */
function deviations(numbers: readonly number[], power: number): number {
  const mean = meanOf(numbers);
  return sum(numbers.map((number) => (number - mean) ** power));
}

function variance(numbers: readonly number[], isSample: boolean): number {
  const count = numbers.length - (isSample ? 1 : 0);
  need(count > 0, "#DIV/0!");
  return deviations(numbers, 2) / count;
}

type OfNumbers = (numbers: readonly number[]) => number;

const OF_NUMBERS: Readonly<Record<string, OfNumbers>> = {
  GEOMEAN(numbers) {
    need(numbers.length > 0 && numbers.every((number) => number > 0), "#NUM!");
    return Math.exp(sum(numbers.map(Math.log)) / numbers.length);
  },
  HARMEAN(numbers) {
    need(numbers.length > 0, "#N/A");
    need(
      numbers.every((number) => number > 0),
      "#NUM!",
    );
    return numbers.length / sum(numbers.map((number) => 1 / number));
  },
  AVEDEV(numbers) {
    const mean = meanOf(numbers, "#NUM!");
    return meanOf(numbers.map((number) => Math.abs(number - mean)));
  },
  DEVSQ(numbers) {
    need(numbers.length > 0, "#NUM!");
    return deviations(numbers, 2);
  },
  KURT(numbers) {
    const n = numbers.length;
    need(n > 3, "#DIV/0!");
    const spread = deviations(numbers, 2) / (n - 1);
    need(spread > 0, "#DIV/0!");
    const fourth = deviations(numbers, 4) / spread ** 2;
    return (n * (n + 1) * fourth) / ((n - 1) * (n - 2) * (n - 3)) - (3 * (n - 1) ** 2) / ((n - 2) * (n - 3));
  },
  SKEW(numbers) {
    const n = numbers.length;
    need(n > 2, "#DIV/0!");
    const spread = Math.sqrt(variance(numbers, true));
    need(spread > 0, "#DIV/0!");
    return (n * deviations(numbers, 3)) / ((n - 1) * (n - 2) * spread ** 3);
  },
  "SKEW.P"(numbers) {
    need(numbers.length > 2, "#DIV/0!");
    const spread = Math.sqrt(variance(numbers, false));
    need(spread > 0, "#DIV/0!");
    return deviations(numbers, 3) / numbers.length / spread ** 3;
  },
  STDEV: (numbers) => Math.sqrt(variance(numbers, true)),
  "STDEV.S": (numbers) => Math.sqrt(variance(numbers, true)),
  STDEVP: (numbers) => Math.sqrt(variance(numbers, false)),
  "STDEV.P": (numbers) => Math.sqrt(variance(numbers, false)),
  VAR: (numbers) => variance(numbers, true),
  "VAR.S": (numbers) => variance(numbers, true),
  VARP: (numbers) => variance(numbers, false),
  "VAR.P": (numbers) => variance(numbers, false),
};

const OF_VALUES: Readonly<Record<string, OfNumbers>> = {
  AVERAGEA: (numbers) => meanOf(numbers),
  STDEVA: (numbers) => Math.sqrt(variance(numbers, true)),
  STDEVPA: (numbers) => Math.sqrt(variance(numbers, false)),
  VARA: (numbers) => variance(numbers, true),
  VARPA: (numbers) => variance(numbers, false),
};

/** Two lists, pair by pair; a pair without two numbers is left out. */
function pairsOf(a: PlainArgument, b: PlainArgument): readonly (readonly [number, number])[] {
  const [left, right] = [a, b].map((argument) => (isCells(argument) ? argument.flat() : [argument]));
  if (left === undefined || right === undefined) return [];
  need(left.length === right.length, "#N/A");
  const failing = [...left, ...right].map(codeOf).find((code) => code !== undefined);
  if (failing !== undefined) throw new CellError(failing);
  return left.flatMap((value, at) => {
    const other = right[at];
    return typeof value === "number" && typeof other === "number" ? [[value, other] as const] : [];
  });
}

interface Moments {
  readonly n: number;
  readonly meanX: number;
  readonly meanY: number;
  readonly xx: number;
  readonly yy: number;
  readonly xy: number;
}

function moments(pairs: readonly (readonly [number, number])[]): Moments {
  const n = pairs.length;
  need(n > 0, "#DIV/0!");
  const meanX = sum(pairs.map(([x]) => x)) / n;
  const meanY = sum(pairs.map(([, y]) => y)) / n;
  return {
    n,
    meanX,
    meanY,
    xx: sum(pairs.map(([x]) => (x - meanX) ** 2)),
    yy: sum(pairs.map(([, y]) => (y - meanY) ** 2)),
    xy: sum(pairs.map(([x, y]) => (x - meanX) * (y - meanY))),
  };
}

function ratio(a: number, b: number): number {
  need(b !== 0, "#DIV/0!");
  return a / b;
}

/** The first list is y where the order matters. */
const OF_PAIRS: Readonly<Record<string, (y: PlainArgument, x: PlainArgument) => number>> = {
  CORREL(a, b) {
    const { xx, yy, xy } = moments(pairsOf(b, a));
    return ratio(xy, Math.sqrt(xx * yy));
  },
  RSQ(y, x) {
    const { xx, yy, xy } = moments(pairsOf(x, y));
    return ratio(xy ** 2, xx * yy);
  },
  SLOPE(y, x) {
    const { xx, xy } = moments(pairsOf(x, y));
    return ratio(xy, xx);
  },
  INTERCEPT(y, x) {
    const { meanX, meanY, xx, xy } = moments(pairsOf(x, y));
    return meanY - ratio(xy, xx) * meanX;
  },
  STEYX(y, x) {
    const { n, xx, yy, xy } = moments(pairsOf(x, y));
    need(n > 2, "#DIV/0!");
    return Math.sqrt((yy - ratio(xy ** 2, xx)) / (n - 2));
  },
  "COVARIANCE.P"(a, b) {
    const { n, xy } = moments(pairsOf(a, b));
    return xy / n;
  },
  "COVARIANCE.S"(a, b) {
    const { n, xy } = moments(pairsOf(a, b));
    return ratio(xy, n - 1);
  },
};

const SYNONYMS = { PEARSON: "CORREL", COVAR: "COVARIANCE.P" } as const;

/** Statistics of lists by the name of the function. */
export const STATISTICS: ReadonlyMap<string, (...args: PlainArgument[]) => CellValue> = new Map([
  ...Object.entries(OF_NUMBERS).map(
    ([name, compute]) => [name, (...args: PlainArgument[]) => compute(numbersIn(args))] as const,
  ),
  ...Object.entries(OF_VALUES).map(
    ([name, compute]) => [name, (...args: PlainArgument[]) => compute(valuesIn(args))] as const,
  ),
  ...[
    ...Object.entries(OF_PAIRS),
    ...Object.entries(SYNONYMS).map(([name, same]) => [name, OF_PAIRS[same]] as const),
  ].map(
    ([name, compute]) =>
      [name, (a: PlainArgument, b: PlainArgument) => compute?.(a, b) ?? null] as readonly [
        string,
        (...args: PlainArgument[]) => CellValue,
      ],
  ),
]);

/** FREQUENCY: how many numbers lie up to each bound and above the one before it, and above them all. */
export function frequencies(
  data: PlainArgument = null,
  bounds: PlainArgument = null,
): readonly (readonly CellValue[])[] {
  const values = numbersIn([data]);
  const limits = numbersIn([bounds]);
  const ascending = [...new Set(limits)].sort((a, b) => a - b);
  const counts = new Map(ascending.map((limit) => [limit, 0]));
  let above = 0;
  for (const value of values) {
    const limit = ascending.find((bound) => value <= bound);
    if (limit === undefined) above++;
    else counts.set(limit, (counts.get(limit) ?? 0) + 1);
  }
  const seen = new Set<number>();
  const rows = limits.map((limit) => {
    const count = seen.has(limit) ? 0 : (counts.get(limit) ?? 0);
    seen.add(limit);
    return [count];
  });
  return [...rows, [above]];
}
