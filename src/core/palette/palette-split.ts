import { invalid } from "../calc-error";
import { entryAt } from "../numeric/entry-at";
import { largestRemainder, quotas, requirePositiveWeight } from "../numeric/largest-remainder";
import { sum } from "../numeric/sums";

/** How whole numbers are made from shares. */
export type SplitMethod = "largest remainder" | "even rounding";

const PERCENT_SLACK = 0.02;
const PERCENT_LIKE = { from: 0.8, to: 1.2, largest: 0.1 };
const TIE = 1e-12;

/**
 * PALETTE_SPLIT: whole numbers of balloons per colour that add up to the total exactly.
 *
 * `largest remainder` keeps every colour within 1 of its exact share. `even rounding` never takes a balloon from a colour
 * when the total grows. Ties in both: the colour that stands earlier gets the balloon.
 * Sources: Hamilton's and Webster's methods of apportionment (Balinski and Young, Fair Representation, 1982).
 *
 * @param total whole number of balloons, 0 or more
 * @param shares one per colour, 0 or more: shares of 1, percents or ratios such as 2, 1, 1
 * @param method how to round
 * @returns one whole number per colour
 * @throws `#VALUE!` where no share is above 0, or shares that look like percents miss 100 by more than 2 points
 */
export function paletteSplit(
  total: number,
  shares: readonly number[],
  method: SplitMethod = "largest remainder",
): readonly number[] {
  refuseSlippedPercents(shares, "shares");
  return method === "largest remainder" ? largestRemainder(total, shares) : evenRounding(total, shares);
}

/**
 * Refuses shares that were meant as percents but do not add up. They look like percents when they differ from one another,
 * the largest is at least 10 points and the sum is 80 to 120 points; equal shares split the same whatever they add up to.
 *
 * @param shares 0 or more, as shares of 1 or as points of 100
 * @param argument worksheet parameter, with its row where it is a table
 * @throws `#VALUE!` where the sum misses 100 points by more than 2
 */
export function refuseSlippedPercents(shares: readonly number[], argument: string): void {
  const whole = sum(shares);
  const scale = whole > 10 ? 100 : 1;
  const largest = shares.reduce((most, share) => Math.max(most, share), 0);
  const positive = shares.filter((share) => share > 0);
  const looksLikePercent =
    whole >= PERCENT_LIKE.from * scale &&
    whole <= PERCENT_LIKE.to * scale &&
    largest >= PERCENT_LIKE.largest * scale &&
    positive.some((share) => share !== largest);
  if (looksLikePercent && Math.abs(whole / scale - 1) > PERCENT_SLACK + 1e-9) {
    const points = Number(((whole / scale) * 100).toPrecision(6));
    throw invalid(
      argument,
      "add up to 100%",
      { written: `${points}%` },
      "ratios such as 2, 1, 1 are read too",
    );
  }
}

/**
 * Whole numbers in proportion to weights by the divisor method with standard rounding: the next piece goes to the largest
 * weight / (pieces + 1/2). Ties: the earlier weight.
 * Source: Webster's, also Sainte-Lague's, method (Balinski and Young, Fair Representation, 1982).
 *
 * @param total whole number of pieces, 0 or more
 * @param weights relative sizes, each 0 or more, at least one above 0
 * @returns one whole number per weight
 * @throws `#VALUE!` where no weight is above 0
 */
export function evenRounding(total: number, weights: readonly number[]): readonly number[] {
  requirePositiveWeight(weights, "shares");
  // Rounded quotas miss the total by at most half a piece per weight, so the corrections below are few.
  const parts = quotas(total, weights).map(Math.round);
  const claim = (index: number, pieces: number): number => entryAt(weights, index) / (pieces + 0.5);
  let missing = total - sum(parts);
  for (; missing > 0; missing -= 1) {
    let next = 0;
    parts.forEach((part, index) => {
      if (claim(index, part) > claim(next, entryAt(parts, next)) * (1 + TIE)) next = index;
    });
    parts[next] = entryAt(parts, next) + 1;
  }
  for (; missing < 0; missing += 1) {
    let next = parts.findIndex((part) => part > 0);
    parts.forEach((part, index) => {
      if (part > 0 && claim(index, part - 1) <= claim(next, entryAt(parts, next) - 1) * (1 + TIE))
        next = index;
    });
    parts[next] = entryAt(parts, next) - 1;
  }
  return parts;
}
