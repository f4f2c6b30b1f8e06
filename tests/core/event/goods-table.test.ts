import { describe, expect, it } from "vitest";
import type { GoodsCells } from "../../../src/core/event/cells";
import { goodsTable, unmatchedFor, type GoodsTable } from "../../../src/core/event/goods-table";
import { jobOf, type Row } from "./job-builder";

const table = (...goods: readonly Row<GoodsCells>[]): GoodsTable => goodsTable(jobOf({ goods }));
const said = ({ problems }: Pick<GoodsTable, "problems">): readonly (readonly unknown[])[] =>
  problems.map(({ weight, reach, what }) => [weight, reach.of === "good" ? reach.item : reach.of, what]);
const pole: Row<GoodsCells> = { item: "Pole", per: "piece", price: 3 };

describe("goodsTable", () => {
  it("takes what is silent as one piece that is used up, from nobody, none at hand, without room", () => {
    expect(table(pole).goods).toMatchObject([
      { item: "Pole", unit: "piece", pack: 1, price: 3, returns: false, owned: 0, supplier: "", room: 0 },
    ]);
  });

  it("makes one good of all rows of an item, which fill each other's blanks in any order", () => {
    const rows = [
      { item: "Ribbon", per: "balloon", for: "bouquet" },
      { item: " ribbon", per: "ribbon metre", unit: "m", pack: 100, price: 4, "m3 each": 0.01 },
    ] as const;
    for (const goods of [rows, rows.toReversed()])
      expect(table(...goods).goods).toMatchObject([{ unit: "m", pack: 100, price: 4, room: 0.01 }]);
    expect(table(...rows).goods[0]?.lines.map(({ row }) => row)).toEqual([2, 3]);
    expect(said(table(...rows))).toEqual([]);
  });

  it.each([
    ["price", { price: 4 }, 'goods row 3: price of "Pole" must be the same as in goods row 2'],
    ["returns", { returns: true }, 'goods row 3: returns of "Pole" must be the same as in goods row 2'],
    ["pack", { pack: 10 }, 'goods row 3: pack of "Pole" must be the same as in goods row 2'],
  ] as const)("stops the good where rows contradict in %s", (_, more, sentence) => {
    const first = { ...pole, returns: false, pack: 1 };
    expect(said(table(first, { ...first, for: "wall", ...more }))).toEqual([["stop", "pole", sentence]]);
  });

  it("does not take spelling for a contradiction", () => {
    const rows = ["Town", " TOWN"].map((supplier) => ({ ...pole, supplier }));
    expect(said(table(...rows))).toEqual([]);
  });

  it("stops a good without a price, but not one that costs none as typed", () => {
    expect(said(table({ item: "Pole", per: "piece" }))).toEqual([
      ["stop", "pole", 'goods row 2: price of "Pole" must be given, or none, found nothing'],
    ]);
    expect(said(table({ ...pole, price: 0 }))).toEqual([]);
  });

  it("asks whether a cylinder goes back: kept, only the helium used is paid; fetched, all of it", () => {
    const cylinder: Row<GoodsCells> = { item: "Cylinder", per: "helium litre", pack: 3500, price: 95 };
    expect(said(table(cylinder))).toEqual([
      [
        "check",
        "none",
        'goods row 2: returns of "Cylinder" is blank, so only the helium that is used is paid',
      ],
    ]);
    for (const returns of [true, false]) expect(said(table({ ...cylinder, returns }))).toEqual([]);
    expect(
      said(table(cylinder, { item: "Cylinder", for: "bouquet", per: "helium litre", returns: true })),
    ).toEqual([]);
  });

  it("stops a good without a driver, an empty pack and a doubtful cell, each in its own words", () => {
    expect(said(table({ item: "Pole", price: 3 }))).toEqual([
      ["stop", "pole", "goods row 2: per must be given, found nothing"],
    ]);
    expect(said(table({ ...pole, pack: 0 }))).toEqual([
      ["stop", "pole", "goods row 2: pack must be above 0"],
    ]);
    expect(said(table({ item: "Pole", per: "piece", doubt: "price must be a number" }))).toEqual([
      ["stop", "pole", "goods row 2: price must be a number"],
    ]);
  });

  it("stops the job at a row without an item: nobody knows what it costs", () => {
    expect(said(table({ per: "piece", price: 3 }))).toEqual([
      ["stop", "job", "goods row 2: item must be given, found nothing"],
    ]);
  });

  it("silences what rows of the item none name, and charges nothing for them", () => {
    const { goods, silenced } = table(
      { item: "none", per: "piece", for: "Logo wall" },
      { item: " NONE", per: "piece" },
    );
    expect(goods).toEqual([]);
    expect([...silenced]).toEqual(["logo wall", "all"]);
  });
});

describe("unmatchedFor", () => {
  const open = (wanted: string): readonly string[] =>
    unmatchedFor(jobOf({ goods: [{ ...pole, for: wanted }] }), ["Door columns"], ["column"]).map(
      ({ weight, what }) => `${weight}: ${what}`,
    );

  it("knows names, kinds and all, in any spelling", () => {
    for (const wanted of ["door COLUMNS ", "Column", "all", ""]) expect(open(wanted)).toEqual([]);
  });

  it("checks a slip, with the name it looks like", () => {
    expect(open("Dor columns")).toEqual([
      'check: goods row 2: for "Dor columns" is no piece and no kind of the job; did you mean "Door columns"',
    ]);
  });

  it("only notes a kind that this job does not build", () => {
    expect(open("wall")).toEqual(['note: goods row 2: for "wall" is no piece and no kind of the job']);
  });
});
