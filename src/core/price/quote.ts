import { invalid } from "../calc-error";
import { withheld, type Known } from "../withheld";
import { fromCents, nearestCents } from "./amount";
import { chargeCents, checkChargeTerms, type ChargeTerms } from "./charge";
import { marginInWords, priceFactor } from "./sell";
import type { PriceBasis } from "./sell";

/** What a line of a quote is for, in the order of the quote's rows. */
export const LINE_KINDS = ["materials", "work", "travel", "other"] as const;

/** One of `LINE_KINDS`. */
export type LineKind = (typeof LINE_KINDS)[number];

/** One cost of a job, one row of the worksheet's `lines`. */
export interface QuoteLine {
  /** Row in the worksheet range, for sentences. */
  readonly row: number;
  readonly text: string;
  readonly kind: LineKind;
  /** Cost of one, or of the whole line where there is no quantity; before tax, sheet's currency. */
  readonly cost: number;
  /** How many, hours or kilometres; 1 by default. */
  readonly quantity?: number;
}

/** Terms of a quote. All shares are 0..1, all money is in the sheet's currency. */
export interface QuoteTerms extends ChargeTerms {
  /** Share of `basis` that every line earns. */
  readonly margin: number;
  /** What the margin is a share of; "price" by default. */
  readonly basis?: PriceBasis;
}

/** The rows of a quote, always all of them and in this order, so that other cells can point at them. */
export const QUOTE_ITEMS = [
  ...LINE_KINDS,
  "subtotal",
  "discount",
  "minimum charge",
  "before tax",
  "tax",
  "total",
  "deposit",
  "balance",
] as const;

/** One row of a quote. */
export interface QuoteRow {
  readonly item: (typeof QUOTE_ITEMS)[number];
  /** Whole cents, sheet's currency; a discount is negative, a deposit positive. Withheld where a line of it is not known. */
  readonly amount: Known;
  /** `ok`, `check` below cost or `stop`, then how the amount came about, with margin and markup both in words. */
  readonly status: string;
}

/** A line whose cost is not known. */
export interface UnknownLine {
  /** Undefined where that is not known either: it may be any kind. */
  readonly kind?: LineKind | undefined;
  /** Why, with its place. */
  readonly what: string;
}

const percent = (share: number): string => `${Number((share * 100).toPrecision(6))} %`;

function lineCost(line: QuoteLine): number {
  const { cost, quantity = 1 } = line;
  if (!(cost >= 0)) throw invalid(`lines row ${line.row}: cost`, "be 0 or more", cost);
  if (!(quantity >= 0)) throw invalid(`lines row ${line.row}: quantity`, "be 0 or more", quantity);
  return cost * quantity;
}

/**
 * QUOTE_PLAN: a quote from the costs of a job. The price of each kind of line, the discount, the tax and the
 * deposit are rounded once, to the nearest cent, half a cent away from zero; everything else is sums and
 * differences of cents. So materials + work + travel + other = subtotal, and before tax + tax = total =
 * deposit + balance, to the cent. Subtotal + discount + minimum charge is the price before tax, or the total
 * where the tax is included.
 * Source: tax on top t p; tax inside t p/(1 + t).
 *
 * @param lines costs of the job, at least one
 * @param terms margin, tax, discount and the like; the minimum is charged after the discount and before tax
 * @param unknown lines that cannot be read: their kinds and everything below are withheld
 * @returns a row for each of `QUOTE_ITEMS`
 * @throws CalcError `#VALUE!` where there is no line or a number is outside its range; `#NUM!` where an
 *   amount is beyond `LARGEST_AMOUNT`
 */
export function quotePlan(
  lines: readonly QuoteLine[],
  terms: QuoteTerms,
  unknown: readonly UnknownLine[] = [],
): readonly QuoteRow[] {
  return withheldFrom(knownRows(lines, terms, unknown.length > 0), unknown);
}

/** The rows with everything withheld that an unknown line is part of. */
function withheldFrom(rows: readonly KnownRow[], unknown: readonly UnknownLine[]): readonly QuoteRow[] {
  const all = [...new Set(unknown.map(({ what }) => what))].join("; ");
  return rows.map(({ item, amount, status }) => {
    const isKind = (LINE_KINDS as readonly string[]).includes(item);
    const own = unknown.filter(({ kind }) => kind === undefined || kind === item).map(({ what }) => what);
    const reason = isKind ? [...new Set(own)].join("; ") : all;
    if (reason !== "") return { item, amount: withheld(reason), status: `stop: ${reason}` };
    return { item, amount, status: `${status.startsWith("below cost") ? "check" : "ok"}: ${status}` };
  });
}

interface KnownRow {
  readonly item: QuoteRow["item"];
  readonly amount: number;
  readonly status: string;
}

function knownRows(lines: readonly QuoteLine[], terms: QuoteTerms, mayBeEmpty: boolean): readonly KnownRow[] {
  const {
    margin,
    basis = "price",
    tax = 0,
    taxIncluded = false,
    deposit = 0,
    discount = 0,
    minimum = 0,
  } = terms;
  checkChargeTerms(terms);
  if (lines.length === 0 && !mayBeEmpty) throw invalid("lines", "hold at least one cost", "");

  const shownWith = taxIncluded ? 1 + tax : 1;
  const factor = priceFactor(margin, basis) * shownWith;
  const costs = { materials: 0, work: 0, travel: 0, other: 0 };
  for (const line of lines) costs[line.kind] += lineCost(line);
  const prices = { ...costs };
  for (const kind of LINE_KINDS) prices[kind] = nearestCents(costs[kind] * factor);

  const cost = LINE_KINDS.reduce((sum, kind) => sum + costs[kind], 0);
  const subtotal = LINE_KINDS.reduce((sum, kind) => sum + prices[kind], 0);
  const { off, topUp, taxed, total, before, ahead } = chargeCents(subtotal, terms);

  const earned = (cents: number, spent: number, taxFactor = shownWith): string => {
    const words = `cost ${spent.toFixed(2)}, ${marginInWords(fromCents(cents) / taxFactor, spent)}`;
    return taxFactor > 1 ? `${words}, tax included` : words;
  };
  const row = (item: QuoteRow["item"], cents: number, status: string): KnownRow => ({
    item,
    amount: fromCents(cents),
    status,
  });
  return [
    ...LINE_KINDS.map((kind) =>
      row(kind, prices[kind], prices[kind] === 0 ? "none" : earned(prices[kind], costs[kind])),
    ),
    row("subtotal", subtotal, earned(subtotal, cost)),
    row("discount", 0 - off, off === 0 ? "none" : `${percent(discount)} of the subtotal`),
    row(
      "minimum charge",
      topUp,
      topUp === 0 ? "not needed" : `raises the price to the minimum of ${minimum.toFixed(2)} before tax`,
    ),
    row(
      "before tax",
      before,
      `${before < nearestCents(cost) ? "below cost: " : ""}${earned(before, cost, 1)}`,
    ),
    row(
      "tax",
      taxed,
      tax === 0
        ? "none"
        : `${percent(tax)} of the price before tax${taxIncluded ? ", inside the total" : ""}`,
    ),
    row("total", total, "to pay"),
    row("deposit", ahead, ahead === 0 ? "none" : `${percent(deposit)} of the total, paid ahead`),
    row("balance", total - ahead, "total less deposit"),
  ];
}
