import { type CalcError, invalid, overflow, unavailable } from "../calc-error";
import { entryAt } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import { countOf, tally } from "../numeric/tally";
import { BREAKAGE_INDOORS, SPARES_CONFIDENCE } from "../practice";

const ROUNDING = 1e-12;
const WIDEST_SPREAD = 3e6;
const LEAST_CONFIDENCE = 0.5;
const TINY = 1e-280;
const FEW = 100;
const HUGE = 1e200;
/** In standard deviations: what lies lower has a chance below 1e-300. */
const FAR_BELOW = 40;

/**
 * COUNT_WITH_SPARES: how many to take so that `count` good ones are there with the confidence wanted, when each fails on
 * its own with the same chance.
 * Source: negative binomial quantile; probabilities by Loader, Fast and Accurate Computation of Binomial Probabilities
 * (2000).
 *
 * @param count good ones needed, whole, 0 or more
 * @param breakage chance that one fails, 0 to 1
 * @param confidence chance of having enough, 0.5 (the risk typed for the confidence lies below) to below 1
 * @returns whole number to take, at least `count`
 * @throws `#VALUE!` where confidence is out of range, `#N/A` where all of them fail, `#NUM!` where failures swamp the good ones
 */
export function countWithSpares(
  count: number,
  breakage: number = BREAKAGE_INDOORS.value,
  confidence: number = SPARES_CONFIDENCE.value,
): number {
  const risk = riskOf(confidence);
  if (count === 0 || breakage === 0) return count;
  if (breakage >= 1) throw allBreak();
  const good = 1 - breakage;
  const spread = Math.sqrt(count * breakage) / good;
  if (spread > WIDEST_SPREAD) throw tooWide();
  if (count * breakage < FEW * good && risk > 1 / (FEW * FEW))
    return count + fewFailures(count, breakage, risk);
  let failures = guess(count, breakage, spread, confidence);
  let tail = failureTail(failures, count, breakage);
  for (let step = 1; tail > risk; step *= 2) {
    failures += step;
    tail = failureTail(failures, count, breakage);
  }
  let chance = failureChance(failures, count, breakage);
  while (failures > 0 && tail + chance <= risk) {
    tail += chance;
    chance *= failures / (breakage * (failures - 1 + count));
    failures -= 1;
    // A chance that has run out of digits cannot grow back.
    if (!(chance > TINY)) chance = failureChance(failures, count, breakage);
  }
  return count + failures;
}

/** How many good ones are needed of balloons that fail alike. */
export interface BreakageGroup {
  /** Good ones needed, whole, 0 or more. */
  readonly count: number;
  /** Chance that one fails, 0 to 1. */
  readonly breakage: number;
}

/**
 * Balloons that a job uses up on average: the means of negative binomials, added up.
 *
 * @param groups good ones needed and breakages below 1
 * @returns the sum of count / (1 - breakage), not whole
 * @throws `#N/A` where all of a group fail
 */
export function expectedUse(groups: readonly BreakageGroup[]): number {
  const wanted = groups.filter(({ count }) => count > 0);
  if (wanted.some(({ breakage }) => breakage >= 1)) throw allBreak();
  return sum(wanted.map(({ count, breakage }) => count / (1 - breakage)));
}

/**
 * How many of one item to take where its places fail with different chances (indoors and outdoors in one event), so that
 * good ones fill all places with the confidence wanted. One group gives `countWithSpares`.
 * Source: failures are a sum of independent negative binomials, whose generating function is the product of
 * ((1 - b) / (1 - b z))^n; its logarithmic derivative gives m P(m) = sum of n A(m), A(m) = b (A(m - 1) + P(m - 1)), a
 * recursion without differences (the way of Panjer, ASTIN Bulletin 12 (1981) 22, and De Pril, ASTIN Bulletin 16 (1986) 9).
 *
 * @param groups good ones needed and breakages of one item; groups of one breakage are pooled
 * @param confidence chance of having enough, 0.5 to below 1
 * @returns whole number to take, at least the sum of the counts
 * @throws as `countWithSpares`
 */
export function mixedSpares(
  groups: readonly BreakageGroup[],
  confidence: number = SPARES_CONFIDENCE.value,
): number {
  const risk = riskOf(confidence);
  const needed = groups.filter(({ count }) => count > 0);
  const pooled = tally(needed.map(({ count, breakage }) => [breakage, count]));
  const sure = countOf(pooled, 0);
  const failing = [...pooled].flatMap(([breakage, count]) => (breakage === 0 ? [] : [{ count, breakage }]));
  if (failing.some(({ breakage }) => breakage >= 1)) throw allBreak();
  const [only, ...others] = failing;
  if (only === undefined) return sure;
  if (others.length === 0) return sure + countWithSpares(only.count, only.breakage, confidence);
  return sure + sum(failing.map(({ count }) => count)) + mixedFailures(failing, risk);
}

/** The smallest number of failures that are outnumbered with a chance of at most `risk`. */
function mixedFailures(groups: readonly BreakageGroup[], risk: number): number {
  const mean = sum(groups.map(({ count, breakage }) => (count * breakage) / (1 - breakage)));
  const spread = Math.sqrt(
    sum(groups.map(({ count, breakage }) => (count * breakage) / (1 - breakage) ** 2)),
  );
  if (spread * groups.length > WIDEST_SPREAD) throw tooWide();
  const first = Math.max(0, Math.floor(mean - FAR_BELOW * spread));
  const terms = mixedChances(groups, first, risk);
  const total = sum(terms.toReversed());
  let tail = 0;
  for (let at = terms.length - 1; at > 0; at -= 1) {
    tail += entryAt(terms, at);
    if (tail > risk * total) return first + at;
  }
  return first;
}

/**
 * Chances of `first` failures, one more, and so on, all times one unknown factor. A start above 0 takes all A alike: where
 * the state is wrong there, the recursion forgets it, a step times (largest b) / (growth of P), long before the mean.
 */
function mixedChances(groups: readonly BreakageGroup[], first: number, risk: number): number[] {
  const counts = groups.map(({ count }) => count);
  const breakages = groups.map(({ breakage }) => breakage);
  const sums = groups.map((): number => (first === 0 ? 0 : 1));
  let chance = 1;
  const chances = [chance];
  for (let failures = first + 1, total = chance; ; failures += 1) {
    let next = 0;
    for (let g = 0; g < sums.length; g += 1) {
      const added = entryAt(breakages, g) * (entryAt(sums, g) + chance);
      sums[g] = added;
      next += entryAt(counts, g) * added;
    }
    next /= failures;
    const ratio = next / chance;
    chance = next;
    total += chance;
    chances.push(chance);
    // Sums of negative binomials are log-concave: from here on no ratio is larger.
    if (ratio < 1 && chance * ratio <= (1 - ratio) * total * risk * 1e-17) return chances;
    if (chance < HUGE) continue;
    for (let g = 0; g < sums.length; g += 1) sums[g] = entryAt(sums, g) / HUGE;
    for (let at = 0; at < chances.length; at += 1) chances[at] = entryAt(chances, at) / HUGE;
    chance /= HUGE;
    total /= HUGE;
  }
}

/** The chance of running short that is allowed, a rounding more than typed. */
function riskOf(confidence: number): number {
  if (confidence >= LEAST_CONFIDENCE && confidence < 1)
    return (1 - confidence) * (1 + ROUNDING) + Number.EPSILON / 2;
  throw invalid("confidence", `be from ${LEAST_CONFIDENCE} to below 1`, confidence, "type 95% or 0.95");
}

function allBreak(): CalcError {
  return unavailable("no number of balloons is enough when all of them break");
}

function tooWide(): CalcError {
  return overflow("count and breakage together are too large");
}

/** Failures by adding chances up from none: quickest where few are expected. */
function fewFailures(count: number, breakage: number, risk: number): number {
  let failures = 0;
  let chance = failureChance(0, count, breakage);
  for (let tail = 1 - chance; tail > risk; tail -= chance) {
    chance *= (breakage * (failures + count)) / (failures + 1);
    failures += 1;
  }
  return failures;
}

// Cornish-Fisher expansion to the skewness: where the search starts, not where it ends. At a confidence of 0.5 it is the
// mean less (1 + breakage) / (6 good), which is above the mode, so that no search starts below the mode.
function guess(count: number, breakage: number, spread: number, confidence: number): number {
  const z = normalQuantile(confidence);
  const skewness = (1 + breakage) / Math.sqrt(count * breakage);
  const mean = (count * breakage) / (1 - breakage);
  return Math.max(0, Math.ceil(mean + spread * (z + (skewness * (z * z - 1)) / 6)));
}

/** Normal quantile of 0.5 and more, to 4.5e-4. Source: Abramowitz and Stegun (1964) 26.2.23. */
function normalQuantile(probability: number): number {
  const t = Math.sqrt(-2 * Math.log(1 - probability));
  const numerator = 2.515517 + t * (0.802853 + t * 0.010328);
  const denominator = 1 + t * (1.432788 + t * (0.189269 + t * 0.001308));
  return t - numerator / denominator;
}

/** Chance of more than `failures` failures before the `count`-th good one, from the mode up, where terms only get smaller. */
function failureTail(failures: number, count: number, breakage: number): number {
  let term = failureChance(failures, count, breakage);
  let above = 0;
  for (let m = failures; ; m += 1) {
    const ratio = (breakage * (m + count)) / (m + 1);
    term *= ratio;
    above += term;
    if (term <= above * 1e-17 * (1 - ratio)) return above;
  }
}

/** Chance of exactly `failures` failures before the `count`-th good one: count / (count + failures) of a binomial term. */
function failureChance(failures: number, count: number, breakage: number): number {
  const good = 1 - breakage;
  if (failures === 0) return Math.exp(count * Math.log1p(-breakage));
  const tries = count + failures;
  const exponent =
    stirlingError(tries) -
    stirlingError(count) -
    stirlingError(failures) -
    deviance(count, tries * good) -
    deviance(failures, tries * breakage);
  return (count / tries) * Math.exp(exponent) * Math.sqrt(tries / (2 * Math.PI * count * failures));
}

const SMALL_STIRLING: readonly number[] = Array.from({ length: 16 }, (_, n) => {
  let logFactorial = 0;
  for (let i = 2; i <= n; i += 1) logFactorial += Math.log(i);
  return n === 0 ? 0 : logFactorial - (0.5 * Math.log(2 * Math.PI * n) + n * Math.log(n) - n);
});

/** ln n! less Stirling's formula. */
function stirlingError(n: number): number {
  const small = SMALL_STIRLING[n];
  if (small !== undefined) return small;
  const square = n * n;
  return (1 / 12 - (1 / 360 - (1 / 1260 - (1 / 1680 - 1 / 1188 / square) / square) / square) / square) / n;
}

/** x ln(x / mean) + mean - x without cancellation where the two are close. */
function deviance(x: number, mean: number): number {
  const difference = x - mean;
  if (Math.abs(difference) >= 0.1 * (x + mean)) return x * Math.log(x / mean) + mean - x;
  const v = difference / (x + mean);
  let sum = difference * v;
  let power = 2 * x * v;
  for (let j = 3; ; j += 2) {
    power *= v * v;
    const next = sum + power / j;
    if (next === sum) return sum;
    sum = next;
  }
}
