import { root } from "./roots";

const LOG_SQRT_TWO_PI = 0.5 * Math.log(2 * Math.PI);
const STIRLING_FROM = 15;
const MOST_STEPS = 10000;
const TINY = 1e-300;

/**
 * Natural logarithm of the gamma function.
 * Source: Stirling's series, DLMF 5.11.1 with Bernoulli numbers to B12, after raising the argument by DLMF 5.5.1.
 *
 * @param x above 0
 * @returns ln gamma(x), to some 15 digits
 */
export function logGamma(x: number): number {
  let raised = x;
  let product = 1;
  for (; raised < STIRLING_FROM; raised += 1) product *= raised;
  const square = 1 / (raised * raised);
  const series =
    (1 / 12 -
      (1 / 360 - (1 / 1260 - (1 / 1680 - (1 / 1188 - (691 / 360360) * square) * square) * square) * square) *
        square) /
    raised;
  return (raised - 0.5) * Math.log(raised) - raised + LOG_SQRT_TWO_PI + series - Math.log(product);
}

/**
 * Regularized incomplete beta function I_x(a, b): the chance that a Beta(a, b) share is at most x.
 * Source: continued fraction of DLMF 8.17.22, evaluated by the modified Lentz method; symmetry DLMF 8.17.4.
 *
 * @param x share, 0 to 1
 * @param a above 0
 * @param b above 0
 * @returns chance, 0 to 1
 */
export function betaChance(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - betaChance(1 - x, b, a);
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) + logGamma(a + b) - logGamma(a) - logGamma(b));
  return (front / a) * betaFraction(x, a, b);
}

function betaFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= MOST_STEPS; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / nonZero(1 + even * d);
    c = nonZero(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / nonZero(1 + odd * d);
    c = nonZero(1 + odd / c);
    const step = d * c;
    fraction *= step;
    if (Math.abs(step - 1) < 1e-15) break;
  }
  return fraction;
}

function nonZero(value: number): number {
  return Math.abs(value) < TINY ? TINY : value;
}

/**
 * Quantile of the Beta distribution.
 *
 * @param chance above 0 and below 1
 * @param a above 0
 * @param b above 0
 * @returns the share that a Beta(a, b) share stays below with this chance
 */
export function betaQuantile(chance: number, a: number, b: number): number {
  return root((x) => betaChance(x, a, b) - chance, 0, 1);
}

/**
 * Quantile of the standard normal distribution.
 * Source: a normal value squared is Gamma(1/2): erf by its series, DLMF 7.6.2, and continued fraction, DLMF 7.9.1; the
 * quantile is its zero.
 *
 * @param chance above 0 and below 1
 * @returns z
 */
export function normalQuantile(chance: number): number {
  if (chance < 0.5) return -normalQuantile(1 - chance);
  return root((z) => 0.5 - chance + normalBody(z), 0, 40);
}

/** Chance that a standard normal value lies between 0 and z. */
function normalBody(z: number): number {
  const x = z / Math.SQRT2;
  if (x > 3) return 0.5 - (Math.exp(-x * x) * tailFraction(x)) / (2 * Math.sqrt(Math.PI));
  let term = x;
  let sum = x;
  for (let n = 1; Math.abs(term) > 1e-17 * Math.abs(sum); n += 1) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return (Math.exp(-x * x) * sum) / Math.sqrt(Math.PI);
}

function tailFraction(x: number): number {
  let below = x;
  for (let n = 60; n > 0; n -= 1) below = x + n / 2 / below;
  return 1 / below;
}
