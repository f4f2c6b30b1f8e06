// Room for the dust of binary arithmetic: far above it, far below anything a decorator measures. It stops growing at a
// thousandth, since a real fraction of a large number is not dust.
const dust = (value: number): number => Math.min(1e-3, 1e-9 + 1e-12 * Math.abs(value));

/**
 * Rounds up, so that 3.0000000001 is still 3.
 *
 * @param value any finite number
 * @returns the whole number that covers it, never -0
 */
export function wholeUp(value: number): number {
  return Math.ceil(value - dust(value)) + 0;
}

/**
 * Rounds down, so that 2.9999999999 is already 3.
 *
 * @param value any finite number
 * @returns the whole number that fits into it, never -0
 */
export function wholeDown(value: number): number {
  return Math.floor(value + dust(value));
}

/**
 * Rounds to the nearest whole number, halves up even where dust puts them just below.
 *
 * @param value any finite number
 * @returns the nearest whole number, never -0
 */
export function wholeNearest(value: number): number {
  const whole = Math.floor(value);
  // Adding a half first would lose it: above 2^52 there are no halves left.
  return (value - whole >= 0.5 - dust(value) ? whole + 1 : whole) + 0;
}
