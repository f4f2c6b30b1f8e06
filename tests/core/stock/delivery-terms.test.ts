import { describe, expect, it } from "vitest";
import { deliveryTerms, undelivered } from "../../../src/core/stock/delivery-terms";

describe("deliveryTerms", () => {
  const suppliers = [
    { key: "north", name: "North" },
    { key: "south", name: "South" },
  ];

  it("reads terms in the order of suppliers, in hundredths of a cent", () => {
    expect(
      deliveryTerms([{ row: 2, supplier: " SOUTH", charge: 4.9, minimum: 20, freeFrom: 90 }], suppliers),
    ).toEqual([
      { charge: 0, minimum: 0, freeFrom: Infinity },
      { charge: 49_000, minimum: 200_000, freeFrom: 900_000 },
    ]);
  });

  it("takes rows of suppliers that sell nothing, unless they look like one that does", () => {
    expect(deliveryTerms([{ row: 2, supplier: "Elsewhere", charge: 5 }], suppliers)).toHaveLength(2);
    expect(() => deliveryTerms([{ row: 2, supplier: "Suoth", charge: 5 }], suppliers)).toThrow(
      'delivery row 2: supplier must be on the price list, found "Suoth"; did you mean "South"',
    );
  });
});

describe("undelivered", () => {
  it("names who delivers for nothing because no row says otherwise, and whose name is a slip", () => {
    expect(undelivered(["Depo", "town", "Elsewhere"], ["Depot", "Town"]).map(({ what }) => what)).toEqual([
      'Depo has no delivery row, its delivery costs nothing; did you mean "Depot"',
      "Elsewhere has no delivery row, its delivery costs nothing",
    ]);
  });
});
