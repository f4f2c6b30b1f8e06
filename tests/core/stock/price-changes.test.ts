import { describe, expect, it } from "vitest";
import { priceChanges } from "../../../src/core/stock/price-changes";
import type { PriceRow } from "../../../src/core/stock/price-list";
import { toSi } from "../../../src/core/units";

const row = (number: number, colour: string, price: number, more: Partial<PriceRow> = {}): PriceRow => ({
  row: number,
  supplier: "North",
  printed: toSi(11, "in"),
  colour,
  bag: 100,
  price,
  ...more,
});

describe("priceChanges", () => {
  it("lists dearer, cheaper, new and gone rows with the change", () => {
    const before = [
      row(2, "Navy", 10),
      row(3, "White", 8),
      row(4, "Gold", 12),
      row(5, "Coral", 9),
      row(6, "Blush", 10),
    ];
    const now = [
      row(2, "navy ", 12.5),
      row(3, "White", 6),
      row(4, "Gold", 0.12, { per: "piece" }),
      row(5, "Coral", 9, { bag: 50 }),
      row(6, "Blush", 15),
      row(7, "Sage", 11, { available: false }),
    ];
    const changes = priceChanges(before, now);
    expect(
      changes.map(({ colour, bag, kind, oldPrice, newPrice, change }) => [
        colour,
        bag,
        kind,
        oldPrice,
        newPrice,
        change,
      ]),
    ).toEqual([
      ["Blush", 100, "dearer", 10, 15, 0.5],
      ["navy", 100, "dearer", 10, 12.5, 0.25],
      ["White", 100, "cheaper", 8, 6, -0.25],
      ["Coral", 50, "new", 0, 9, 0],
      ["Coral", 100, "gone", 9, 0, 0],
    ]);
  });

  it("finds nothing between equal lists and names the list of a bad row", () => {
    expect(priceChanges([row(2, "Navy", 10)], [row(9, " NAVY", 10)])).toEqual([]);
    expect(() => priceChanges([row(2, "Navy", 0)], [])).toThrow("old_list row 2: price must be above 0");
    expect(() => priceChanges([], [row(2, "Navy", 0)])).toThrow("new_list row 2: price must be above 0");
  });
});
