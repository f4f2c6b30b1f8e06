import { ArrayValueObject, type BaseValueObject, NumberValueObject } from "@univerjs/engine-formula";

/** Largest scaled number whose decimal digits a double holds for certain: 15 of them. */
const MAX_SCALED = 1e15;

/** A number as whole steps of 1 / scale; undefined where it has more decimals, or too many digits. */
function scaled(value: number, scale: number): number | undefined {
  const steps = Math.round(value * scale);
  return steps / scale === value && Math.abs(steps) < MAX_SCALED ? steps : undefined;
}

const SUM_SCALE = 1e6;
const FACTOR_SCALE = 1e3;

/** The sum that decimal arithmetic gives, for numbers of few decimals; undefined for others. */
export function decimalSum(a: number, b: number): number | undefined {
  const left = scaled(a, SUM_SCALE);
  const right = scaled(b, SUM_SCALE);
  return left === undefined || right === undefined ? undefined : (left + right) / SUM_SCALE || 0;
}

/** The product that decimal arithmetic gives, for numbers of few decimals; undefined for others. */
export function decimalProduct(a: number, b: number): number | undefined {
  const left = scaled(a, FACTOR_SCALE);
  const right = scaled(b, FACTOR_SCALE);
  if (left === undefined || right === undefined) return undefined;
  const steps = left * right;
  return Math.abs(steps) < MAX_SCALED ? steps / FACTOR_SCALE ** 2 || 0 : undefined;
}

const numbers = NumberValueObject.prototype;
const arrays = ArrayValueObject.prototype;
const slow = { plusBy: numbers.plusBy, minusBy: numbers.minusBy, multiplyBy: numbers.multiplyBy };
const slowSum = arrays.sum;

/**
 * Univer adds and multiplies through a decimal library, tens of times slower than the machine's own arithmetic.
 * Most amounts and counts have few decimals: for these whole steps give the very same result at once.
 */
export function quickenArithmetic(): void {
  const replace = (name: keyof typeof slow, quick: (a: number, b: number) => number | undefined): void => {
    numbers[name] = function (this: NumberValueObject, value) {
      const result = typeof value === "number" ? quick(this.getValue(), value) : undefined;
      return result === undefined ? slow[name].call(this, value) : NumberValueObject.create(result);
    };
  };
  replace("plusBy", decimalSum);
  replace("minusBy", (a, b) => decimalSum(a, -b));
  replace("multiplyBy", decimalProduct);
  arrays.sum = function (this: ArrayValueObject): BaseValueObject {
    let total: number | undefined = 0;
    this.iterator((cell) => {
      if (!cell || cell.isString() || cell.isBoolean() || cell.isNull()) return true;
      total =
        cell.isNumber() && total !== undefined ? decimalSum(total, cell.getValue() as number) : undefined;
      return total !== undefined;
    });
    return total === undefined ? slowSum.call(this) : NumberValueObject.create(total);
  };
}
