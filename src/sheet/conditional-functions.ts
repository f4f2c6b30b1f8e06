import {
  type ArrayValueObject,
  type BaseReferenceObject,
  ErrorType,
  type FunctionVariantType,
  NumberValueObject,
  StringValueObject,
} from "@univerjs/engine-formula";
import type { CellValue } from "../workbook/model";
import { type Criterion, criterionOf } from "./criteria";
import { type Calculate, CellError, errorValue, settled } from "./plain-functions";
import { decimalSum } from "./quick-arithmetic";
import { codeOf } from "./trust";
import { arrayObject, rowsOf, valueObject } from "./univer-values";

/** Cells of a range in one list, with its size and the blank cells below the part in use that it also takes in. */
interface RangeCells {
  readonly cells: readonly CellValue[];
  readonly rows: number;
  readonly columns: number;
  readonly blanksBeyond: number;
}

/** How many blank cells a range that a formula names has beyond the part in use. */
export type BlanksBeyond = (reference: BaseReferenceObject) => number;

const cellLists = new WeakMap<ArrayValueObject, readonly CellValue[]>();
const numbers = new Map<string, number | undefined>();
const MAX_REMEMBERED = 2 ** 16;

/** The number that a text spells; most texts spell none, and the same ones come back for every formula. */
export function numberIn(text: string): number | undefined {
  if (!/\d/.test(text)) return undefined;
  if (numbers.has(text)) return numbers.get(text);
  const value = StringValueObject.create(text).convertToNumberObjectValue();
  const number = value.isError() ? undefined : (value.getValue() as number);
  if (numbers.size >= MAX_REMEMBERED) numbers.clear();
  numbers.set(text, number);
  return number;
}

function rangeCells(
  variant: FunctionVariantType | undefined,
  blanksBeyond: BlanksBeyond,
): RangeCells | undefined {
  if (variant?.isReferenceObject() !== true) return undefined;
  const reference = variant as BaseReferenceObject;
  // Univer gives the same array for the same range until a cell changes.
  const array = reference.toArrayValueObject();
  const cells = cellLists.get(array) ?? rowsOf(array).flat();
  cellLists.set(array, cells);
  return {
    cells,
    rows: array.getRowCount(),
    columns: array.getColumnCount(),
    blanksBeyond: blanksBeyond(reference),
  };
}

/** The sum as decimal arithmetic gives it. */
function plus(a: number, b: number): number {
  return decimalSum(a, b) ?? Number(NumberValueObject.create(a).plusBy(b).getValue());
}

type Summary = (values: readonly CellValue[]) => CellValue;

function numbersOf(values: readonly CellValue[]): readonly number[] {
  return values.filter((value) => {
    const code = codeOf(value);
    if (code !== undefined) throw new CellError(code);
    return typeof value === "number";
  }) as readonly number[];
}

const sum: Summary = (values) => numbersOf(values).reduce(plus, 0);
const mean: Summary = (values) => {
  const found = numbersOf(values);
  return found.length === 0 ? errorValue(ErrorType.DIV_BY_ZERO) : found.reduce(plus, 0) / found.length;
};
const largest: Summary = (values) => numbersOf(values).reduce((a, b) => Math.max(a, b), -Infinity);
const smallest: Summary = (values) => numbersOf(values).reduce((a, b) => Math.min(a, b), Infinity);
/** Nothing found is 0: Microsoft support, MAXIFS. */
const orNothing =
  (summary: Summary): Summary =>
  (values) => {
    const value = summary(values);
    return typeof value === "number" && !Number.isFinite(value) ? 0 : value;
  };

/** Functions that pick cells by conditions, by name; what they cannot take goes to Univer's own. */
export function conditionalFunctions(
  blanksBeyond: BlanksBeyond,
): ReadonlyMap<string, (univer: Calculate) => Calculate> {
  const read = (variant: FunctionVariantType | undefined): RangeCells | undefined =>
    rangeCells(variant, blanksBeyond);
  const ofPairs =
    (hasValues: boolean, summary: Summary | undefined) =>
    (univer: Calculate): Calculate =>
    (...variants) => {
      const values = hasValues ? read(variants[0]) : undefined;
      const rest = hasValues ? variants.slice(1) : variants;
      const ranges = rest.filter((_, at) => at % 2 === 0).map(read);
      const criteria = rest.filter((_, at) => at % 2 === 1);
      return picked(ranges, criteria, hasValues ? values : ranges[0], summary) ?? univer(...variants);
    };
  const ofOne =
    (summary: Summary) =>
    (univer: Calculate): Calculate =>
    (range, criterion, values) => {
      const given = [range, criterion, values].filter((variant) => variant !== undefined);
      const cells = read(range);
      if (criterion === undefined) return univer(...given);
      return (
        picked([cells], [criterion], values === undefined ? cells : read(values), summary) ?? univer(...given)
      );
    };
  return new Map([
    ["COUNTIF", ofPairs(false, undefined)],
    ["COUNTIFS", ofPairs(false, undefined)],
    ["SUMIF", ofOne(sum)],
    ["AVERAGEIF", ofOne(mean)],
    ["SUMIFS", ofPairs(true, sum)],
    ["AVERAGEIFS", ofPairs(true, mean)],
    ["MAXIFS", ofPairs(true, orNothing(largest))],
    ["MINIFS", ofPairs(true, orNothing(smallest))],
  ]);
}

/** The summary of the cells that fulfil all conditions, for each condition of an array; undefined where Univer must. */
function picked(
  ranges: readonly (RangeCells | undefined)[],
  criteria: readonly FunctionVariantType[],
  values: RangeCells | undefined,
  summary: Summary | undefined,
): ReturnType<Calculate> | undefined {
  const [first] = ranges;
  if (values === undefined || first === undefined || ranges.length !== criteria.length) return undefined;
  const isOdd = (range: RangeCells | undefined): boolean =>
    range?.rows !== values.rows || range.columns !== values.columns;
  if (ranges.some(isOdd)) return undefined;
  const wanted = criteria.map((criterion) => rowsOf(criterion));
  const height = Math.max(...wanted.map((rows) => rows.length));
  const width = Math.max(...wanted.map((rows) => rows[0]?.length ?? 1));
  return arrayObject(
    Array.from({ length: height }, (_, row) =>
      Array.from({ length: width }, (_, column) => {
        const tests = wanted.map((rows) => {
          const line = rows.length === 1 ? rows[0] : rows[row];
          return criterionOf((line?.length === 1 ? line[0] : line?.[column]) ?? null, numberIn);
        });
        return valueObject(
          settled(() => pickedOnce(ranges as readonly RangeCells[], tests, values, summary)),
        );
      }),
    ),
  );
}

function pickedOnce(
  ranges: readonly RangeCells[],
  tests: readonly Criterion[],
  values: RangeCells,
  summary: Summary | undefined,
): CellValue {
  const found: CellValue[] = [];
  for (let at = 0; at < values.cells.length; at++) {
    if (tests.every((test, index) => test(ranges[index]?.cells[at] ?? null)))
      found.push(values.cells[at] ?? null);
  }
  if (summary !== undefined) return summary(found);
  const matchesBlanks = tests.every((test) => test(null));
  return found.length + (matchesBlanks ? Math.min(...ranges.map((range) => range.blanksBeyond)) : 0);
}
