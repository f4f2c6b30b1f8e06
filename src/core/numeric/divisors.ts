/**
 * Greatest common divisor, by Euclid.
 *
 * @param a whole number, 0 or more
 * @param b whole number, 0 or more
 * @returns the largest whole number that divides both; the other one where one is 0
 */
export function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
