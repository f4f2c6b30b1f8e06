import { describe, expect, it } from "vitest";
import type { ItemNeed } from "../../../src/core/event/item-needs";
import type { StockCells } from "../../../src/core/event/cells";
import { shelfOf, type Shelf } from "../../../src/core/event/shelf";
import { itemKey } from "../../../src/core/stock/item";
import { inches, jobOf, type Row } from "./job-builder";
import { costsOf } from "./planned";

const needs: readonly ItemNeed[] = costsOf({
  pieces: ["Gold", "Navy"].map((colour) => ({
    name: colour,
    kind: "count",
    printed: inches(11),
    colour,
    balloons: 20,
  })),
}).needs;
const gold = itemKey({ printed: inches(11), colour: "Gold" });
const shelf = (...stock: readonly Row<StockCells>[]): Shelf => shelfOf(jobOf({ stock }), needs);
const row = (more: Row<StockCells> = {}): Row<StockCells> => ({
  printed: inches(11),
  colour: "Gold",
  count: 30,
  ...more,
});

describe("shelfOf", () => {
  it("adds up rows of one item, with the worth that was typed (by hand: 30 x 0.20 + 10 x 0.10)", () => {
    const { held, rows } = shelf(
      row({ "value each": 0.2 }),
      row({ count: 10, "value each": 0.1, colour: " gold" }),
    );
    expect(held.get(gold)?.count).toBe(40);
    expect(held.get(gold)?.worth.typed).toBeCloseTo(7, 12);
    expect(held.get(gold)?.worth.unpriced).toBe(0);
    expect(rows.map(({ pieces }) => pieces)).toEqual([30, 10]);
  });

  it("counts balloons without a value apart: they are worth today's price, none typed is worth none", () => {
    expect(shelf(row(), row({ count: 5, "value each": 0 })).held.get(gold)).toEqual({
      count: 35,
      worth: { typed: 0, unpriced: 30 },
    });
  });

  it("stops the item that a doubtful row is, and no other", () => {
    const { problems, rows } = shelf(row({ doubt: "count must be whole, found 3.5" }));
    expect(rows).toEqual([]);
    expect(problems.map(({ weight, reach, what }) => [weight, reach, what])).toEqual([
      ["stop", { of: "item", key: gold }, "stock row 2: count must be whole, found 3.5"],
    ]);
  });

  it("stops every item that a row without a colour may be", () => {
    const { problems } = shelf({ printed: inches(11), count: 30 });
    expect(problems.map(({ weight, what }) => [weight, what])).toEqual([
      ["stop", "stock row 2: printed and colour must be given, found nothing"],
      ["stop", "stock row 2: printed and colour must be given, found nothing"],
    ]);
  });

  it("notes a doubtful row that no need can be met by", () => {
    const { problems } = shelf(row({ colour: "Coral", doubt: "count must be whole" }));
    expect(problems.map(({ weight, reach }) => [weight, reach.of])).toEqual([["note", "none"]]);
  });

  it("asks for the count", () => {
    expect(shelf({ printed: inches(11), colour: "Gold" }).problems[0]?.what).toBe(
      "stock row 2: count must be given, found nothing",
    );
  });
});
