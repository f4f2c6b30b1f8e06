import { PRICE_BASES } from "../core/price/sell";
import type { ScalarParam } from "./param";

/** Parameters that the price functions share, each said once. */

export const margin = {
  name: "margin",
  kind: "ratio",
  max: 10,
  text: "What you earn, as a share of the basis: 40% of the price, or on the cost.",
} as const satisfies ScalarParam;

export const basis = {
  name: "basis",
  kind: "choice",
  options: PRICE_BASES,
  default: "price",
  text: "What the margin is a share of: price (a margin) or cost (a markup).",
} as const satisfies ScalarParam;
