import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { LINE_KINDS, QUOTE_ITEMS, quotePlan } from "../../../src/core/price/quote";
import type { QuoteLine, QuoteRow, QuoteTerms } from "../../../src/core/price/quote";
import { known } from "../as-read";
import { nearestCents } from "./exact-cents";

const line = (kind: QuoteLine["kind"], cost: number, quantity?: number): QuoteLine => ({
  row: 1,
  text: "",
  kind,
  cost,
  ...(quantity === undefined ? {} : { quantity }),
});

function amounts(rows: readonly QuoteRow[]): Record<QuoteRow["item"], number> {
  return Object.fromEntries(rows.map((row) => [row.item, known(row.amount)])) as Record<
    QuoteRow["item"],
    number
  >;
}

function inCents(rows: readonly QuoteRow[]): Record<QuoteRow["item"], number> {
  const whole = rows.map(({ item, amount }) => ({
    item,
    amount: Math.round(known(amount) * 100),
    status: "",
  }));
  return amounts(whole);
}

const JOB = [line("materials", 120), line("work", 18, 10), line("travel", 0.45, 80), line("materials", 30)];

describe("quotePlan", () => {
  it("quotes a job with tax on top", () => {
    // By hand: costs 150, 180, 36 at a markup of 50 %: 225, 270, 54, in all 549; 10 % off leaves 494.10;
    // 19 % tax is 93.879; total 587.98; 30 % of it 176.394.
    const terms: QuoteTerms = { margin: 0.5, basis: "cost", tax: 0.19, discount: 0.1, deposit: 0.3 };
    expect(amounts(quotePlan(JOB, terms))).toEqual({
      materials: 225,
      work: 270,
      travel: 54,
      other: 0,
      subtotal: 549,
      discount: -54.9,
      "minimum charge": 0,
      "before tax": 494.1,
      tax: 93.88,
      total: 587.98,
      deposit: 176.39,
      balance: 411.59,
    });
  });

  it.each([
    // VAT fractions of 7/47, 1/6 and 1/21 (from memory): 235, 240 and 210 hold a net of 200.
    [0.175, 235, 35],
    [0.2, 240, 40],
    [0.05, 210, 10],
  ])("shows prices with a tax of %d inside", (tax, total, taxed) => {
    const rows = amounts(quotePlan([line("work", 100)], { margin: 0.5, tax, taxIncluded: true }));
    expect(rows).toMatchObject({ work: total, subtotal: total, "before tax": 200, tax: taxed, total });
  });

  it("keeps the rows and their order whatever the job", () => {
    expect(quotePlan([line("other", 0)], { margin: 0 }).map((row) => row.item)).toEqual([...QUOTE_ITEMS]);
  });

  it("charges the minimum after the discount and before tax", () => {
    // By hand: 100 less 20 is 80, 70 short of 150; 10 % of 150 is 15.
    const terms: QuoteTerms = { margin: 0, minimum: 150, discount: 0.2, tax: 0.1 };
    expect(amounts(quotePlan([line("work", 100)], terms))).toMatchObject({
      discount: -20,
      "minimum charge": 70,
      "before tax": 150,
      tax: 15,
      total: 165,
    });
  });

  it("rounds half a cent away from zero", () => {
    // By hand: 15 % of 0.70 is 10.5 cents, half of 0.81 is 40.5 cents, 5 % of 0.70 is 3.5 cents.
    const rows = amounts(quotePlan([line("work", 0.7)], { margin: 0, tax: 0.15, deposit: 0.5 }));
    expect(rows).toMatchObject({ tax: 0.11, total: 0.81, deposit: 0.41, balance: 0.4 });
    expect(amounts(quotePlan([line("work", 0.7)], { margin: 0, discount: 0.05 })).discount).toBe(-0.04);
    // 0.495 cents are nothing: no rounding on the way to the rounding.
    expect(amounts(quotePlan([line("work", 0.99)], { margin: 0, tax: 0.005 })).tax).toBe(0);
  });

  it("names margin and markup on every row that has one", () => {
    const status = Object.fromEntries(
      quotePlan(JOB, {
        margin: 0.5,
        basis: "cost",
        tax: 0.19,
        discount: 0.4,
        minimum: 10,
        deposit: 1 / 3,
      }).map((row) => [row.item, row.status]),
    );
    expect(status).toEqual({
      materials: "ok: cost 150.00, margin 33.33 % of price, markup 50.00 % on cost",
      work: "ok: cost 180.00, margin 33.33 % of price, markup 50.00 % on cost",
      travel: "ok: cost 36.00, margin 33.33 % of price, markup 50.00 % on cost",
      other: "ok: none",
      subtotal: "ok: cost 366.00, margin 33.33 % of price, markup 50.00 % on cost",
      discount: "ok: 40 % of the subtotal",
      "minimum charge": "ok: not needed",
      // 549 x 0.6 is 329.40, 36.60 under the cost: 11.11 % of the price, 10 % of the cost.
      "before tax": "check: below cost: cost 366.00, margin -11.11 % of price, markup -10.00 % on cost",
      tax: "ok: 19 % of the price before tax",
      total: "ok: to pay",
      deposit: "ok: 33.3333 % of the total, paid ahead",
      balance: "ok: total less deposit",
    });
  });

  it("says what a tax inside the prices, a minimum and their absence mean", () => {
    const status = (terms: QuoteTerms): Record<string, string> =>
      Object.fromEntries(quotePlan([line("work", 100)], terms).map((row) => [row.item, row.status]));
    // A cost of 100 at a markup of 50 % is 150 without tax, 180 with 20 % inside: the margin is 50 of 150 either way.
    expect(status({ margin: 0.5, basis: "cost", tax: 0.2, taxIncluded: true, minimum: 200 })).toMatchObject({
      work: "ok: cost 100.00, margin 33.33 % of price, markup 50.00 % on cost, tax included",
      discount: "ok: none",
      // 200 before tax are 240, of which 40 are tax.
      "minimum charge": "ok: raises the price to the minimum of 200.00 before tax",
      "before tax": "ok: cost 100.00, margin 50.00 % of price, markup 100.00 % on cost",
      tax: "ok: 20 % of the price before tax, inside the total",
      deposit: "ok: none",
    });
    expect(status({ margin: 0 })["tax"]).toBe("ok: none");
  });

  it("does not call a price below cost for rounding dust", () => {
    const rows = quotePlan([line("work", 0.1), line("work", 0.2)], { margin: 0 });
    expect(rows.find((row) => row.item === "before tax")?.status).toMatch(/^ok: cost 0\.30/);
  });

  const whole = (most: number) => fc.integer({ min: 0, max: most });
  const job = fc.array(
    fc.record({ kind: fc.constantFrom(...LINE_KINDS), cost: whole(10000), quantity: whole(5) }),
    { minLength: 1, maxLength: 5 },
  );
  const terms = fc.record({
    margin: whole(90),
    basis: fc.constantFrom("price" as const, "cost" as const),
    tax: whole(30),
    taxIncluded: fc.boolean(),
    deposit: whole(10000),
    discount: whole(10000),
    minimum: whole(100000),
  });

  it("agrees with exact arithmetic in every row and adds up to the cent", () => {
    fc.assert(
      fc.property(job, terms, (costs, given) => {
        const { margin, basis, tax, taxIncluded, deposit, discount, minimum } = given;
        const rows = inCents(
          quotePlan(
            costs.map(({ kind, cost, quantity }) => line(kind, cost / 100, quantity)),
            {
              basis,
              taxIncluded,
              margin: margin / 100,
              tax: tax / 100,
              deposit: deposit / 1e4,
              discount: discount / 1e4,
              minimum: minimum / 100,
            },
          ),
        );
        const [up, down] = basis === "cost" ? [100 + margin, 100] : [100, 100 - margin];
        const [shown, plain] = taxIncluded ? [100 + tax, 100] : [1, 1];
        for (const kind of LINE_KINDS) {
          const cost = costs.reduce((sum, one) => sum + (one.kind === kind ? one.cost * one.quantity : 0), 0);
          expect(rows[kind]).toBe(nearestCents(cost, up * shown, down * plain));
        }
        const charged = rows.subtotal + rows.discount + rows["minimum charge"];
        expect(rows.materials + rows.work + rows.travel + rows.other).toBe(rows.subtotal);
        expect(0 - rows.discount).toBe(nearestCents(rows.subtotal, discount, 10000));
        expect(taxIncluded ? rows.total : rows["before tax"]).toBe(charged);
        expect(rows["before tax"] + rows.tax).toBe(rows.total);
        expect(rows.tax).toBe(
          taxIncluded ? nearestCents(rows.total, tax, 100 + tax) : nearestCents(rows["before tax"], tax, 100),
        );
        expect(rows["before tax"]).toBeGreaterThanOrEqual(minimum);
        if (rows["minimum charge"] > 0) expect(rows["before tax"]).toBe(minimum);
        expect(rows.deposit).toBe(nearestCents(rows.total, deposit, 10000));
        expect(rows.deposit + rows.balance).toBe(rows.total);
        for (const amount of Object.values(rows)) expect(Object.is(amount, -0)).toBe(false);
      }),
      { numRuns: 500 },
    );
  });

  it.each([
    [[], { margin: 0 }, "lines must hold at least one cost, found nothing"],
    [[line("work", -3)], { margin: 0 }, "lines row 1: cost must be 0 or more, found -3"],
    [[line("work", 3, -1)], { margin: 0 }, "lines row 1: quantity must be 0 or more, found -1"],
    [JOB, { margin: 1 }, "margin must be below 1 as a share of the price, found 1"],
    [JOB, { margin: 0, tax: 19 }, "tax must be from 0 to 1, found 19"],
    [JOB, { margin: 0, discount: -0.1 }, "discount must be from 0 to 1, found -0.1"],
    [JOB, { margin: 0, deposit: 1.1 }, "deposit must be from 0 to 1, found 1.1"],
    [JOB, { margin: 0, minimum: -1 }, "minimum must be 0 or more, found -1"],
    [[line("work", 1e9, 1e9)], { margin: 0 }, "an amount is beyond 1000000000"],
  ] as const)("refuses %j with %j", (lines, given, sentence) => {
    expect(() => quotePlan(lines, given)).toThrow(sentence);
  });
});
