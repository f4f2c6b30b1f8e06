import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { purchasesOf, type ItemPurchase, type Purchases } from "../../../src/core/event/purchases";
import type { DeliveryCells, PriceCells, StockCells } from "../../../src/core/event/cells";
import { inches, jobOf, type Row, type Tables } from "./job-builder";
import { costsOf } from "./planned";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const buy = (tables: Tables, missing?: number): Purchases =>
  purchasesOf(jobOf(tables), costsOf(tables).needs, missing);
const price = (bag: number, amount: number, more: Row<PriceCells> = {}): Row<PriceCells> => ({
  supplier: "Town",
  printed: inches(11),
  colour: "Gold",
  bag,
  price: amount,
  ...more,
});
/** 20 Gold of 11 in: 22 to take (S5). */
const gold = (
  price_list: readonly Row<PriceCells>[],
  stock: readonly Row<StockCells>[] = [],
  delivery: readonly Row<DeliveryCells>[] = [{ supplier: "Town", charge: 0 }],
): Tables => ({
  pieces: [{ name: "Arch", kind: "count", printed: inches(11), colour: "Gold", balloons: 20 }],
  price_list,
  stock,
  delivery,
});
const only = (tables: Tables, missing?: number): ItemPurchase => {
  const [item] = buy(tables, missing).items;
  if (item === undefined) throw new Error("no item");
  return item;
};
const said = ({ problems }: Pick<Purchases, "problems">): readonly string[] =>
  problems.map(({ weight, what }) => `${weight}: ${what}`);
const held = (count: number, more: Row<StockCells> = {}): Row<StockCells> => ({
  printed: inches(11),
  colour: "Gold",
  count,
  ...more,
});

describe("purchasesOf", () => {
  it("C3: buys the stand bouquet's bags for 80.00 (by hand: 12.50 + 3 x 11.50 + 12.00 + 2 x 7.50 + 6.00)", () => {
    const { items, orders } = buy(STAND_BOUQUET);
    expect(items.reduce((sum, { paid }) => sum + paid, 0)).toBeCloseTo(80, 9);
    expect(orders).toEqual([{ supplier: "Town", goods: 80, delivery: 0 }]);
  });

  it("buys 531 White as five bags of 100 and one of 50, and pays delivery once (by hand)", () => {
    const { items, delivery } = buy(EVENING);
    const white = items.find(({ need }) => need.take === 531);
    expect(white?.lines.map(({ supplier, bag, bags }) => [supplier, bag, bags]).toSorted()).toEqual([
      ["Depot", 100, 5],
      ["Town", 50, 1],
    ]);
    expect([white?.paid, white?.bought, white?.short]).toEqual([95, 550, 0]);
    expect(delivery).toBe(7.9);
  });

  it("takes from the shelf first, at the worth that was typed (by hand: 15 x 0.12; one bag for 7)", () => {
    const item = only(gold([price(50, 10)], [held(15, { "value each": 0.12 })]));
    expect(item).toMatchObject({ fromStock: 15, bought: 50, paid: 10, short: 0 });
    expect(item.stockValue).toBeCloseTo(1.8, 12);
  });

  it("mixes what has a value with what is worth today's price (by hand: 20 x (10 x 0.1 + 10 x 0.2) / 20)", () => {
    const item = only(gold([price(50, 10)], [held(10, { "value each": 0.1 }), held(10)]));
    expect(item.stockValue).toBeCloseTo(3, 12);
  });

  it("buys nothing where the shelf holds enough", () => {
    expect(only(gold([price(50, 10)], [held(22)]))).toMatchObject({
      fromStock: 22,
      bought: 0,
      paid: 0,
      lines: [],
    });
  });

  it("counts only the usable balloons of a bag (by hand: 22 of bags with 45 usable each 10 / 45)", () => {
    const item = only(gold([price(50, 10, { "good each": 0.9 })]));
    expect([item.bought, item.todayEach]).toEqual([45, 10 / 45]);
  });

  it("M1: says what nobody sells, how many are short, and what it looks like", () => {
    expect(said(buy(gold([])))).toEqual(["stop: nobody sells 11 in Gold, 22 short"]);
    expect(said(buy(gold([price(50, 10, { colour: "Golt" })])))).toEqual([
      'stop: nobody sells 11 in Gold, 22 short; looks like "Golt"',
    ]);
    expect(said(buy(gold([price(50, 10, { available: false })])))).toEqual([
      "stop: 11 in Gold is sold out at Town, 22 short",
    ]);
    expect(only(gold([], [held(15, { "value each": 0.1 })]))).toMatchObject({ fromStock: 15, short: 7 });
  });

  it("does not say that nobody sells what a row in doubt may sell", () => {
    const doubtful = price(50, 12.5, { doubt: "price must be an amount of money" });
    expect(said(buy(gold([doubtful])))).toEqual(["stop: price_list row 2: price must be an amount of money"]);
    const clash = buy(gold([price(50, 12.5), price(50, 13)]));
    expect(said(clash).filter((text) => text.startsWith("stop"))).toHaveLength(1);
    // Whoever shows the item shows why.
    expect(clash.items[0]?.problems.map(({ weight }) => weight)).toEqual(["stop"]);
  });

  it("M6: counts a stand-in price, with a check (by hand: 22 x 0.25)", () => {
    const found = only(gold([]), 0.25);
    expect(found).toMatchObject({ bought: 22, paid: 5.5, short: 0, todayEach: 0.25 });
    expect(said(found)).toEqual(["check: nobody sells 11 in Gold, counted at 0.25 each"]);
  });

  it("stops balloons on the shelf that have no value while nobody sells them", () => {
    const found = only(gold([], [held(30)]));
    expect(found.stockValue).toBeUndefined();
    expect(said(found)).toEqual(["stop: 11 in Gold on the shelf has no value and nobody sells it"]);
  });

  it("takes what is given away for nothing, whole bags of it", () => {
    const found = only(gold([price(10, 0), price(50, 10)]));
    expect(found).toMatchObject({ bought: 30, paid: 0, todayEach: 0, short: 0 });
    expect(found.lines.map(({ bag, bags, cost }) => [bag, bags, cost])).toEqual([[10, 3, 0]]);
  });

  describe("delivery", () => {
    it("checks a supplier without a row: its delivery would cost nothing", () => {
      expect(said(buy(gold([price(50, 10)], [], [])))).toEqual([
        "check: Town has no delivery row, its delivery costs nothing",
      ]);
    });

    it("stops at a doubtful row of a supplier that is used, and notes one that is not", () => {
      const doubtful = (supplier: string): readonly string[] =>
        said(
          buy(
            gold(
              [price(50, 10)],
              [],
              [
                { supplier: "Town", charge: 3 },
                { supplier, doubt: "charge must be a number" },
              ],
            ),
          ),
        );
      expect(doubtful("Town")).toEqual(["stop: delivery row 3: charge must be a number"]);
      expect(doubtful("Depot")).toEqual(["note: delivery row 3: charge must be a number"]);
    });
  });

  it("never buys too few, nor pays for more balloons less, in any order of the lists", () => {
    const lists = fc.array(
      fc.record({
        supplier: fc.constantFrom("Town", "Depot", "Far"),
        bag: fc.constantFrom(10, 25, 50, 100),
        amount: fc.integer({ min: 100, max: 4000 }).map((cents) => cents / 100),
      }),
      { minLength: 1, maxLength: 4 },
    );
    fc.assert(
      fc.property(
        lists,
        fc.integer({ min: 1, max: 150 }),
        fc.integer({ min: 0, max: 60 }),
        (list, count, shelf) => {
          const distinct = [...new Map(list.map((row) => [`${row.supplier} ${row.bag}`, row])).values()];
          const rows = distinct.map(({ supplier, bag, amount }) =>
            price(bag, amount, { supplier, per: "bag" }),
          );
          const at = (balloons: number, of = rows): ItemPurchase => {
            const tables = gold(of, [held(shelf, { "value each": 0.1 })]);
            return only({
              ...tables,
              pieces: (tables.pieces ?? []).map((piece) => ({ ...piece, balloons })),
            });
          };
          const item = at(count);
          expect(item.fromStock + item.bought).toBeGreaterThanOrEqual(item.need.take);
          expect(item.fromStock).toBe(Math.min(shelf, item.need.take));
          expect(at(count + 1).paid).toBeGreaterThanOrEqual(item.paid);
          expect(at(count, rows.toReversed()).paid).toBe(item.paid);
        },
      ),
      { numRuns: 30 },
    );
  });
});
