import { Decimal } from "decimal.js";
import { decimalProduct, decimalSum } from "../quick-arithmetic";
import { BY_ZERO, NO_NUMBER } from "./operands";
import type { ErrorValue } from "./tree";

type Arithmetic = (a: number, b: number) => number | ErrorValue;

/** The number that decimal arithmetic gives, where the machine's own is no whole number. */
function decimal(quick: number, exact: () => Decimal): number {
  return Number.isSafeInteger(quick) ? quick : exact().toNumber();
}

/** What a cell makes of a number. */
function settled(number: number): number | ErrorValue {
  return Number.isFinite(number) ? number || 0 : NO_NUMBER;
}

/** The product of two numbers by decimal arithmetic; where it is beyond all numbers, infinite. */
export function exactProduct(a: number, b: number): number {
  return decimalProduct(a, b) ?? decimal(a * b, () => new Decimal(a).mul(b));
}

/**
 * Arithmetic of 20 decimal digits, which Univer has too, so that no sum or comparison turns out otherwise here than there.
 * Numbers with few decimals come to the same by whole steps.
 */
export const ARITHMETIC: Readonly<Record<"+" | "-" | "*" | "/" | "^", Arithmetic>> = {
  "+": (a, b) => decimalSum(a, b) ?? settled(decimal(a + b, () => new Decimal(a).add(b))),
  "-": (a, b) => decimalSum(a, -b) ?? settled(decimal(a - b, () => new Decimal(a).sub(b))),
  "*": (a, b) => settled(exactProduct(a, b)),
  "/": (a, b) => (b === 0 ? BY_ZERO : settled(decimal(a / b, () => new Decimal(a).div(b)))),
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
