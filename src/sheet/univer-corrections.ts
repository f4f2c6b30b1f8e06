import {
  ArrayValueObject,
  type BaseFunction,
  type BaseValueObject,
  CELL_INVERTED_INDEX_CACHE,
  ErrorType,
  ErrorValueObject,
  type FunctionVariantType,
  type IFunctionService,
  NumberValueObject,
  ValueObjectFactory,
} from "@univerjs/engine-formula";
import { withExactIndex } from "./exact-lookup";
import { quickenArithmetic } from "./quick-arithmetic";
import { MAX_CELLS_FILLED } from "./sheet-cells";

/** Ends the evaluation of a formula that must keep its stored value; `message` is the reason, for a person. */
export class RefusedFormula extends Error {}

type Calculate = (...variants: FunctionVariantType[]) => ReturnType<BaseFunction["calculate"]>;

/** Puts right where Univer's functions give other values than Excel's. Each is a defect of 0.25.1. */
export function correctFunctions(functions: IFunctionService): void {
  closeValueIndex();
  quickenArithmetic();
  readNumbersAsNumbers();
  const wrap = (names: readonly string[], make: (calculate: Calculate) => Calculate): void => {
    for (const name of names) {
      const executor = functions.getExecutor(name);
      if (executor)
        executor.calculate = make(
          executor.calculate.bind(executor) as Calculate,
        ) as BaseFunction["calculate"];
    }
  };
  for (const executor of functions.getExecutors().values()) {
    // Text such as "50%" or "18:30" in a formula is text, also where a function takes it.
    executor.isArgumentsIgnoreNumberPattern = () => true;
  }
  for (const name of ["VLOOKUP", "HLOOKUP", "XLOOKUP"]) {
    const executor = functions.getExecutor(name);
    if (executor) withExactIndex(executor);
  }
  // SORT reorders the array it is given, which is the cached content of the range: it gets a copy.
  wrap(
    ["SORT"],
    (calculate) =>
      (array, ...rest) =>
        calculate(...[array].filter(isGiven).map(copied), ...rest),
  );
  // Negative numbers lose their last step; negative parts of months round down instead of towards zero; an EDATE
  // beyond the end of a month runs into the next; ISO weeks of years that begin on a Saturday count one less.
  wrap(["TRUNC"], (calculate) => forNumbers(calculate, truncated));
  wrap(["EDATE"], (calculate) => forNumbers(calculate, (start, months) => movedMonths(start, months, "day")));
  wrap(["EOMONTH"], (calculate) =>
    forNumbers(calculate, (start, months) => movedMonths(start, months, "end")),
  );
  wrap(["ISOWEEKNUM"], (calculate) => forNumbers(calculate, (date) => isoWeek(date)));
  wrap(["WEEKNUM"], (calculate) =>
    forNumbers(calculate, (date, kind) => (kind === 21 ? isoWeek(date) : undefined)),
  );
  // Nothing found is an empty text instead of 0.
  wrap(["MAXIFS", "MINIFS"], (calculate) => (...variants) => {
    const result = calculate(...variants);
    return contentOf(single(result as FunctionVariantType)) === "" ? NumberValueObject.create(0) : result;
  });
  // Text counts as true.
  wrap(["IF"], (calculate) => (condition, ...rest) => {
    return condition !== undefined && isOddText(single(condition))
      ? wrongValue()
      : calculate(condition, ...rest);
  });
  wrap(["AND", "OR", "XOR"], (calculate) => (...variants) => {
    return variants.some((variant) => !variant.isArray() && isOddText(variant))
      ? wrongValue()
      : calculate(...variants);
  });
  // Temperatures are rounded to two decimals, and some of Excel's units are missing.
  wrap(["CONVERT"], (calculate) => (...variants) => {
    const [number, from, to] = variants.map((variant) => contentOf(single(variant)));
    const [source, target] = [temperatureScale(from), temperatureScale(to)];
    if (typeof number !== "number" || source === undefined || target === undefined) {
      const result = calculate(...variants);
      if (!result.isError() || variants.some((variant) => single(variant).isError())) return result;
      throw new RefusedFormula("CONVERT does not know these units here");
    }
    return NumberValueObject.create((number + source.zero) * (source.step / target.step) - target.zero);
  });
  wrap(["SEQUENCE", "RANDARRAY", "MAKEARRAY"], (calculate) => (...variants) => {
    const [rows = 1, columns = 1] = variants
      .slice(0, 2)
      .map((variant) => Number(contentOf(single(variant))) || 1);
    if (rows * columns > MAX_CELLS_FILLED) throw new RefusedFormula("its result has too many cells");
    return calculate(...variants);
  });
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

const NUMBER = /^\s*[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:e[+-]?[0-9]+)?\s*$/i;
const makeValue = ValueObjectFactory.create.bind(ValueObjectFactory);

/** Univer takes a number for text where it is not written in the shortest way, such as 1.50 or 1E3. */
function readNumbersAsNumbers(): void {
  ValueObjectFactory.create = (raw, isIgnoreNumberPattern) =>
    typeof raw === "string" && NUMBER.test(raw)
      ? NumberValueObject.create(Number(raw))
      : makeValue(raw, isIgnoreNumberPattern);
}

function isGiven<Item>(item: Item | undefined): item is Item {
  return item !== undefined;
}

function copied(variant: FunctionVariantType): FunctionVariantType {
  if (!variant.isArray()) return variant;
  const array = variant as ArrayValueObject;
  return arrayOf(array.getArrayValue().map((row) => [...row]));
}

function arrayOf(rows: ReturnType<ArrayValueObject["getArrayValue"]>): ArrayValueObject {
  return ArrayValueObject.create({
    calculateValueList: rows,
    rowCount: rows.length,
    columnCount: rows[0]?.length ?? 0,
    unitId: "",
    sheetId: "",
    row: -1,
    column: -1,
  });
}

/** The value itself, or the only cell of an array. */
function single(variant: FunctionVariantType): FunctionVariantType {
  if (!variant.isArray()) return variant;
  const array = variant as ArrayValueObject;
  return array.getRowCount() === 1 && array.getColumnCount() === 1 ? array.getFirstCell() : variant;
}

function contentOf(variant: FunctionVariantType): unknown {
  if (variant.isReferenceObject() || variant.isArray()) return undefined;
  return (variant as BaseValueObject).getValue();
}

function isOddText(variant: FunctionVariantType): boolean {
  const content = contentOf(variant);
  return typeof content === "string" && !variant.isError() && !/^(?:true|false)$/i.test(content);
}

function wrongValue(): BaseValueObject {
  return ErrorValueObject.create(ErrorType.VALUE);
}

/** Computes by `compute` where all arguments are numbers, cell by cell; leaves all else to Univer. */
function forNumbers(
  calculate: Calculate,
  compute: (first: number, second: number | undefined) => number | undefined,
): Calculate {
  return (...variants) => {
    const [first, second] = variants;
    if (first === undefined) return calculate(...variants);
    if (first.isArray() && single(first) === first) {
      if (second?.isArray() === true && single(second) === second) return calculate(...variants);
      const cells = (first as ArrayValueObject).getArrayValue();
      return arrayOf(
        cells.map((row) =>
          row.map((cell) => (cell ? (calculateOne(cell, second) as BaseValueObject) : wrongValue())),
        ),
      );
    }
    return calculateOne(first, second);
  };

  function calculateOne(
    first: FunctionVariantType,
    second: FunctionVariantType | undefined,
  ): ReturnType<Calculate> {
    const rest = second === undefined ? [] : [second];
    const [number, other] = [first, ...rest].map((variant) => contentOf(single(variant)));
    const isNumeric = typeof number === "number" && (second === undefined || typeof other === "number");
    const result = isNumeric ? compute(number, typeof other === "number" ? other : undefined) : undefined;
    return result === undefined ? calculate(first, ...rest) : NumberValueObject.create(result);
  }
}

function truncated(number: number, digits = 0): number | undefined {
  // Decimal text keeps 2.3 with one digit from becoming 2.2.
  const whole = Math.trunc(Number(`${String(number)}e${String(Math.trunc(digits))}`));
  const result = Number(`${String(whole)}e${String(-Math.trunc(digits))}`);
  return Number.isFinite(result) ? result : undefined;
}

/** Day numbers of 1970-01-01, and of 1900-03-01, before which Excel counts a day that never was. */
const EPOCH_1970 = 25_569;
const FIRST_REGULAR_DAY = 61;
const DAY = 86_400_000;

function movedMonths(start: number, months = 0, to: "day" | "end"): number | undefined {
  if (start < FIRST_REGULAR_DAY) return undefined;
  const date = new Date((Math.floor(start) - EPOCH_1970) * DAY);
  const [year, month] = [date.getUTCFullYear(), date.getUTCMonth() + Math.trunc(months)];
  const last = new Date(Date.UTC(year, month + 1, 0));
  const day = to === "end" ? last.getUTCDate() : Math.min(date.getUTCDate(), last.getUTCDate());
  const result = Date.UTC(year, month, day) / DAY + EPOCH_1970;
  return result >= FIRST_REGULAR_DAY ? result : undefined;
}

/** ISO 8601: the week belongs to the year of its Thursday. */
function isoWeek(date: number): number | undefined {
  if (date < FIRST_REGULAR_DAY) return undefined;
  const day = Math.floor(date);
  // Day 2 of Excel's count is a Monday.
  const thursday = day - ((day - 2) % 7) + 3;
  const year = new Date((thursday - EPOCH_1970) * DAY).getUTCFullYear();
  return Math.floor((thursday - (Date.UTC(year, 0, 1) / DAY + EPOCH_1970)) / 7) + 1;
}

/** Kelvins of one degree, and degrees from absolute zero to the scale's own zero. */
const SCALES: Readonly<Record<string, { readonly step: number; readonly zero: number }>> = {
  C: { step: 1, zero: 273.15 },
  cel: { step: 1, zero: 273.15 },
  F: { step: 5 / 9, zero: 459.67 },
  fah: { step: 5 / 9, zero: 459.67 },
  K: { step: 1, zero: 0 },
  kel: { step: 1, zero: 0 },
  Rank: { step: 5 / 9, zero: 0 },
  Reau: { step: 5 / 4, zero: 218.52 },
};

function temperatureScale(unit: unknown): { readonly step: number; readonly zero: number } | undefined {
  return typeof unit === "string" && Object.hasOwn(SCALES, unit) ? SCALES[unit] : undefined;
}
