import { invalid, overflow, unavailable } from "../calc-error";
import { orNone } from "../numeric/tally";
import { centsUp, fromCents, nearestCents, requireWholeCents } from "./amount";

/** What a margin is a share of: the selling price (margin) or the cost (markup). */
export const PRICE_BASES = ["price", "cost"] as const;

/** One of `PRICE_BASES`. */
export type PriceBasis = (typeof PRICE_BASES)[number];

/**
 * Factor from cost to selling price.
 * Source: definitions of margin, (price - cost)/price, and of markup, (price - cost)/cost.
 *
 * @param margin share of `basis`, 0 or more
 * @param basis what the margin is a share of
 * @param name worksheet parameter that carries the margin, for the sentence
 * @returns ratio, 1 or more
 * @throws CalcError `#VALUE!` where a margin on the price reaches the whole price, or is negative
 */
export function priceFactor(margin: number, basis: PriceBasis, name = "margin"): number {
  if (!(margin >= 0)) throw invalid(name, "be 0 or more", margin);
  if (basis === "cost") return 1 + margin;
  if (!(margin < 1)) {
    throw invalid(
      name,
      "be below 1 as a share of the price",
      margin,
      'a markup on the cost needs basis "cost"',
    );
  }
  return 1 / (1 - margin);
}

/**
 * SELL_PRICE: selling price before tax. Without a step or an ending it is rounded to the nearest cent, half a
 * cent up; with one it is the lowest such price that earns at least the margin, so that a pretty price never
 * eats it.
 *
 * @param cost cost, sheet's currency, 0 or more
 * @param margin share of `basis`: 0.4 on "price" makes 100 into 166.67, on "cost" 140.00
 * @param basis what the margin is a share of
 * @param roundTo step that prices are multiples of, whole cents, rounded up; with `ending` alone it is the
 *   next power of ten above that, at least 1
 * @param ending what every price ends in, whole cents below `roundTo`: 0.99 gives 4.99 and 5.99, 9 gives 139
 *   and 149
 * @returns price, sheet's currency, whole cents
 * @throws CalcError `#VALUE!` where an argument is outside its range; `#NUM!` where the price is beyond
 *   `LARGEST_AMOUNT`
 */
export function sellPrice(
  cost: number,
  margin: number,
  basis: PriceBasis = "price",
  roundTo?: number,
  ending?: number,
): number {
  if (!(cost >= 0)) throw invalid("cost", "be 0 or more", cost);
  const exact = cost * priceFactor(margin, basis);
  if (roundTo === undefined && ending === undefined) return fromCents(nearestCents(exact));
  const end = requireWholeCents("ending", orNone(ending));
  const step = roundTo === undefined ? usualStep(end) : requireWholeCents("round_to", roundTo, 1);
  if (end >= step) throw invalid("ending", `be below round_to, ${fromCents(step)}`, ending);
  return fromCents(Math.max(0, Math.ceil((centsUp(exact) - end) / step)) * step + end);
}

function usualStep(end: number): number {
  let step = 100;
  while (step <= end) step *= 10;
  return step;
}

/**
 * MARGIN_OF: margin that a price earns. Source: definitions of margin and markup.
 *
 * @param price selling price before tax, sheet's currency
 * @param cost cost, sheet's currency
 * @param basis what the margin is a share of: "price" (margin) or "cost" (markup)
 * @returns share, negative where the price is below the cost
 * @throws CalcError `#VALUE!` where an amount is negative; `#N/A` where the basis is 0; `#NUM!` where the
 *   share is beyond all numbers
 */
export function marginOf(price: number, cost: number, basis: PriceBasis = "price"): number {
  if (!(price >= 0)) throw invalid("price", "be 0 or more", price);
  if (!(cost >= 0)) throw invalid("cost", "be 0 or more", cost);
  const whole = basis === "price" ? price : cost;
  if (whole === 0) throw unavailable(`${basis} is 0, so no share of it can be taken`);
  const share = (price - cost) / whole;
  if (!Number.isFinite(share)) throw overflow("cost is too small for a share of it");
  return share;
}

/**
 * The two readings of one margin in words, so that a person never takes one for the other.
 *
 * @param price selling price before tax, 0 or more
 * @param cost cost, 0 or more
 * @returns for example `margin 40.00 % of price, markup 66.67 % on cost`
 */
export function marginInWords(price: number, cost: number): string {
  if (price === 0) return "no margin, the price is 0";
  const percent = (basis: PriceBasis): string => `${(marginOf(price, cost, basis) * 100).toFixed(2)} %`;
  const markup = cost === 0 ? "no cost" : `markup ${percent("cost")} on cost`;
  return `margin ${percent("price")} of price, ${markup}`;
}
