import { overflow } from "../calc-error";
import { entryAt } from "./entry-at";
import { largestRemainder, raiseLargest } from "./largest-remainder";
import { sum } from "./sums";

// Whole hundredths of a cent: 0.085 a piece times 100 is 8.50 exactly, and sums never drift.
const SUBCENTS_PER_UNIT = 10_000;
const SUBCENTS_PER_CENT = 100;
const MOST_SUBCENTS = Number.MAX_SAFE_INTEGER / 2;

/**
 * An amount of the sheet's currency as whole hundredths of a cent (subcents); further decimals are rounded, halves up.
 *
 * @param amount money in the sheet's currency, 0 or more
 * @returns whole subcents
 * @throws `#NUM!` beyond 450 thousand million
 */
export function subcentsOf(amount: number): number {
  return safeSubcents(nearest(amount * SUBCENTS_PER_UNIT));
}

/**
 * Passes a sum of subcents through where it is still exact.
 *
 * @param subcents whole subcents
 * @returns the same number
 * @throws `#NUM!` where whole numbers are no longer exact
 */
export function safeSubcents(subcents: number): number {
  if (subcents > MOST_SUBCENTS) throw overflow("the amount is too large to be exact to the cent");
  return subcents;
}

/**
 * Whole cents as an amount.
 *
 * @param cents whole cents
 * @returns money in the sheet's currency
 */
export function amountOf(cents: number): number {
  return cents / 100;
}

/**
 * Subcents as an amount rounded to the cent, halves up.
 *
 * @param subcents whole subcents, 0 or more
 * @returns money in the sheet's currency
 */
export function roundedAmount(subcents: number): number {
  return amountOf(nearest(subcents / SUBCENTS_PER_CENT));
}

/**
 * Rounds the lines of a bill to cents so that they add up to the rounded total: the cents that rounding down leaves over
 * go to the lines that lost most.
 *
 * @param lines whole subcents, each 0 or more
 * @returns money per line in the sheet's currency; in cents they add up to the rounded sum of `lines`
 */
export function roundedLines(lines: readonly number[]): readonly number[] {
  const cents = lines.map((line) => Math.floor(line / SUBCENTS_PER_CENT));
  const left = nearest(sum(lines) / SUBCENTS_PER_CENT) - sum(cents);
  raiseLargest(cents, left, (index) => entryAt(lines, index) % SUBCENTS_PER_CENT);
  return cents.map(amountOf);
}

/**
 * Shares an amount out in proportion to weights, in whole cents that add up to the amount.
 *
 * @param amount money in the sheet's currency, whole cents, 0 or more
 * @param weights relative sizes, each 0 or more, at least one above 0
 * @param argument worksheet parameter that holds the weights, for the error sentence
 * @returns money per weight in the sheet's currency
 * @throws `#VALUE!` where no weight is above 0
 */
export function sharedAmount(
  amount: number,
  weights: readonly number[],
  argument?: string,
): readonly number[] {
  return largestRemainder(nearest(amount * 100), weights, argument).map(amountOf);
}

// 1.005 is stored just below itself; 15 digits are what a cell holds, so the decimal that was typed decides.
function nearest(value: number): number {
  return Math.round(Number(value.toPrecision(15)));
}
