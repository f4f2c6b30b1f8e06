import { expect, it } from "vitest";
import { purchasesOf } from "../../../src/core/event/purchases";
import { inches, jobOf, type Tables } from "./job-builder";
import { needsOf } from "./planned";

const tables: Tables = {
  pieces: [{ name: "X", kind: "count", printed: inches(11), colour: "Navy", balloons: 100 }],
  price_list: [{ supplier: "Town", printed: inches(11), colour: "Navy", bag: 50, price: 10 }],
  stock: [{ printed: inches(11), colour: "Navy", count: 47, "value each": 0.12 }],
};
const bought = (more: Tables, missing?: number) =>
  purchasesOf(jobOf({ ...tables, ...more }), needsOf(tables), missing).items[0];

it("takes the shelf first, then whole bags", () => {
  // By hand: 106 to take, 47 on the shelf, 59 in two bags.
  expect(bought({})).toMatchObject({ fromStock: 47, bought: 100, paid: 20, short: 0, todayEach: 0.2 });
  expect(bought({})?.stockValue).toBeCloseTo(5.64, 9);
});

it("counts a stand-in for what nobody sells, or says what is short", () => {
  expect(bought({ price_list: [] })).toMatchObject({ bought: 0, paid: 0, short: 59 });
  expect(bought({ price_list: [] }, 0.25)).toMatchObject({ bought: 59, paid: 14.75, short: 0 });
});

it("counts only the usable part of a bag", () => {
  const price_list = [{ ...tables.price_list?.[0], "good each": 0.9 }];
  // By hand: 45 usable in a bag, 59 missing: two bags of 45.
  expect(bought({ price_list })).toMatchObject({ bought: 90, paid: 20 });
});
