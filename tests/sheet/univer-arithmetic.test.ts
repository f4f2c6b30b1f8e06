import {
  ArrayValueObject,
  type BaseValueObject,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  NullValueObject,
  NumberValueObject,
  StringValueObject,
} from "@univerjs/engine-formula";
import { afterEach, expect, it, vi } from "vitest";
import { arrayOf } from "../../src/sheet/univer-values";
import { quickenArithmetic } from "../../src/sheet/univer-arithmetic";

const slowSum = ArrayValueObject.prototype.sum;
quickenArithmetic();
afterEach(() => {
  vi.restoreAllMocks();
});

const number = (value: number): BaseValueObject => NumberValueObject.create(value);
const row = (...cells: readonly BaseValueObject[]): ArrayValueObject => arrayOf([[...cells]]);

/** What an array sums up to, and how often two of Univer's numbers were added for it. */
function summed(array: ArrayValueObject): { readonly sum: unknown; readonly additions: number } {
  const plus = vi.spyOn(NumberValueObject.prototype, "plus");
  const sum = array.sum();
  const additions = plus.mock.calls.length;
  plus.mockRestore();
  return { sum: sum.isError() ? (sum as ErrorValueObject).getErrorType() : sum.getValue(), additions };
}

it("sums numbers of few decimals as decimal arithmetic does, without Univer's own addition", () => {
  expect(summed(row(...Array.from({ length: 10 }, () => number(0.1))))).toEqual({ sum: 1, additions: 0 });
});

it("leaves texts, logical values and blanks of an array out, as page SUM says, without giving up on the rest", () => {
  const others = [StringValueObject.create("9"), BooleanValueObject.create(true), NullValueObject.create()];
  for (const other of others)
    expect(summed(row(number(0.1), other, number(0.2)))).toEqual({ sum: 0.3, additions: 0 });
  expect(summed(row(...others))).toEqual({ sum: 0, additions: 0 });
});

it("leaves numbers of many decimals to Univer, whatever stands behind them", () => {
  const array = row(number(1 / 3), number(0.25), number(1));
  const { sum, additions } = summed(array);
  expect(additions).toBeGreaterThan(0);
  expect(sum).toBe(slowSum.call(array).getValue());
  expect(sum).toBeCloseTo(19 / 12, 12);
});

it("passes an error on, wherever it stands", () => {
  const error = ErrorValueObject.create(ErrorType.DIV_BY_ZERO);
  expect(summed(row(error, number(1))).sum).toBe(ErrorType.DIV_BY_ZERO);
  expect(summed(row(number(1), error)).sum).toBe(ErrorType.DIV_BY_ZERO);
});
