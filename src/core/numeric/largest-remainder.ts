import { invalid } from "../calc-error";
import { entryAt } from "./entry-at";
import { sum } from "./sums";

const QUOTA_DIGITS = 14;

/**
 * Share of `total` that each weight is due, before rounding. Kept to 14 digits, so that shares which are
 * equal on paper (half of 5 at 0.1 of 1 and at 0.7 of 1) stay equal after binary rounding and ties are
 * settled by the rule, not by noise.
 *
 * @param total what is shared out, 0 or more
 * @param weights relative sizes, each 0 or more, at least one above 0
 * @returns one quota per weight; they add up to `total` but for rounding
 */
export function quotas(total: number, weights: readonly number[]): readonly number[] {
  const whole = sum(weights);
  return weights.map((weight) => Number(((total * weight) / whole).toPrecision(QUOTA_DIGITS)));
}

/**
 * Whole numbers in proportion to weights that add up to the total exactly: each gets the whole part of its
 * quota, and what is left goes one by one to the largest remainders. Equal remainders: the earlier weight
 * gets it.
 * Source: Hamilton's method of apportionment (Balinski and Young, Fair Representation, 1982).
 *
 * @param total whole number of pieces, 0 or more
 * @param weights relative sizes, each 0 or more, at least one above 0
 * @param argument worksheet parameter that holds the weights, for the error sentence
 * @returns one whole number per weight, within 1 of its quota
 * @throws `#VALUE!` where no weight is above 0
 */
export function largestRemainder(total: number, weights: readonly number[], argument = "shares"): number[] {
  requirePositiveWeight(weights, argument);
  const due = quotas(total, weights);
  const parts = due.map(Math.floor);
  // As many decimals as the largest quota still has, so that a large and a small share with equal remainders tie.
  const largest = due.reduce((most, quota) => Math.max(most, quota), 1);
  const decimals = Math.max(0, QUOTA_DIGITS - 1 - Math.floor(Math.log10(largest)));
  raiseLargest(parts, total - sum(parts), (index) =>
    Number((entryAt(due, index) - entryAt(parts, index)).toFixed(decimals)),
  );
  return parts;
}

/**
 * Adds 1 to the entries with the largest remainders; equal remainders: the earlier entry.
 *
 * @param parts whole numbers, changed in place
 * @param raised how many entries get one more, 0 or more
 * @param remainder what rounding down took from an entry
 */
export function raiseLargest(parts: number[], raised: number, remainder: (index: number) => number): void {
  const rests = parts.map((_, index) => remainder(index));
  const ranked = parts
    .map((_, index) => index)
    .sort((a, b) => entryAt(rests, b) - entryAt(rests, a) || a - b);
  for (const index of ranked.slice(0, Math.max(0, raised))) parts[index] = entryAt(parts, index) + 1;
}

/**
 * Refuses weights that share nothing out.
 *
 * @param weights relative sizes, each 0 or more
 * @param argument worksheet parameter that holds the weights
 * @throws `#VALUE!` where no weight is above 0
 */
export function requirePositiveWeight(weights: readonly number[], argument: string): void {
  if (!weights.some((weight) => weight > 0)) {
    throw invalid(argument, "hold at least one number above 0", { written: "none" });
  }
}
