import { invalid } from "../calc-error";
import { fromCents, nearestCents } from "./amount";

/** What happens to the sum of all prices before it is paid. Shares are 0..1, money is in the sheet's currency. */
export interface ChargeTerms {
  /** Tax rate as a share of the price before tax; 0 by default. */
  readonly tax?: number;
  /** True to show every amount with its tax inside, as for private customers. */
  readonly taxIncluded?: boolean;
  /** Share of the total that is paid ahead; 0 by default. */
  readonly deposit?: number;
  /** Share of the subtotal that is taken off; 0 by default. */
  readonly discount?: number;
  /** Least charge before tax; 0 by default. */
  readonly minimum?: number;
}

/** What a client pays, whole cents. */
export interface ChargeCents {
  /** Taken off the subtotal. */
  readonly off: number;
  /** Added to reach the least charge. */
  readonly topUp: number;
  readonly before: number;
  readonly taxed: number;
  readonly total: number;
  /** Paid ahead. */
  readonly ahead: number;
}

const partOf = (cents: number, share: number): number => nearestCents(fromCents(cents) * share);

/**
 * Refuses terms outside their ranges.
 *
 * @param terms tax, discount and the like
 * @throws CalcError `#VALUE!`
 */
export function checkChargeTerms({ tax = 0, deposit = 0, discount = 0, minimum = 0 }: ChargeTerms): void {
  for (const [name, share] of Object.entries({ tax, deposit, discount }))
    if (!(share >= 0 && share <= 1)) throw invalid(name, "be from 0 to 1", share);
  if (!(minimum >= 0)) throw invalid("minimum", "be 0 or more", minimum);
}

/**
 * From the sum of all prices to what the client pays: less the discount, up to the least charge, with tax. Every step is
 * rounded once, to the nearest cent, half a cent away from zero, so that before tax + tax = total to the cent.
 * Source: tax on top t p; tax inside t p/(1 + t).
 *
 * @param subtotal sum of all prices, whole cents; with the tax inside where it is included
 * @param terms tax, discount and the like, in their ranges
 * @returns whole cents
 * @throws CalcError `#NUM!` where an amount is beyond `LARGEST_AMOUNT`
 */
export function chargeCents(subtotal: number, terms: ChargeTerms): ChargeCents {
  const { tax = 0, taxIncluded = false, deposit = 0, discount = 0, minimum = 0 } = terms;
  const off = partOf(subtotal, discount);
  const least = partOf(nearestCents(minimum), taxIncluded ? 1 + tax : 1);
  const topUp = Math.max(0, least - (subtotal - off));
  const charged = subtotal - off + topUp;
  const taxed = taxIncluded ? partOf(charged, tax / (1 + tax)) : partOf(charged, tax);
  const total = taxIncluded ? charged : charged + taxed;
  return { off, topUp, taxed, total, before: total - taxed, ahead: partOf(total, deposit) };
}
