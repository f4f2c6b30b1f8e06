import { describe, expect, it } from "vitest";
import type { DeliveryRow } from "../../../src/core/stock/delivery-terms";
import type { Doubtful } from "../../../src/core/stock/doubtful";
import { itemKey, type Item } from "../../../src/core/stock/item";
import { listingOf, type Listing } from "../../../src/core/stock/price-list";
import { checkedTerms, listingStops, rowStops } from "../../../src/core/stock/purchase-stops";

const gold: Item = { printed: 0.2794, colour: "Gold" };
const navy: Item = { printed: 0.2794, colour: "Navy" };
const wanted = new Map([gold, navy].map((item) => [itemKey(item), item]));
const doubtful = (cells: Partial<Item>): Doubtful<Item> => ({
  row: 3,
  place: "stock row 3",
  cells,
  doubts: ['stock row 3: count must be a number, found "a few"'],
  value: undefined,
});

describe("rowStops", () => {
  const reached = (cells: Partial<Item>): readonly (readonly unknown[])[] =>
    rowStops([doubtful(cells)], wanted, () => false).map(({ weight, table, reach }) => [
      weight,
      table,
      reach.of === "item" ? reach.key : reach.of,
    ]);

  it("stops every item that a doubtful row may be, and notes a row that may be none", () => {
    expect(reached({ colour: "gold" })).toEqual([["stop", "stock", itemKey(gold)]]);
    expect(reached({ printed: 0.2794 })).toEqual([
      ["stop", "stock", itemKey(gold)],
      ["stop", "stock", itemKey(navy)],
    ]);
    expect(reached({ colour: "Sky" })).toEqual([["note", "stock", "none"]]);
  });

  it("says nothing of whole rows, and only notes idle ones", () => {
    expect(rowStops([{ ...doubtful(gold), doubts: [] }], wanted, () => false)).toEqual([]);
    expect(rowStops([doubtful(gold)], wanted, () => true)).toMatchObject([{ weight: "note" }]);
  });
});

describe("listingStops", () => {
  const listing = (row: number, price: number, per?: "piece"): Listing => {
    const found = listingOf({ ...gold, row, supplier: "Town", bag: 50, price, per }, `price_list row ${row}`);
    if (typeof found === "string") throw new Error(found);
    return found;
  };

  it("stops an item whose bag stands at two prices, not one that nobody wants", () => {
    const listings = [listing(2, 12.5), listing(3, 11)];
    expect(listingStops(listings, wanted).map(({ what }) => what)).toEqual([
      "price_list row 3: price must be the same as in row 2, found 11 and 12.5 for a bag of 50 11 in Gold",
    ]);
    expect(listingStops(listings, new Map([[itemKey(navy), navy]]))).toEqual([]);
  });
});

describe("checkedTerms", () => {
  const line = (row: number, supplier: string): Doubtful<DeliveryRow> => {
    const value = { row, supplier, charge: 5 };
    return { row, place: `delivery row ${row}`, cells: value, doubts: [], value };
  };

  it("keeps terms that can be relied on", () => {
    const { rows, stops } = checkedTerms([line(2, "Town"), line(3, "Coast")], ["Town", "Coast"]);
    expect(rows.map(({ supplier }) => supplier)).toEqual(["Town", "Coast"]);
    expect(stops.size).toBe(0);
  });

  it("keeps no terms of a supplier that stands twice, or that another name looks like", () => {
    const twice = checkedTerms([line(2, "Town"), line(3, "Town")], ["Town"]);
    expect(twice.rows).toEqual([]);
    expect([...twice.stops.values()].map(({ what }) => what)).toEqual([
      'delivery row 3: supplier must stand once, as in row 2, found "Town"',
    ]);
    const alike = checkedTerms([line(2, "Twon supplies")], ["Town supplies"]);
    expect([...alike.stops.keys()]).toEqual(["town supplies"]);
  });
});
