import { describe, expect, it } from "vitest";
import { priceChanges } from "../../../src/core/stock/price-changes";
import type { PriceRow } from "../../../src/core/stock/price-list";
import { toSi } from "../../../src/core/units";
import { asRead, doubtful } from "../as-read";

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
    const { changes } = priceChanges(asRead(before, "old_list"), asRead(now, "new_list"));
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

  it("finds nothing between equal lists", () => {
    const nothing = { changes: [], uncompared: [], absent: [] };
    expect(priceChanges(asRead([row(2, "Navy", 10)]), asRead([row(9, " NAVY", 10)]))).toEqual(nothing);
  });

  it("says nothing of a supplier that the new list does not name", () => {
    const before = [row(2, "Navy", 10), row(3, "Navy", 9, { supplier: "South" }), row(4, "White", 8)];
    const { changes, absent } = priceChanges(asRead(before), asRead([row(2, "Navy", 11)]));
    expect(changes.map(({ supplier, colour, kind }) => [supplier, colour, kind])).toEqual([
      ["North", "Navy", "dearer"],
      ["North", "White", "gone"],
    ]);
    expect(absent).toEqual([{ supplier: "South", rows: 1 }]);
  });

  it("keeps rows that cannot be read as rows, and never calls what they may be new or gone", () => {
    const bad = doubtful<PriceRow>(
      3,
      { supplier: "North", colour: "White" },
      "price must be given",
      "new_list",
    );
    const { changes, uncompared } = priceChanges(
      asRead([row(2, "Navy", 10), row(3, "White", 8), row(4, "Gold", 7)], "old_list"),
      [...asRead([row(2, "Navy", 10)], "new_list"), bad],
    );
    expect(changes.map(({ colour, kind }) => [colour, kind])).toEqual([["Gold", "gone"]]);
    expect(uncompared).toEqual([
      { supplier: "North", colour: "White", what: "new_list row 3: price must be given" },
    ]);
  });

  it("compares no offer that stands at two prices", () => {
    const torn = asRead([row(2, "Navy", 10), row(3, "navy", 12)], "new_list");
    const { changes, uncompared } = priceChanges(asRead([row(2, "Navy", 10)]), torn);
    expect(changes).toEqual([]);
    expect(uncompared[0]?.what).toContain("new_list row 3: price must be the same as in row 2");
  });
});
