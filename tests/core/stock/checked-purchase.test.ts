import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { NeedRow, StockRow } from "../../../src/core/stock/item-rows";
import {
  checkedPurchase,
  stopSentence,
  type CheckedPurchase,
} from "../../../src/core/stock/checked-purchase";
import type { DeliveryRow } from "../../../src/core/stock/delivery-terms";
import type { Doubtful } from "../../../src/core/stock/doubtful";
import type { PriceRow } from "../../../src/core/stock/price-list";
import { toSi } from "../../../src/core/units";
import { isWithheld } from "../../../src/core/withheld";

const eleven = toSi(11, "in");

/** Rows of a table from row 2 on; those with a doubt keep their other cells. */
function rows<Row extends { readonly row: number }>(
  table: string,
  cells: readonly (Partial<Row> & { readonly doubt?: string })[],
): readonly Doubtful<Row>[] {
  return cells.map(({ doubt, ...given }, index) => {
    const row = index + 2;
    const place = `${table} row ${row}`;
    const read = { ...given, row } as unknown as Row;
    return {
      row,
      place,
      cells: read,
      doubts: doubt === undefined ? [] : [`${place}: ${doubt}`],
      value: doubt === undefined ? read : undefined,
    };
  });
}

interface Given {
  readonly needs?: readonly (Partial<NeedRow> & { readonly doubt?: string })[];
  readonly prices?: readonly (Partial<PriceRow> & { readonly doubt?: string })[];
  readonly stock?: readonly (Partial<StockRow> & { readonly doubt?: string })[];
  readonly delivery?: readonly (Partial<DeliveryRow> & { readonly doubt?: string })[];
}
const purchase = ({ needs = [], prices = [], stock = [], delivery = [] }: Given): CheckedPurchase =>
  checkedPurchase({
    needs: rows<NeedRow>("needs", needs),
    prices: rows<PriceRow>("price_list", prices),
    stock: rows<StockRow>("stock", stock),
    delivery: rows<DeliveryRow>("delivery", delivery),
  });
const need = (colour: string, count: number): Partial<NeedRow> => ({ printed: eleven, colour, count });
const offer = (supplier: string, colour: string, bag: number, price: number): Partial<PriceRow> => ({
  supplier,
  printed: eleven,
  colour,
  bag,
  price,
});
const totalOf = ({ total }: CheckedPurchase): unknown => (isWithheld(total) ? total.sentence : total);
const LIST = [offer("Town", "Navy", 50, 9.9), offer("Online", "Navy", 100, 17.2)];

describe("checkedPurchase", () => {
  it("buys the cheapest way and takes the shelf first (by hand: 106 - 10 need one bag of 100)", () => {
    const { lines, total } = purchase({
      needs: [need("Navy", 106)],
      prices: LIST,
      stock: [{ printed: eleven, colour: "navy", pieces: 10 }],
    });
    expect(total).toBe(17.2);
    expect(lines).toMatchObject([
      { needed: 106, fromStock: 10, supplier: "Online", bags: 1, cost: 17.2, leftOver: 4 },
    ]);
  });

  it("M1, M2: withholds the total at one item nobody sells, which keeps its row without a price", () => {
    const found = purchase({
      needs: [need("Navy", 106), need("Gold", 20)],
      prices: LIST,
      stock: [{ printed: eleven, colour: "navy", pieces: 10 }],
    });
    expect(totalOf(found)).toBe("1 problem stops the cost, the first: nobody sells 11 in Gold, 20 short");
    const [navy, gold] = found.lines;
    expect(navy?.cost).toBe(17.2);
    expect([isWithheld(gold?.price), isWithheld(gold?.cost), gold?.needed, gold?.bags]).toEqual([
      true,
      true,
      20,
      0,
    ]);
  });

  it("M3: counts two items without a seller as two problems", () => {
    const needs = [need("Gold", 20), { ...need("Gold", 10), printed: toSi(5, "in") }];
    expect(totalOf(purchase({ needs, prices: LIST }))).toBe(
      "2 problems stop the cost, the first: nobody sells 11 in Gold, 20 short",
    );
  });

  it("M4: only notes a bad row that cannot concern the needs (by hand: 2 x 9.90)", () => {
    const bad = {
      supplier: "Town",
      printed: toSi(16, "in"),
      colour: "Coral",
      bag: 25,
      doubt: "price must be a number",
    };
    const { total, problems } = purchase({ needs: [need("Navy", 96)], prices: [LIST[0] ?? {}, bad] });
    expect(total).toBe(19.8);
    expect(problems.map(({ weight, what }) => [weight, what])).toEqual([
      ["note", "no need is of this row: price_list row 3: price must be a number"],
    ]);
  });

  it("stops the item that a bad row is or may be, and takes nothing of it for free", () => {
    const found = purchase({
      needs: [need("Navy", 96), need("Gold", 20)],
      prices: [
        ...LIST,
        offer("Town", "Gold", 50, 12),
        { supplier: "Far", colour: "Gold", bag: 50, doubt: "printed must be a size" },
      ],
    });
    expect(totalOf(found)).toMatch(
      /^1 problem stops the cost, the first: price_list row 5: printed must be a size/,
    );
    const [navy, gold] = found.lines;
    expect(navy?.cost).toBe(17.2);
    for (const cell of [gold?.fromStock, gold?.bags, gold?.price, gold?.cost, gold?.leftOver])
      expect(isWithheld(cell)).toBe(true);
  });

  it("stops an item whose stock row cannot be read, but not one that the readable shelf covers", () => {
    const stock = [
      { printed: eleven, colour: "Navy", pieces: 30 },
      { printed: eleven, colour: "Navy", doubt: "count must be whole" },
    ];
    expect(totalOf(purchase({ needs: [need("Navy", 96)], prices: LIST, stock }))).toContain(
      "stock row 3: count must be whole",
    );
    expect(totalOf(purchase({ needs: [need("Navy", 25)], prices: LIST, stock }))).toBe(0);
  });

  it("stops one bag at two prices, and a price ten times off", () => {
    const needs = [need("Navy", 10)];
    const twice = purchase({ needs, prices: [...LIST, offer("Town", "Navy", 50, 11)] });
    expect(totalOf(twice)).toContain("price_list row 4: price must be the same as in row 2");
    const others = ["Gold", "Sky"].map((colour) => offer("Town", colour, 50, 10));
    const odd = purchase({ needs, prices: [...others, offer("Town", "Navy", 50, 0.2)] });
    expect(totalOf(odd)).toContain("is it the price of a piece");
  });

  it("checks a supplier without a delivery row beside others that have one, a slip most often", () => {
    const checks = (delivery: Given["delivery"] = []): readonly string[] =>
      purchase({
        needs: [need("Navy", 80)],
        prices: [offer("Depot", "Navy", 100, 15), offer("Depo", "Navy", 100, 15)],
        delivery,
      }).problems.map(({ weight, what }) => `${weight}: ${what}`);
    expect(checks([{ supplier: "Depot", charge: 6.9 }])).toEqual([
      'check: Depo has no delivery row, its delivery costs nothing; did you mean "Depot"',
    ]);
    expect(checks()).toEqual([]);
  });

  it("stops at delivery terms that cannot be read only where their supplier is used", () => {
    const at = (supplier: string): unknown =>
      totalOf(
        purchase({
          needs: [need("Navy", 96)],
          prices: LIST,
          delivery: [{ supplier, doubt: "charge must be a number" }],
        }),
      );
    expect(at("Online")).toContain("delivery row 2: charge must be a number");
    expect(at("Town")).toBe(17.2);
  });

  it("stops at a need that cannot be read", () => {
    expect(
      totalOf(
        purchase({
          needs: [need("Navy", 96), { colour: "Gold", doubt: "count must be whole" }],
          prices: LIST,
        }),
      ),
    ).toContain("needs row 3: count must be whole");
  });

  it("never makes a purchase cheaper by a row that cannot be read", () => {
    const colour = fc.constantFrom("Navy", "Gold");
    const offers = fc.array(
      fc.record({
        supplier: fc.constantFrom("Town", "Online", "Far"),
        colour,
        bag: fc.constantFrom(25, 50, 100),
        price: fc.integer({ min: 5, max: 30 }),
      }),
      { minLength: 1, maxLength: 6 },
    );
    fc.assert(
      fc.property(
        offers,
        fc.integer({ min: 1, max: 150 }),
        fc.nat(),
        fc.nat(60),
        (list, count, place, held) => {
          const distinct = [
            ...new Map(list.map((row) => [`${row.supplier} ${row.colour} ${row.bag}`, row])).values(),
          ];
          const prices = distinct.map((row) => ({
            ...offer(row.supplier, row.colour, row.bag, row.price),
            per: "bag" as const,
          }));
          const given: Given = {
            needs: [need("Navy", count), need("Gold", 20)],
            prices,
            stock: [{ printed: eleven, colour: "Navy", pieces: held }],
          };
          const usual = purchase(given).total;
          const spoiled = (table: "prices" | "stock"): unknown => {
            const lines = given[table] ?? [];
            const at = place % lines.length;
            return purchase({
              ...given,
              [table]: lines.map((row, index) =>
                index === at ? { ...row, doubt: "a cell must be readable" } : row,
              ),
            }).total;
          };
          for (const total of [spoiled("prices"), spoiled("stock")])
            if (!isWithheld(total) && !isWithheld(usual)) expect(total).toBeGreaterThanOrEqual(usual);
        },
      ),
      { numRuns: 60 },
    );
  });
});

it("stopSentence counts and names the first", () => {
  const stop = (what: string) =>
    ({ weight: "stop", table: "price_list", what, todo: "", reach: { of: "none" } }) as const;
  expect(stopSentence([stop("no price")], "cost")).toBe("1 problem stops the cost, the first: no price");
  expect(stopSentence([stop("no price"), stop("no size")], "offer")).toBe(
    "2 problems stop the offer, the first: no price",
  );
});
