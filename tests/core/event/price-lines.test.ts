import { expect, it } from "vitest";
import type { PriceCells } from "../../../src/core/event/job";
import { priceLines } from "../../../src/core/event/price-lines";
import { inches, jobOf, type Row } from "./job-builder";
import { needsOf } from "./planned";

const needs = needsOf({
  pieces: [{ name: "X", kind: "count", printed: inches(11), colour: "Navy", balloons: 20 }],
});
const bag = (more: Row<PriceCells>): Row<PriceCells> => ({
  supplier: "Town",
  printed: inches(11),
  colour: "Navy",
  bag: 50,
  price: 10,
  ...more,
});
const read = (...price_list: readonly Row<PriceCells>[]): ReturnType<typeof priceLines> =>
  priceLines(jobOf({ price_list }), needs);

it("keeps what can be bought, apart from what is free", () => {
  const { rows, free, problems } = read(bag({}), bag({ supplier: "Aunt", price: 0 }));
  expect([rows.length, free.length]).toEqual([1, 1]);
  expect(problems.map(({ weight }) => weight)).toEqual(["check"]);
});

it("stops an item at a bag price typed for a piece, unless per says so", () => {
  const usual = ["A", "B", "C"].map((supplier) => bag({ supplier }));
  const slip = { supplier: "D", price: 0.2 };
  expect(read(...usual, bag(slip)).problems.map(({ weight }) => weight)).toEqual(["stop"]);
  expect(read(...usual, bag({ ...slip, per: "piece" })).problems).toEqual([]);
});

it("names what a row lacks", () => {
  const { problems } = read({ supplier: "Town", printed: inches(11), colour: "Navy", bag: 50 });
  expect(problems.map(({ what }) => what)).toEqual(["price_list row 2: price must be given, found nothing"]);
});
