import { describe, expect, it } from "vitest";
import { PURCHASE_STEPS } from "../../src/core/stock/buy-plan";
import { functionNamed } from "../../src/functions/catalogue";
import { searchSteps, withinSeconds } from "../../src/functions/search-steps";
import { randomPurchase } from "../core/buying/purchase-model";

describe("steps of a search", () => {
  it("follow the seconds, up to what a sheet can wait, and only while the work goes on", () => {
    expect(searchSteps()).toBe(PURCHASE_STEPS);
    expect(withinSeconds(0.5, searchSteps)).toBe(withinSeconds(1, searchSteps) / 2);
    expect(withinSeconds(3600, searchSteps)).toBe(PURCHASE_STEPS);
    expect(withinSeconds(1, () => [withinSeconds(0.25, searchSteps), searchSteps()])).toEqual([
      withinSeconds(0.25, searchSteps),
      withinSeconds(1, searchSteps),
    ]);
    const fail = (): never => {
      throw new Error("so");
    };
    expect(() => withinSeconds(1, fail)).toThrow("so");
    expect(searchSteps()).toBe(PURCHASE_STEPS);
  });

  // The purchase of tests/core/stock/buy-plan.test.ts that HiGHS 1.15.3 plans for 151.89.
  const shape = { items: 8, suppliers: 3, bags: [10, 25, 50, 100], mostNeeded: 300, offersPerItem: 6 };
  const { wanted, terms } = randomPurchase(1063, { ...shape, threshold: 60 });
  const offers = wanted.flatMap(({ offers: all }, item) => {
    const cheapest = all.filter(
      (one) =>
        !all.some((o) => o.supplier === one.supplier && o.pieces === one.pieces && o.price < one.price),
    );
    return cheapest.map((o) => [`s${o.supplier}`, 11, `colour ${item}`, o.pieces, o.price / 100]);
  });
  const prices = [["supplier", "printed", "colour", "bag", "price"], ...offers];
  const delivery = [
    ["supplier", "charge", "minimum", "free from"],
    ...terms.map(({ charge, minimum, freeFrom }, at) => [
      `s${at}`,
      charge / 100,
      minimum / 100,
      freeFrom < Infinity ? freeFrom / 100 : "",
    ]),
  ];
  const pieces = [
    ["name", "kind", "printed", "colour", "balloons"],
    ...wanted.map(({ need }, item) => [`piece ${item}`, "count", 11, `colour ${item}`, need]),
  ];
  const money = [
    ["term", "value"],
    ["breakage", "none"],
    ...["travel", "distance", "per km"].map((term) => [term, "none"]),
    ["pay", 20],
    ["crew", 1],
    ["margin", "none"],
  ];
  const call = (name: string, args: readonly unknown[], seconds: number): string =>
    JSON.stringify(withinSeconds(seconds, () => functionNamed(name)?.call(args)));

  it("end the search of a purchase, which then states what it did not prove", () => {
    const needs = [
      ["printed", "colour", "with spares"],
      ...wanted.map(({ need }, item) => [11, `colour ${item}`, need]),
    ];
    const bought = (seconds: number): number =>
      (JSON.parse(call("BUY_COST", [needs, prices, null, delivery], seconds)) as { value: number }).value;
    expect(bought(2)).toBe(151.89);
    expect(bought(0)).toBeGreaterThanOrEqual(151.89);
    expect(call("BUY_PLAN", [needs, prices, null, delivery], 2)).not.toMatch(/a cheaper plan could save/);
    expect(call("BUY_PLAN", [needs, prices, null, delivery], 0)).toMatch(/a cheaper plan could save/);
  });

  it("end the searches of a whole job, with fewer seconds and then with more", () => {
    const ready = (seconds: number): string => call("READY_PLAN", [pieces, prices, delivery, money], seconds);
    expect(ready(0)).toMatch(/more than the cheapest/);
    expect(ready(2)).not.toMatch(/more than the cheapest/);
    expect(ready(0)).toMatch(/more than the cheapest/);
  });
});
