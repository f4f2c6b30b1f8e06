import { ArrayValueObject, type BaseValueObject, NumberValueObject } from "@univerjs/engine-formula";
import { decimalProduct, decimalSum } from "./quick-arithmetic";

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
