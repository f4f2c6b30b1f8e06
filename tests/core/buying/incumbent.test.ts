import { describe, expect, it } from "vitest";
import { cheapestFrom, Incumbent } from "../../../src/core/buying/incumbent";
import { coverOf } from "../../../src/core/buying/purchase";
import { PurchaseProblem } from "../../../src/core/buying/purchase-problem";
import { StepBudget } from "../../../src/core/buying/step-budget";

const wanted = [
  {
    need: 60,
    offers: [
      { supplier: 0, pieces: 50, price: 900 },
      { supplier: 0, pieces: 10, price: 250 },
    ],
  },
  { need: 60, offers: [{ supplier: 1, pieces: 100, price: 1500 }] },
];
const terms = [
  { charge: 600, minimum: 1000, freeFrom: 2200 },
  { charge: 0, minimum: 0, freeFrom: Infinity },
];
const problem = new PurchaseProblem(wanted, terms, new StepBudget(1e6));
const suppliers = terms.length;

describe("Incumbent", () => {
  it("prices goods with the cheaper of charge and top-up", () => {
    const incumbent = new Incumbent(problem);
    // 11.50 pays 6.00 delivery, or 22.00 is reached with 10.50 or more: 900 + 250 = 1150.
    expect(incumbent.priceOf([1150, 1500])).toBe(1150 + 600 + 1500);
    // From 20.50 on, one bag of 2.50 waives 6.00.
    expect(incumbent.priceOf([2050, 0])).toBe(2300);
    // A least order of 10.00 from 9.00: one bag of 2.50, then the charge.
    expect(incumbent.priceOf([900, 0])).toBe(1150 + 600);
    expect(incumbent.priceOf([0, 1500])).toBe(1500);
  });

  it("keeps the cheapest plan, filled up, and the cover it was filled from", () => {
    const incumbent = new Incumbent(problem);
    expect([incumbent.price, incumbent.tidied().price]).toEqual([Infinity, 0]);
    const dear = coverOf(wanted, [[2, 1], [1]], suppliers);
    incumbent.propose(dear);
    // 18.00 + 2.50 = 20.50, and one more bag of 2.50 for free delivery.
    expect([incumbent.price, incumbent.base]).toEqual([2300 + 1500, dear]);
    const cheap = coverOf(wanted, [[1, 1], [1]], suppliers);
    incumbent.propose(cheap);
    incumbent.propose(dear);
    expect([incumbent.price, incumbent.base]).toEqual([1150 + 600 + 1500, cheap]);
    expect(incumbent.tidied()).toEqual({
      bags: [[1, 1], [1]],
      goods: [1150, 1500],
      charges: [600, 0],
      price: 3250,
    });
  });

  it("knows whether top-ups are the least", () => {
    const incumbent = new Incumbent(problem);
    // 2.50 and 9.00: 10.00 is four of 2.50, 10.01 is 2.50 + 9.00.
    expect([incumbent.topUp(0, 1000).sum, incumbent.topUp(0, 1001).sum, incumbent.isExact(0)]).toEqual([
      1000,
      1150,
      true,
    ]);
  });
});

describe("cheapestFrom", () => {
  it("covers each item from the suppliers that are open, least left over among equals", () => {
    const offers = [
      { supplier: 0, pieces: 50, price: 500 },
      { supplier: 0, pieces: 40, price: 500 },
      { supplier: 1, pieces: 40, price: 100 },
    ];
    expect(cheapestFrom([{ need: 35, offers }], 2, (supplier) => supplier === 0)).toEqual({
      bags: [[0, 1, 0]],
      goods: [500, 0],
    });
  });
});
