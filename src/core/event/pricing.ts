import { attempt, required } from "../attempt";
import { marginOf, sellPrice } from "../price/sell";
import type { Known } from "../withheld";
import { requiredTerm, termOf, type Terms } from "./terms";
import { nearestCent } from "./whole-cents";

/** What a piece is sold for. Sheet's currency. */
export interface PiecePrice {
  /** Of one. */
  readonly each: Known;
  /** Of all. */
  readonly price: Known;
  /** Share of the basis that it earns; empty where there is nothing to earn it on. */
  readonly margin: Known | "";
}

/**
 * The price of a piece: its own fixed price, or its cost at the margin, rounded for one piece and then taken as often as it is
 * built, so that the lines add up to the offer.
 * Source: `sellPrice`; where the tax is included, prices carry it.
 *
 * @param cost of all pieces
 * @param quantity pieces, 0 where the piece is parked
 * @param fixed price of one as typed
 * @param terms margin, basis, rounding and tax
 * @returns amounts; withheld where the cost or the margin is
 */
export function piecePrice(
  cost: Known,
  quantity: Known,
  fixed: number | undefined,
  terms: Terms,
): PiecePrice {
  const taxFactor = (): number => {
    const tax = requiredTerm(terms, "tax");
    return requiredTerm(terms, "tax included") ? 1 + tax : 1;
  };
  const each = attempt(() => {
    if (fixed !== undefined) return fixed;
    const pieces = required(quantity);
    if (pieces === 0) return 0;
    return sellPrice(
      (required(cost) / pieces) * taxFactor(),
      requiredTerm(terms, "margin"),
      requiredTerm(terms, "basis"),
      termOf(terms, "round to"),
      termOf(terms, "ending"),
    );
  });
  const price = attempt(() => nearestCent(required(quantity) * required(each)));
  const isEmpty = price === 0 || (cost === 0 && terms.basis.value === "cost");
  const margin = attempt(() =>
    marginOf(required(price) / taxFactor(), required(cost), requiredTerm(terms, "basis")),
  );
  return { each, price, margin: isEmpty ? "" : margin };
}
