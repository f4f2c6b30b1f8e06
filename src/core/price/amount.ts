import { invalid, overflow } from "../calc-error";
import { wholeDown, wholeNearest, wholeUp } from "../numeric/whole";

/** Largest amount that prices are built for, sheet's currency; sums of many stay exact in cents. */
export const LARGEST_AMOUNT = 1e9;

function inCents(amount: number): number {
  if (!(amount <= LARGEST_AMOUNT)) throw overflow(`an amount is beyond ${LARGEST_AMOUNT}`);
  return amount * 100;
}

/**
 * Nearest cents of a computed amount, half a cent up. Rounds once: going through hundredths of a cent, as
 * sums of typed prices do, would turn 0.4951 cents into 1.
 *
 * @param amount sheet's currency, 0 or more
 * @returns cents, whole
 * @throws CalcError `#NUM!` beyond `LARGEST_AMOUNT`
 */
export function nearestCents(amount: number): number {
  return wholeNearest(inCents(amount));
}

/**
 * Fewest whole cents that reach an amount.
 *
 * @param amount sheet's currency, 0 or more
 * @returns cents, whole
 * @throws CalcError `#NUM!` beyond `LARGEST_AMOUNT`
 */
export function centsUp(amount: number): number {
  return wholeUp(inCents(amount));
}

/**
 * Cents of an amount that may not have fractions of a cent.
 *
 * @param name worksheet parameter, for the sentence
 * @param amount sheet's currency
 * @param least fewest cents allowed
 * @returns cents, whole
 * @throws CalcError `#VALUE!` below `least` and between cents, `#NUM!` beyond `LARGEST_AMOUNT`
 */
export function requireWholeCents(name: string, amount: number, least = 0): number {
  const cents = inCents(amount);
  if (!(cents >= least)) throw invalid(name, `be ${fromCents(least)} or more`, amount);
  const whole = wholeDown(cents);
  if (whole !== wholeUp(cents)) throw invalid(name, "be whole cents", amount);
  return whole;
}

/**
 * Amount of whole cents.
 *
 * @param cents whole
 * @returns sheet's currency
 */
export function fromCents(cents: number): number {
  return cents / 100;
}
