import { describe, expect, it } from "vitest";
import { goodsAmounts, goodsUse, shareOfEvent } from "../../../src/core/event/goods-amounts";
import type { GoodsCells } from "../../../src/core/event/cells";
import { unavailable } from "../../../src/core/calc-error";
import { attempt } from "../../../src/core/attempt";
import { inches, jobOf, type Row, type Tables } from "./job-builder";
import { plannedOf } from "./planned";

/** Two pieces of 40 and 20 balloons at one event, with these goods. */
const two = (rows: readonly Row<GoodsCells>[]): Tables => ({
  pieces: [
    { name: "Arch", kind: "count", printed: inches(11), colour: "White", balloons: 40 },
    { name: "Bar", kind: "count", printed: inches(11), colour: "Red", balloons: 20 },
  ],
  goods: rows,
});

describe("goodsAmounts", () => {
  it("pools what pieces and trips take into whole packs (by hand: 60 dots + 3 trips x 4 = 72, packs of 50)", () => {
    const tables = two([
      { item: "dots", per: "balloon", pack: 50, price: 5 },
      { item: "dots", per: "trip", amount: 4, price: 5 },
    ]);
    const pieces = plannedOf(tables);
    const [event] = pieces.map((piece) => piece.event);
    if (event === undefined) throw new Error("no event");
    const use = goodsUse(jobOf(tables), pieces);
    const [dots] = goodsAmounts(use, new Map([[event.name, 3]]));
    expect(dots).toMatchObject({ needed: 72, packs: 2, shares: [40 / 72, 20 / 72] });
    expect(dots?.overhead.get(event.name)).toBeCloseTo(12 / 72, 12);
    expect(dots && shareOfEvent(dots, pieces, event)).toBeCloseTo(1, 12);
    // The same use, loaded: how often it is driven does not matter.
    expect(goodsAmounts(use, new Map([[event.name, 0]]))[0]).toMatchObject({ needed: 60, packs: 2 });
  });

  it("withholds only what goes by trips where the trips are not known", () => {
    const tables = two([
      { item: "dots", per: "balloon", price: 1 },
      { item: "straps", per: "trip", price: 2 },
    ]);
    const pieces = plannedOf(tables);
    const unknown = attempt(() => {
      throw unavailable("trips are not known");
    });
    const names = pieces.map(({ event }) => [event.name, unknown] as const);
    const [dots, straps] = goodsAmounts(goodsUse(jobOf(tables), pieces), new Map(names));
    expect(dots?.needed).toBe(60);
    expect(straps?.needed).toMatchObject({ sentence: "trips are not known" });
  });
});
