import { describe, expect, it } from "vitest";
import {
  lowPrices,
  priceRemarks,
  readPriceList,
  type PriceRow,
  bagPrice,
  usablePieces,
} from "../../../src/core/stock/price-list";
import { toSi } from "../../../src/core/units";

const row = (number: number, more: Partial<PriceRow> = {}): PriceRow => ({
  row: number,
  supplier: "North",
  printed: toSi(11, "in"),
  colour: "Navy",
  bag: 100,
  price: 9.5,
  ...more,
});

describe("readPriceList", () => {
  it("reads prices per piece and usable shares", () => {
    const [bag, piece, poor, single] = readPriceList([
      row(2),
      row(3, { bag: 50, price: 0.085, per: "piece" }),
      row(4, { bag: 25, good: 0.9 }),
      row(5, { bag: 1, good: 0.9 }),
    ]);
    expect(bag).toMatchObject({ price: 95_000, usable: 100 });
    expect(piece).toMatchObject({ price: 42_500, usable: 50 });
    expect(poor).toMatchObject({ usable: 22 });
    expect(single).toMatchObject({ usable: 1 });
  });

  it.each([
    [{ price: -1 }, "price_list row 7: price must be 0 or more, found -1"],
    [{ price: 0.00001 }, "price_list row 7: price must be a hundredth of a cent or more, found 0.00001"],
    [{ bag: 0 }, "price_list row 7: bag must be a whole number of pieces from 1 to 10000, found 0"],
    [{ good: 0 }, "price_list row 7: good must be above 0 and at most 1, found 0"],
    [
      { supplier: " north\u00a0", colour: "NAVY", price: 9.9 },
      "price_list row 7: price must be the same as in row 2, found 9.9 and 9.5 for a bag of 100 11 in NAVY",
    ],
  ])("refuses %j", (more, sentence) => {
    expect(() => readPriceList([row(2), row(7, more)])).toThrow(sentence);
  });

  it("takes the same offer twice at one price, per bag or per piece", () => {
    expect(readPriceList([row(2), row(3, { price: 0.095, per: "piece" })])).toHaveLength(2);
  });
});

describe("priceRemarks", () => {
  it("doubts a price ten times off the median of its size", () => {
    const rows = [
      row(2),
      row(3, { colour: "White" }),
      row(4, { colour: "Coral", price: 0.095 }),
      row(5, { colour: "Gold", price: 9.5, per: "piece" }),
      row(6, { printed: toSi(36, "in"), bag: 1, price: 6 }),
    ];
    expect([...priceRemarks(readPriceList(rows))]).toEqual([
      [4, "price_list row 4 is 1/100 of the usual price a piece, is it the price of a piece"],
      [5, "price_list row 5 is 100 times the usual price a piece, is it the price of a bag"],
    ]);
  });
});

it("prices a bag that is priced by the piece, and counts on its usable pieces (by hand: 100 x 0.12, 95 % of 50)", () => {
  expect(bagPrice({ price: 0.12, bag: 100, per: "piece" })).toBe(12);
  expect(bagPrice({ price: 12.5, bag: 100 })).toBe(12.5);
  expect(usablePieces({ bag: 50, good: 0.95 })).toBe(47);
  expect(usablePieces({ bag: 1, good: 0.2 })).toBe(1);
});

describe("lowPrices", () => {
  const low = (...rows: readonly PriceRow[]): readonly (readonly [number, string])[] => [
    ...lowPrices(readPriceList(rows)),
  ];
  /** Common practice, no source: an 11 in balloon costs about 0.20, others by the square of their size. */
  const piece = (size: number): number => 0.2 * (size / 11) ** 2;

  it("names rows of a whole list of piece prices, in which no row stands out against the others", () => {
    const sizes = [5, 11, 16].map((size, index) =>
      row(index + 2, { printed: toSi(size, "in"), bag: 50, price: Number(piece(size).toFixed(2)) }),
    );
    expect([...priceRemarks(readPriceList(sizes))]).toEqual([]);
    expect(low(...sizes).map(([number]) => number)).toEqual([2, 3, 4]);
    // By hand: 0.26 / 50 = 0.0052.
    expect(low(row(2, { bag: 50, price: 0.26 }))).toEqual([
      [2, "price_list row 2 is 0.0052 for one balloon, is it the price of a piece; type per"],
    ]);
  });

  it("is silent about bag prices, also cheap ones, about what says per, costs nothing or is no latex", () => {
    for (const size of [5, 11, 16, 36])
      expect(low(row(2, { printed: toSi(size, "in"), bag: 50, price: 50 * piece(size) * 0.2 }))).toEqual([]);
    expect(low(row(2, { price: 0.2, per: "bag" }), row(3, { colour: "Gold", price: 0 }))).toEqual([]);
    expect(low(row(2, { type: "long", bag: 100, price: 0.2 }))).toEqual([]);
  });
});
