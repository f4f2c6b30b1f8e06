/**
 * A number without the dust that binary arithmetic leaves on it, so that 3.0000000000000004 counts as 3.
 *
 * @param value any finite number
 * @returns the number to 12 significant digits
 */
export function withoutDust(value: number): number {
  return Number(value.toPrecision(12));
}

/**
 * Whole units that cover an amount.
 *
 * @param amount 0 or more, of the unit
 * @returns the amount rounded up; an amount that is whole to 12 significant digits stays
 */
export function wholeUnits(amount: number): number {
  return Math.ceil(withoutDust(amount));
}
