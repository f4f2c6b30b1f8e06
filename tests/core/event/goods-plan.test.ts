import { describe, expect, it } from "vitest";
import { goodsPlan, type GoodsPlanRow } from "../../../src/core/event/goods-plan";
import type { GoodsCells, PieceCells } from "../../../src/core/event/cells";
import { freshPlan } from "../../../src/core/event/job-plan";
import { isWithheld } from "../../../src/core/withheld";
import { inches, jobOf, known, type Row, type Tables } from "./job-builder";
import { EVENING, EVENING_GOODS, STAND_BOUQUET } from "./sample-jobs";

const planOf = (tables: Tables): readonly GoodsPlanRow[] => goodsPlan(freshPlan(jobOf(tables)));
const columns = (name: string, more: Row<PieceCells> = {}): Row<PieceCells> => ({
  name,
  kind: "column",
  height: 1.8,
  printed: inches(11),
  palette: "P",
  ...more,
});
const palettes = [{ palette: "P", colour: "Navy", share: 1 }];
const rowsOf = (
  pieces: readonly Row<PieceCells>[],
  goods: readonly Row<GoodsCells>[],
): readonly GoodsPlanRow[] => planOf({ pieces, palettes, goods });

describe("goodsPlan", () => {
  it("C7: charges dots for 45 balloons of a cover by used share", () => {
    // By hand: 45/100 x 3.50 = 1.575, half a cent up.
    expect(planOf(STAND_BOUQUET).find(({ item }) => item === "dots")).toMatchObject({
      needed: 45,
      packs: 1,
      "to get": 1,
      cost: 1.58,
      left: 55,
      returns: 0,
      status: "ok",
    });
  });

  it("C9, C10: hires cylinders and panels whole, since they return", () => {
    const plan = planOf(EVENING);
    // By hand: 3730.8/3498.77 = 1.07, so 2 x 95; 9.6 m2 up to 10 panels x 1.20.
    expect(plan.find(({ item }) => item === "cylinder")).toMatchObject({ packs: 2, cost: 190, returns: 2 });
    expect(known(plan.find(({ item }) => item === "cylinder")?.needed)).toBeCloseTo(3730.8, 1);
    expect(plan.find(({ item }) => item === "panel")).toMatchObject({ needed: 10, cost: 12, returns: 10 });
  });

  it("counts two poles for two stands beside 40 bouquets, and panels by the area of the wall", () => {
    const pieces: readonly Row<PieceCells>[] = [
      columns("Stands", { quantity: 2 }),
      { name: "Bouquets", kind: "bouquet", quantity: 40, balloons: 5, printed: inches(11), palette: "P" },
      { name: "Wall", kind: "wall", width: 4, height: 2.4, printed: inches(11), palette: "P" },
    ];
    const plan = rowsOf(pieces, [
      { item: "pole", per: "piece", for: "stands", price: 1, returns: true },
      { item: "panel", per: "m2", amount: 1.25, for: "wall", price: 1, returns: true },
      { item: "adhesive", per: "balloon", for: "wall", pack: 100, price: 3 },
      { item: "none", per: "piece", for: "Bouquets" },
    ]);
    // By hand: 9.6 x 1.25 = 12 panels of 0.8 m2; the wall of 9 in at 0.8: 22 x 13 = 286 balloons.
    expect(plan.slice(0, 3).map(({ item, needed }) => [item, needed])).toEqual([
      ["pole", 2],
      ["panel", 12],
      ["adhesive", 286],
    ]);
  });

  it("rounds what is counted up for each piece, and cuts what is measured", () => {
    const pieces = [columns("Posts", { quantity: 3, height: 1.3 })];
    const plan = rowsOf(pieces, [
      { item: "segment", per: "metre", price: 1 },
      { item: "line", per: "metre", unit: "m", amount: 2, pack: 50, price: 4 },
      { item: "tie", per: "cluster", amount: 1.5, price: 0.01 },
    ]);
    // By hand: 2 segments each; 3 x 2.6 m; 8 clusters (1.3 m: (1.3 - 0.2286)/0.15378 - 0.25 = 6.72, up 7, + 1) x 1.5 = 12 each.
    expect(plan.map(({ needed, packs }) => [needed, packs])).toEqual([
      [6, 6],
      [7.8, 1],
      [36, 36],
    ]);
  });

  it("lets a name replace a kind, and a kind all, item by item", () => {
    const pieces = [columns("Door"), columns("Gate"), columns("Bar", { kind: "garland", length: 3 })];
    const plan = rowsOf(pieces, [
      { item: "base", per: "piece", price: 1 },
      { item: "base", per: "piece", amount: 10, for: "Column" },
      { item: "base", per: "piece", amount: 100, for: " gate" },
    ]);
    // Door 10 by its kind, Gate 100 by its name, Bar 1 as all.
    expect(plan[0]).toMatchObject({ needed: 111, cost: 111 });
  });

  it("counts a piece once, however many parts it has, and its balloons all", () => {
    const plan = planOf({
      ...STAND_BOUQUET,
      goods: [
        { item: "pole", per: "piece", price: 3 },
        { item: "dot", per: "balloon", price: 0.01 },
        { item: "ribbon", per: "ribbon metre", unit: "m", price: 0.1 },
      ],
    });
    expect(plan.slice(0, 2).map(({ needed }) => needed)).toEqual([1, 76]);
  });

  it("takes what is owned before it gets more; wear is paid for one's own too", () => {
    const plan = rowsOf(
      [columns("Posts", { quantity: 4 })],
      [
        { item: "base", per: "piece", price: 2, returns: true, owned: 3 },
        { item: "cap", per: "piece", price: 5, pack: 10, owned: 3 },
      ],
    );
    expect(plan[0]).toMatchObject({ packs: 4, owned: 3, "to get": 1, cost: 8 });
    expect(plan[1]).toMatchObject({ packs: 1, "to get": 1, cost: 2, left: 9 });
  });

  it("takes regulators by cylinders, and hire by the event", () => {
    const plan = planOf({
      ...EVENING,
      goods: [
        ...EVENING_GOODS,
        { item: "deposit", per: "cylinder", price: 10, returns: true },
        { item: "ladder", per: "event", price: 15, returns: true },
        { item: "trolley", per: "trip", amount: 2, price: 1, returns: true },
      ],
    });
    expect(plan.slice(-3).map(({ item, needed, cost }) => [item, needed, cost])).toEqual([
      ["deposit", 2, 20],
      ["ladder", 1, 15],
      ["trolley", 2, 2],
    ]);
  });

  it("M8: says in a closing row that helium has no price", () => {
    const goods = EVENING_GOODS.filter(({ item }) => item !== "cylinder");
    const last = planOf({ ...EVENING, goods }).at(-1);
    expect(last?.status).toBe("stop: helium 3,731 L has no price, add a row to goods per helium litre");
    expect(isWithheld(last?.cost)).toBe(true);
  });

  it("stops one good whose row cannot be used, and no other", () => {
    const plan = rowsOf(
      [columns("Post")],
      [
        {
          item: "base",
          per: "piece",
          doubt: "price is 0 or a blank cell: type the number, or none for zero",
        },
        { item: "cap", per: "piece" },
        { item: "tie", per: "piece", price: 1, pack: 10 },
        { item: "tie", per: "balloon", pack: 20 },
        { item: "rope", per: "metre", for: "Post", price: 1 },
        { item: "net", per: "m2", for: "Post", price: 1 },
      ],
    );
    expect(plan.map(({ status }) => status)).toEqual([
      "stop: goods row 2: price is 0 or a blank cell: type the number, or none for zero",
      'stop: goods row 3: price of "cap" must be given, or none, found nothing',
      'stop: goods row 5: pack of "tie" must be the same as in goods row 4',
      "ok",
      'stop: goods row 7: net goes per m2, and "Post" has no area',
    ]);
    expect(plan.map(({ cost }) => isWithheld(cost))).toEqual([true, true, true, false, true]);
  });

  it("names a for that nothing matches, and a piece that nothing serves, unless none is typed", () => {
    const pieces = [columns("Door"), columns("Bar", { kind: "garland", length: 3 })];
    const checks = rowsOf(pieces, [{ item: "base", per: "piece", for: "Dor", price: 1 }]).map(
      ({ status }) => status,
    );
    expect(checks).toEqual([
      "ok",
      'check: no goods serve "Door"',
      'check: no goods serve "Bar"',
      'check: goods row 2: for "Dor" is no piece and no kind of the job; did you mean "Door"',
    ]);
    const silent = rowsOf(pieces, [
      { item: "base", per: "piece", for: "Door", price: 1 },
      { item: "none", per: "piece", for: "garland" },
    ]);
    expect(silent.map(({ status }) => status)).toEqual(["ok"]);
  });

  it("refuses to add options together", () => {
    expect(() => rowsOf([columns("Door", { option: "A" })], [])).toThrow(
      'option must be chosen in terms, one of "A"',
    );
  });
});
