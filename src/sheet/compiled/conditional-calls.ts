import type { CellValue } from "../../workbook/model";
import { PENDING } from "../column-values";
import { type Criterion, criterionOf } from "../criteria";
import { checkBudget } from "../deadline";
import type { Area } from "./areas";
import { plus } from "./arithmetic";
import {
  type AreaCode,
  type Code,
  type CompileCall,
  type Compiler,
  hasArguments,
  type ValueCode,
} from "./code";
import { BY_ZERO, isError, NO_NUMBER } from "./operands";
import { needsUniver } from "./signals";
import type { ErrorValue, Tree } from "./tree";

/** What becomes of the numbers that were picked; `count` cells were picked in all. */
type Summary = (numbers: readonly number[]) => number | ErrorValue;

const sum: Summary = (numbers) => numbers.reduce(plus, 0);
const mean: Summary = (numbers) =>
  numbers.length === 0 ? BY_ZERO : numbers.reduce(plus, 0) / numbers.length;
/** Nothing found is 0: Microsoft support, MAXIFS. */
const largest: Summary = (numbers) => numbers.reduce((a, b) => Math.max(a, b), numbers[0] ?? 0);
const smallest: Summary = (numbers) => numbers.reduce((a, b) => Math.min(a, b), numbers[0] ?? 0);

/** Results of one formula at hand: sheets ask the same few conditions again and again. */
const MAX_REMEMBERED = 2 ** 14;

/** Picks cells by conditions on others; without a summary it counts them. */
function picking(
  values: Tree | undefined,
  pairs: readonly Tree[],
  summary: Summary | undefined,
  compiler: Compiler,
): Code {
  const valuesCode = values && compiler.area(values);
  const areaCodes: AreaCode[] = [];
  const wantedCodes: ValueCode[] = [];
  for (const [at, tree] of pairs.entries()) {
    if (at % 2 === 0) areaCodes.push(compiler.area(tree));
    else wantedCodes.push(compiler.value(tree));
  }
  const remembered = new Map<string, number | ErrorValue>();
  let latest: readonly Seen[] = [];
  return (row, column) => {
    const areas = areaCodes.map((code) => code(row, column));
    const wanted = wantedCodes.map((code) => code(row, column));
    const [first] = areas;
    if (first === undefined) return needsUniver();
    const from = valuesCode?.(row, column) ?? first;
    if (areas.some(({ height, width }) => height !== from.height || width !== from.width))
      return needsUniver();
    const looked = valuesCode === undefined ? areas : [from, ...areas];
    if (!isSeen(looked, latest) || remembered.size >= MAX_REMEMBERED) {
      remembered.clear();
      latest = looked.map((area) => ({ area, version: area.version }));
    }
    const key = wanted.map(keyOf).join("\u0001");
    const known = remembered.get(key);
    if (known !== undefined) return known;
    const tests = wanted.map((value) => criterionOf(value, compiler.numberIn));
    const result = summary === undefined ? counted(areas, tests) : picked(from, areas, tests, summary);
    remembered.set(key, result);
    return result;
  };
}

/** An area as it was when something was remembered of it. */
interface Seen {
  readonly area: Area;
  readonly version: number;
}

/** Whether areas are those that were seen, and hold what they held. */
function isSeen(areas: readonly Area[], seen: readonly Seen[]): boolean {
  return (
    areas.length === seen.length &&
    areas.every((area, at) => seen[at]?.version === area.version && seen[at].area.isSame(area))
  );
}

function keyOf(value: CellValue): string {
  return isError(value) ? value.error : `${typeof value}${String(value)}`;
}

/** Calls `visit` with the place of each cell within the areas that fulfils all conditions; ends where it gives true. */
function forEachPicked(
  areas: readonly Area[],
  tests: readonly Criterion[],
  height: number,
  visit: (row: number, column: number) => boolean,
): void {
  const width = areas[0]?.width ?? 0;
  const lists = areas.map(({ values, firstColumn }) =>
    Array.from({ length: width }, (_, column) => values.columns[firstColumn + column]?.values ?? []),
  );
  for (let row = 0; row < height; row++) {
    checkBudget();
    for (let column = 0; column < width; column++) {
      const isPicked = tests.every((test, at) => {
        const area = areas[at];
        const value = lists[at]?.[column]?.[(area?.firstRow ?? 0) + row];
        return test(value === PENDING ? (area?.settled(value) ?? null) : (value ?? null));
      });
      if (isPicked && visit(row, column)) return;
    }
  }
}

function counted(areas: readonly Area[], tests: readonly Criterion[]): number {
  const [{ height, width } = { height: 0, width: 0 }] = areas;
  const used = Math.max(...areas.map(({ usedHeight }) => usedHeight));
  let count = 0;
  forEachPicked(areas, tests, used, () => {
    count++;
    return false;
  });
  return count + (tests.every((test) => test(null)) ? (height - used) * width : 0);
}

function picked(
  from: Area,
  areas: readonly Area[],
  tests: readonly Criterion[],
  summary: Summary,
): number | ErrorValue {
  const numbers: number[] = [];
  let failed: ErrorValue | undefined;
  // Cells below what is in use of the values are blank, and a blank one adds nothing.
  forEachPicked(areas, tests, from.usedHeight, (row, column) => {
    const value = from.at(row, column);
    if (typeof value === "number") numbers.push(value);
    else if (isError(value)) failed = value;
    return failed !== undefined;
  });
  const result = failed ?? summary(numbers);
  return typeof result === "number" && !Number.isFinite(result) ? NO_NUMBER : result;
}

/** Values, then pairs of cells and condition; without a summary pairs only. */
const ofPairs =
  (summary: Summary | undefined): CompileCall =>
  (args, compiler) => {
    const [values, pairs] = summary === undefined ? [undefined, args] : [args[0], args.slice(1)];
    if (!hasArguments(args, 2, 255) || pairs.length < 2 || pairs.length % 2 === 1) return undefined;
    return picking(values, pairs, summary, compiler);
  };

/** Cells, one condition, and the values where they are others. */
const ofOne =
  (summary: Summary): CompileCall =>
  (args, compiler) => {
    const [cells, , values = cells] = args;
    if (!hasArguments(args, 2, 3)) return undefined;
    return picking(values, args.slice(0, 2), summary, compiler);
  };

export const CONDITIONAL_CALLS: Readonly<Record<string, CompileCall>> = {
  COUNTIF: (args, compiler) => (args.length === 2 ? ofPairs(undefined)(args, compiler) : undefined),
  COUNTIFS: ofPairs(undefined),
  SUMIF: ofOne(sum),
  AVERAGEIF: ofOne(mean),
  SUMIFS: ofPairs(sum),
  AVERAGEIFS: ofPairs(mean),
  MAXIFS: ofPairs(largest),
  MINIFS: ofPairs(smallest),
};
