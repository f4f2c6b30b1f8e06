import { invalid } from "../calc-error";
import { fromCents, nearestCents } from "./amount";
import { marginInWords, marginOf, priceFactor, sellPrice } from "./sell";
import type { PriceBasis } from "./sell";

/** A quote given earlier with its cost at today's prices, one row of the worksheet's `quotes`. */
export interface StandingQuote {
  /** Row in the worksheet range, for sentences. */
  readonly row: number;
  readonly name: string;
  /** Price before tax, sheet's currency. */
  readonly price: number;
  /** Cost at today's prices, sheet's currency. */
  readonly cost: number;
}

/** What to do with a quote. */
export interface RepriceRow {
  readonly name: string;
  readonly price: number;
  readonly cost: number;
  /** Share of the basis that the quoted price earns; "none" where the basis is 0. */
  readonly margin: number | "none";
  /** Price that earns the floor; the quoted price, to the cent, where that earns it already. */
  readonly restored: number;
  /** What the price must rise by, whole cents. */
  readonly rise: number;
  /** `ok: keep`, `check: under the floor` or `check: below cost`, then what the quoted price earns as margin and as markup. */
  readonly status: string;
}

/**
 * REPRICE_PLAN: quotes whose margin fell under the floor, and the price that restores it, rounded up to the
 * cent. A quote that misses the floor by less than the rounding to cents keeps its price.
 *
 * @param quotes prices and today's costs
 * @param floor least margin, share of `basis`
 * @param basis what the margin is a share of: "price" (margin) or "cost" (markup)
 * @returns a row per quote, in order, those that keep their price included
 * @throws CalcError `#VALUE!` where an amount is negative or the floor out of range; `#NUM!` where an
 *   amount is beyond `LARGEST_AMOUNT`
 */
export function repricePlan(
  quotes: readonly StandingQuote[],
  floor: number,
  basis: PriceBasis = "price",
): RepriceRow[] {
  priceFactor(floor, basis, "floor");
  return quotes.map(({ row, name, price, cost }) => {
    for (const [column, amount] of Object.entries({ price, cost })) {
      if (!(amount >= 0)) throw invalid(`quotes row ${row}: ${column}`, "be 0 or more", amount);
    }
    const quoted = nearestCents(price);
    const isUnder = quoted < nearestCents(sellPrice(cost, floor, basis));
    const rise = isUnder ? nearestCents(sellPrice(cost, floor, basis, 0.01)) - quoted : 0;
    const fault = quoted < nearestCents(cost) ? "below cost" : "under the floor";
    const verdict = isUnder ? `check: ${fault}, raise by ${fromCents(rise).toFixed(2)}` : "ok: keep";
    return {
      name,
      price,
      cost,
      margin: (basis === "price" ? price : cost) === 0 ? "none" : marginOf(price, cost, basis),
      restored: fromCents(quoted + rise),
      rise: fromCents(rise),
      status: `${verdict}, ${marginInWords(price, cost)}`,
    };
  });
}
