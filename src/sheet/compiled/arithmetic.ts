import { NumberValueObject, type BaseValueObject } from "@univerjs/engine-formula";
import { decimalProduct, decimalSum } from "../quick-arithmetic";
import { BY_ZERO, NO_NUMBER } from "./operands";
import type { ErrorValue } from "./tree";

type Arithmetic = (a: number, b: number) => number | ErrorValue;

/** What Univer's decimal arithmetic gives, so that no sum or comparison turns out otherwise here than there. */
function decimal(name: "plusBy" | "minusBy" | "multiplyBy" | "dividedBy"): Arithmetic {
  return (a, b) => numericResult(NumberValueObject.create(a)[name](b));
}

/** A number or error of Univer's. */
function numericResult(value: BaseValueObject): number | ErrorValue {
  const content = value.getValue();
  if (value.isError()) return { error: String(content) };
  const number = Number(content);
  if (!Number.isFinite(number)) return NO_NUMBER;
  return number === 0 ? 0 : number;
}

const slow = {
  sum: decimal("plusBy"),
  difference: decimal("minusBy"),
  product: decimal("multiplyBy"),
  quotient: decimal("dividedBy"),
};

export const ARITHMETIC: Readonly<Record<"+" | "-" | "*" | "/" | "^", Arithmetic>> = {
  "+": (a, b) => decimalSum(a, b) ?? slow.sum(a, b),
  "-": (a, b) => decimalSum(a, -b) ?? slow.difference(a, b),
  "*": (a, b) => decimalProduct(a, b) ?? slow.product(a, b),
  "/": (a, b) => {
    if (b === 0) return BY_ZERO;
    const whole = a / b;
    return Number.isSafeInteger(whole) ? whole || 0 : slow.quotient(a, b);
  },
  "^": (a, b) => {
    if (a === 0 && b <= 0) return b === 0 ? NO_NUMBER : BY_ZERO;
    const power = a ** b;
    return Number.isFinite(power) ? power || 0 : NO_NUMBER;
  },
};

/** The sum of two numbers; where it is beyond all numbers, infinite. */
export function plus(a: number, b: number): number {
  const sum = ARITHMETIC["+"](a, b);
  return typeof sum === "number" ? sum : Infinity;
}
