/** More steps than bisection alone would need to use up every bit of a double. */
const LARGEST_STEPS = 200;

/**
 * The zero of a continuous function between two places where it has opposite signs.
 * Source: Chandrupatla, Adv. Eng. Software 28 (1997) 145: inverse quadratic interpolation guarded by
 * bisection.
 *
 * @param value the function
 * @param low one end
 * @param high the other end; `value(low)` and `value(high)` must not have the same sign
 * @returns the zero, to the resolution of a double
 * @throws RangeError where the two ends have the same sign
 */
export function root(value: (x: number) => number, low: number, high: number): number {
  let [a, b, c] = [high, low, high];
  let [fa, fb, fc] = [value(a), value(b), 0];
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (fa > 0 === fb > 0) throw new RangeError("a root needs opposite signs at its two ends");
  let share = 0.5;
  for (let step = 0; step < LARGEST_STEPS; step += 1) {
    const x = a + share * (b - a);
    const fx = value(x);
    if (fx > 0 === fa > 0) {
      [c, fc] = [a, fa];
    } else {
      [c, fc] = [b, fb];
      [b, fb] = [a, fa];
    }
    [a, fa] = [x, fx];
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const finest = (Number.EPSILON * Math.abs(best) + Number.MIN_VALUE) / Math.abs(b - a);
    if (fx === 0 || finest >= 0.5) return best;
    const xi = (a - b) / (c - b);
    const phi = (fa - fb) / (fc - fb);
    const isInterpolating = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
    share = isInterpolating
      ? (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb))
      : 0.5;
    share = Math.min(1 - finest, Math.max(finest, share));
  }
  return Math.abs(fa) < Math.abs(fb) ? a : b;
}

/**
 * The zero of a rising function that lies at or above `low`.
 *
 * @param value a function that never falls, is 0 or less at `low` and above 0 somewhere
 * @param low where the search begins
 * @param reach first guess of how far away the zero may be, above 0; doubled until it is passed
 * @returns the zero, to the resolution of a double
 * @throws RangeError where the function never gets above 0
 */
export function rootAbove(value: (x: number) => number, low: number, reach: number): number {
  let high = low + reach;
  for (let step = 0; value(high) < 0; step += 1) {
    if (step > 1000) throw new RangeError("a rising function must get above 0");
    high = low + (high - low) * 2;
  }
  return root(value, low, high);
}
