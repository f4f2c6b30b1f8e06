import { invalid, overflow } from "../calc-error";
import { withoutDust } from "../work/whole-units";

/** Largest amount that prices are built for, sheet's currency; cents stay exact in sums of thousands of them. */
export const LARGEST_AMOUNT = 1e9;

function inCents(amount: number): number {
  if (!(Math.abs(amount) <= LARGEST_AMOUNT)) throw overflow(`an amount is beyond ${LARGEST_AMOUNT}`);
  return withoutDust(amount * 100);
}

/** Nearest cents of an amount, half a cent away from zero. */
export function centsOf(amount: number): number {
  const cents = inCents(amount);
  return cents < 0 ? 0 - Math.round(-cents) : Math.round(cents);
}

/** Lowest whole cents that reach an amount of 0 or more. */
export function centsUp(amount: number): number {
  return Math.ceil(inCents(amount));
}

/** Amount of whole cents. */
export function money(cents: number): number {
  return cents / 100;
}

/** Cents of an amount that may not have fractions of a cent. */
export function wholeCents(name: string, amount: number): number {
  const cents = inCents(amount);
  if (!Number.isInteger(cents)) throw invalid(name, "be whole cents", amount);
  return cents;
}
