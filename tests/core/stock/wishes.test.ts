import { describe, expect, it } from "vitest";
import { readPriceList } from "../../../src/core/stock/price-list";
import { availability, shortageOf, wishesOf } from "../../../src/core/stock/wishes";

const need = (row: number, colour: string, count: number) => ({ row, printed: 11, colour, count });
const offer = (row: number, supplier: string, colour: string, bag: number, available = true) => ({
  row,
  supplier,
  printed: 11,
  colour,
  bag,
  price: 9,
  ...(!available && { available }),
});

describe("what is wanted of each item", () => {
  it("adds up rows of an item in the order in which it is first needed", () => {
    const wishes = wishesOf([need(2, "Gold", 10), need(3, "Navy", 5), need(4, "gold", 7)], [], []);
    expect(wishes.map(({ item, needed }) => [item.colour, needed])).toEqual([
      ["Gold", 17],
      ["Navy", 5],
    ]);
  });

  it("takes no more from stock than is needed and asks for no offers then", () => {
    const listings = readPriceList([offer(2, "Town", "Gold", 50)]);
    const stock = [{ row: 2, printed: 11, colour: "Gold", pieces: 30 }];
    const [wish] = wishesOf([need(2, "Gold", 12)], listings, stock);
    expect(wish).toMatchObject({ needed: 12, held: 30, fromStock: 12, offered: [] });
    expect(wish && availability(wish)).toBe("from stock");
    expect(wish && shortageOf(wish)).toEqual([]);
  });

  it("says who lists what nobody can deliver, and that nobody lists it", () => {
    const listings = readPriceList([offer(2, "Town", "Gold", 50, false)]);
    const [gold, navy] = wishesOf([need(2, "Gold", 12), need(3, "Navy", 3)], listings, []);
    expect([gold, navy].map((wish) => wish && availability(wish))).toEqual([
      "sold out at Town, 12 short",
      "nobody sells it, 3 short",
    ]);
    expect(
      [gold, navy].flatMap((wish) => (wish ? shortageOf(wish) : [])).map(({ pieces }) => pieces),
    ).toEqual([12, 3]);
  });

  it("leaves a bag that is listed twice to its first row", () => {
    const listings = readPriceList([offer(2, "Town", "Gold", 50), offer(3, "town", "Gold", 50)]);
    const [wish] = wishesOf([need(2, "Gold", 12)], listings, []);
    expect(wish?.offered.map(({ row }) => row)).toEqual([2]);
  });
});
