import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { heliumOf, pieceBalloons, type ScenarioCosts } from "../../../src/core/event/scenario-costs";
import { isWithheld } from "../../../src/core/withheld";
import { inches, known, minutes, type Tables } from "./job-builder";
import { costsOf } from "./planned";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const stops = ({ problems }: ScenarioCosts): readonly (readonly [string, string])[] =>
  problems.filter(({ weight }) => weight === "stop").map(({ reach, what }) => [reach.of, what]);

describe("scenarioCosts", () => {
  const evening = costsOf(EVENING);

  it("counts 566, 152, 286 and 240 balloons, 1,244 in all (worked example of the design)", () => {
    const balloons = evening.pieces.map((piece) => known(pieceBalloons(piece)));
    expect(balloons).toEqual([566, 152, 286, 240]);
    expect(balloons.reduce((sum, one) => sum + one, 0)).toBe(1244);
  });

  it("takes 31.813 person-hours, loading and driving included (worked example of the design)", () => {
    const pieces = evening.work.reduce((sum, { total }) => sum + known(total), 0);
    expect((pieces + known(evening.travel[0]?.work)) / 3600).toBeCloseTo(31.813, 3);
  });

  it("G1, G2: needs 3,730.8 L of helium for the bouquets and none for the rest", () => {
    expect(known(heliumOf(evening.pieces)) * 1000).toBeCloseTo(3730.8, 1);
    expect(heliumOf(evening.pieces.slice(0, 3))).toBe(0);
  });

  it("has one answer for work, trips and travel for each event, in its order", () => {
    expect(evening.work.length).toBe(evening.pieces.length);
    expect(evening.trips.map(({ trips }) => trips)).toEqual([1]);
    expect(evening.travel.map(({ people }) => people)).toEqual([3]);
  });

  it.each([
    ["pay", "work", "pay must be given in terms; type none if nobody is paid"],
    ["travel", "travel", "travel must be given in terms; type none if there is no way to go"],
    ["distance", "travel", "distance must be given in terms; type none if there is no way to go"],
    ["per km", "travel", "per km must be given in terms; type none if driving costs nothing"],
    ["margin", "price", "margin must be given in terms; type none to sell at cost"],
  ] as const)("a silent %s takes away %s, and nothing else", (term, reach, sentence) => {
    const { [term]: silent, ...terms } = STAND_BOUQUET.terms ?? {};
    expect(silent).toBeDefined();
    expect(stops(costsOf({ ...STAND_BOUQUET, terms }))).toEqual([[reach, sentence]]);
  });

  it("says every problem once, though a row may stop several items", () => {
    const sentences = (tables: Tables): readonly string[] =>
      costsOf(tables).problems.map(({ what, reach }) => `${what} ${reach.of === "item" ? reach.key : ""}`);
    const price_list = [
      ...(EVENING.price_list ?? []),
      { supplier: "Town", bag: 5, doubt: "colour must be text" },
    ];
    const found = sentences({ ...EVENING, price_list });
    expect(new Set(found).size).toBe(found.length);
    expect(found.filter((text) => text.includes("colour must be text")).length).toBe(
      costsOf(EVENING).needs.length,
    );
  });

  describe("of two events", () => {
    const week = (dates: boolean): Tables => ({
      ...STAND_BOUQUET,
      goods: [],
      pieces: ["Friday", "Sunday"].map((event) => ({
        name: "Arch",
        kind: "count",
        printed: inches(12),
        colour: "Rose",
        balloons: 50,
        event,
      })),
      events: ["Friday", "Sunday"].map((event, index) => ({
        event,
        ...(dates && { ready: 46_556.75 + 2 * index, end: 46_556.9 + 2 * index }),
      })),
    });
    const notKnown = (tables: Tables): number =>
      costsOf(tables).problems.filter(({ what }) => what.includes("is away is not known")).length;

    it("lends from one to the other where both have dates, and says where they have none", () => {
      expect([notKnown(week(true)), notKnown(week(false))]).toEqual([0, 2]);
      const take = (dates: boolean): number => costsOf(week(dates)).needs[0]?.take ?? 0;
      expect(take(true)).toBeLessThan(take(false));
    });

    it("has travel for each", () => {
      expect(costsOf(week(true)).travel.map(({ event }) => event.name)).toEqual(["Friday", "Sunday"]);
    });
  });

  it("works out counts and needs of other rows beside one that cannot be read", () => {
    const pieces = [
      ...(STAND_BOUQUET.pieces ?? []),
      { name: "Gate", kind: "column" as const, doubt: "height must be a length" },
    ];
    const costs = costsOf({ ...STAND_BOUQUET, pieces });
    expect(costs.needs.length).toBe(8);
    expect(stops(costs)).toEqual([["job", "pieces row 6: height must be a length"]]);
    expect(costs.pieces.map((piece) => isWithheld(pieceBalloons(piece)))).toEqual([false, true]);
    expect(isWithheld(heliumOf(costs.pieces))).toBe(false);
  });

  it("does not depend on the order of rows of any table", () => {
    const tables: Tables = { ...EVENING, terms: { ...EVENING.terms, travel: minutes(25) } };
    const before = costsOf(tables);
    const summary = (costs: ScenarioCosts): unknown => ({
      needs: costs.needs.map(({ key, count, take }) => `${key} ${count} ${take}`).toSorted(),
      paid: costs.purchases.items.reduce((sum, { paid }) => sum + paid, costs.purchases.delivery).toFixed(6),
      pays: costs.materials.pieces.reduce((sum, { pays }) => sum + pays, 0).toFixed(6),
      goods: costs.goods.goods
        .map(({ good, needed }) => `${good.item} ${known(needed).toFixed(6)}`)
        .toSorted(),
      work: costs.work.reduce((sum, { total }) => sum + known(total), 0).toFixed(6),
    });
    const sorts = ["pieces", "price_list", "delivery", "goods", "vehicles"] as const;
    fc.assert(
      fc.property(fc.subarray([...sorts]), fc.nat(20), (turned, from) => {
        const mixed = Object.fromEntries(
          turned.map((sort) => {
            const rows = tables[sort] ?? [];
            const at = from % Math.max(1, rows.length);
            return [sort, [...rows.slice(at), ...rows.slice(0, at)].toReversed()];
          }),
        );
        expect(summary(costsOf({ ...tables, ...mixed }))).toEqual(summary(before));
      }),
      { numRuns: 20 },
    );
  });
});
