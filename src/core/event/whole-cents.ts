import { entryAt } from "../numeric/entry-at";
import { raiseLargest } from "../numeric/largest-remainder";
import { sum } from "../numeric/sums";
import { wholeNearest } from "../numeric/whole";

/** Exact amounts are compared after rounding to this part of a cent, so that equal ones on paper stay equal. */
const COMPARED = 1e6;

/**
 * Rounds amounts to whole cents so that they add up to their rounded total: the cents that rounding down leaves over go to the
 * largest remainders, equal ones to the first.
 * Source: Hamilton's method on the cents.
 *
 * @param amounts exact, sheet's currency, 0 or more
 * @returns whole cents as amounts; they add up to the total, rounded half up
 */
export function wholeCents(amounts: readonly number[]): readonly number[] {
  const exact = amounts.map((amount) => Math.round(amount * 100 * COMPARED) / COMPARED);
  const cents = exact.map(Math.floor);
  const left = wholeNearest(sum(exact)) - sum(cents);
  raiseLargest(cents, left, (index) => Number((entryAt(exact, index) - entryAt(cents, index)).toFixed(6)));
  return cents.map((cent) => cent / 100);
}

/**
 * An amount rounded to the nearest cent, half a cent away from zero.
 *
 * @param amount sheet's currency
 * @returns whole cents as an amount
 */
export function nearestCent(amount: number): number {
  return (Math.sign(amount) * wholeNearest(Math.abs(amount) * 100)) / 100 + 0;
}

/**
 * Adds up amounts of whole cents without binary dust.
 *
 * @param amounts sheet's currency, whole cents
 * @returns their sum, whole cents
 */
export function sumOfCents(amounts: readonly number[]): number {
  return sum(amounts.map((amount) => Math.round(amount * 100))) / 100 + 0;
}
