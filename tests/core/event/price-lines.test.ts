import { describe, expect, it } from "vitest";
import type { ItemNeed } from "../../../src/core/event/item-needs";
import type { PriceCells } from "../../../src/core/event/cells";
import {
  alikeColours,
  itemOf,
  itemProblems,
  priceLines,
  type PriceLines,
} from "../../../src/core/event/price-lines";
import { itemKey } from "../../../src/core/stock/item";
import { inches, jobOf, type Row } from "./job-builder";
import { costsOf } from "./planned";

const needs: readonly ItemNeed[] = costsOf({
  pieces: [
    { name: "Arch", kind: "count", printed: inches(11), colour: "Gold", balloons: 20 },
    { name: "Sign", kind: "count", type: "long", code: 260, colour: "White", balloons: 20 },
  ],
}).needs;
const [gold, long] = needs as readonly [ItemNeed, ItemNeed];
const row = (more: Row<PriceCells> = {}): Row<PriceCells> => ({
  supplier: "Town",
  printed: inches(11),
  colour: "Gold",
  bag: 50,
  price: 12.5,
  ...more,
});
const lines = (...price_list: readonly Row<PriceCells>[]): PriceLines =>
  priceLines(jobOf({ price_list }), needs);
const said = ({ problems }: PriceLines): readonly (readonly unknown[])[] =>
  problems.map(({ weight, reach, what }) => [weight, reach.of === "item" ? reach.key : reach.of, what]);

describe("itemOf", () => {
  it("is latex unless a code or a type says otherwise; a 260 is 60 in long (common practice)", () => {
    expect(itemOf({ printed: inches(11), colour: "Gold" })).toEqual({
      printed: inches(11),
      colour: "Gold",
      type: "latex",
    });
    expect(itemOf({ code: 260, colour: "White" })).toMatchObject({ type: "long", code: 260 });
    expect(itemOf({ code: 260, colour: "White" })?.printed).toBeCloseTo(inches(60), 12);
  });

  it("is none without a size or a colour", () => {
    expect(itemOf({ colour: "Gold" })).toBeUndefined();
    expect(itemOf({ printed: inches(11) })).toBeUndefined();
  });
});

it("itemProblems are one stop for each need a row may meet, else a note", () => {
  const place = { row: 7 };
  expect(
    itemProblems("stock", place, "cannot be read", needs).map(({ weight, reach }) => [weight, reach]),
  ).toEqual([
    ["stop", { of: "item", key: gold.key }],
    ["stop", { of: "item", key: long.key }],
  ]);
  expect(itemProblems("stock", place, "cannot be read", [])).toMatchObject([{ weight: "note", row: 7 }]);
});

describe("priceLines", () => {
  it("keeps rows to buy by in order, free ones apart", () => {
    const { rows, free, problems } = lines(
      row(),
      row({ supplier: "Depot", bag: 100, price: 21 }),
      row({ bag: 5, price: 0 }),
    );
    expect(rows.map(({ supplier, price }) => [supplier, price])).toEqual([
      ["Town", 12.5],
      ["Depot", 21],
    ]);
    expect(free.map(({ bag }) => bag)).toEqual([5]);
    expect(problems.map(({ weight, what }) => [weight, what])).toEqual([
      ["check", "price_list row 4: 11 in Gold is free, as typed"],
    ]);
  });

  it("stops the item of a row that cannot be read, and keeps the others", () => {
    const found = lines(row({ doubt: 'price must be a number, found "n/a"' }), row({ supplier: "Depot" }));
    expect(said(found)).toEqual([
      ["stop", gold.key, 'price_list row 2: price must be a number, found "n/a"'],
    ]);
    expect(found.rows.map(({ supplier }) => supplier)).toEqual(["Depot"]);
  });

  it("M4: only notes a bad row that cannot concern the job", () => {
    const found = lines(
      row(),
      row({ printed: inches(16), colour: "Coral", doubt: "price must be a number" }),
    );
    expect(said(found)).toEqual([["note", "none", "price_list row 3: price must be a number"]]);
  });

  it.each([
    ["supplier", { printed: inches(11), colour: "Gold", bag: 50, price: 1 }],
    ["bag", { supplier: "Town", printed: inches(11), colour: "Gold", price: 1 }],
    ["price", { supplier: "Town", printed: inches(11), colour: "Gold", bag: 50 }],
  ] as const)("asks for %s", (column, cells) => {
    expect(said(lines(cells))).toEqual([
      ["stop", gold.key, `price_list row 2: ${column} must be given, found nothing`],
    ]);
  });

  it("stops one bag at two prices, and buys by neither", () => {
    const found = lines(row(), row({ price: 11 }), row({ supplier: "Depot" }));
    expect(said(found)).toEqual([
      [
        "stop",
        gold.key,
        "price_list row 3: price must be the same as in price_list row 2, found 12.50 and 11.00 for a bag of 50 11 in Gold",
      ],
    ]);
    expect(found.rows.map(({ supplier }) => supplier)).toEqual(["Depot"]);
  });

  it("lets one bag stand twice at one price", () => {
    expect(said(lines(row(), row({ price: 0.25, per: "piece" })))).toEqual([]);
  });

  it("stops a piece price ten times off its size's median unless per is typed", () => {
    const others = ["Navy", "White"].map((colour) => row({ colour }));
    const found = lines(...others, row({ price: 0.25 }));
    expect(said(found).map(([weight, key]) => [weight, key])).toEqual([["stop", gold.key]]);
    expect(said(lines(...others, row({ price: 0.25, per: "bag" })))).toEqual([]);
  });

  it("checks a price that is low for its size where no other row of the list shows it (by hand: 0.26 / 50)", () => {
    expect(said(lines(row({ price: 0.26 })))).toEqual([
      [
        "check",
        "none",
        "price_list row 2: price is 0.0052 for one balloon, is it the price of a piece; type per",
      ],
    ]);
    expect(said(lines(row({ price: 0.26, per: "piece" })))).toEqual([]);
  });

  it("refuses a bag of less than one balloon in the row's own words", () => {
    expect(said(lines(row({ bag: 0 })))[0]?.[2]).toMatch(/^price_list row 2: bag must be .*, found 0$/);
  });
});

it("alikeColours names a slip of the same size only", () => {
  const rows = lines(row({ colour: "Gould" }), row({ colour: "Goold", printed: inches(5) })).rows;
  expect(alikeColours({ printed: inches(11), colour: "Gold" }, rows)).toEqual(["Gould"]);
  expect(itemKey({ printed: inches(11), colour: "Gold" })).toBe(gold.key);
});
