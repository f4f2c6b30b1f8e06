import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { itemNeeds, partDemands, type Away, type ItemNeed } from "../../../src/core/event/item-needs";
import type { PieceCells } from "../../../src/core/event/cells";
import { inches, type Row, type Tables } from "./job-builder";
import { plannedOf } from "./planned";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const needsOf = (tables: Tables, away?: Away, back?: number): readonly ItemNeed[] =>
  itemNeeds(partDemands(plannedOf(tables)), away, () => back);
const gold = (balloons: number, more: Row<PieceCells> = {}): Row<PieceCells> => ({
  name: "Arch",
  kind: "count",
  printed: inches(11),
  colour: "Gold",
  balloons,
  ...more,
});
const oneNeed = (...pieces: readonly Row<PieceCells>[]): ItemNeed => {
  const [need] = needsOf({ pieces });
  if (need === undefined) throw new Error("no need");
  return need;
};

describe("partDemands", () => {
  it("K12: takes the stand bouquet apart by size and colour", () => {
    const demands = partDemands(plannedOf(STAND_BOUQUET));
    expect(demands.map(({ item, count }) => [Math.round(item.printed / 0.0254), item.colour, count])).toEqual(
      [
        [60, "White", 1],
        [12, "Burgundy", 12],
        [12, "Blush", 14],
        [12, "Rose", 13],
        [12, "Peach", 11],
        [12, "Coral", 7],
        [5, "Blush", 12],
        [5, "Peach", 6],
      ],
    );
  });

  it("counts a second balloon inside as taken but not as a place", () => {
    const palettes = [{ palette: "Glow", colour: "Clear", share: 1, inside: "Clear" }];
    const pieces = [
      {
        name: "Arch",
        kind: "count",
        printed: inches(11),
        balloons: 10,
        quantity: 3,
        palette: "Glow",
      } as const,
    ];
    const demands = partDemands(plannedOf({ pieces, palettes }));
    expect(demands.map(({ places, count }) => [places, count])).toEqual([
      [30, 30],
      [0, 30],
    ]);
    expect(needsOf({ pieces, palettes })[0]?.count).toBe(60);
  });

  it("takes nothing for a parked row or one that cannot be counted", () => {
    const pieces = [
      gold(10, { quantity: 0 }),
      { ...gold(5), name: "Sign", doubt: "height must be a number" },
    ];
    expect(partDemands(plannedOf({ pieces }))).toEqual([]);
  });

  it("keeps latex, foil and long balloons of one size and colour apart", () => {
    const pieces = [gold(1, { printed: inches(18) }), gold(1, { kind: "foil", printed: inches(18) })];
    expect(new Set(partDemands(plannedOf({ pieces })).map(({ key }) => key)).size).toBe(2);
  });
});

describe("itemNeeds", () => {
  it.each([
    ["S1", [gold(1, { breakage: 0.1 })], 2],
    ["S2", [gold(1, { breakage: 0.03 }), gold(1, { name: "Sign", breakage: 0.1 })], 3],
    ["S3", [gold(100)], 106],
    ["S5", [gold(20)], 22],
  ] as const)("%s: takes spares by the negative binomial", (_, pieces, take) => {
    expect(oneNeed(...pieces).take).toBe(take);
  });

  it("S6: uses up 103.09 of 100 at 3 % on average (by hand: 100 / 0.97)", () => {
    expect(oneNeed(gold(100)).expected).toBeCloseTo(103.09, 2);
  });

  it("pools white 11 in of an evening in and out of doors: 90 at 10 %, 410 at 3 %, take 531", () => {
    const white = needsOf(EVENING).find(
      ({ item }) => item.colour === "White" && Math.abs(item.printed - inches(11)) < 1e-9,
    );
    expect([white?.count, white?.take]).toEqual([500, 531]);
  });

  describe("over a week", () => {
    const week: Tables = { pieces: [gold(96, { event: "Friday" }), gold(90, { event: "Sunday" })] };
    const apart: Away = new Map([
      ["Friday", { out: 100, back: 101 }],
      ["Sunday", { out: 102, back: 103 }],
    ]);

    it("E1: orders up to 196 for two events in turn (by hand: max(spares(186), 99 + 96))", () => {
      expect(needsOf(week, apart)[0]?.take).toBe(196);
    });

    it("orders what both take where they overlap, or no dates are known (by hand: 102 + 96)", () => {
      expect(needsOf(week)[0]?.take).toBe(198);
    });

    it("E4: plans 3 back of 102, or what was counted", () => {
      const back = (counted?: number): readonly number[] | undefined =>
        needsOf(week, apart, counted)[0]
          ?.week.groups.flat()
          .map(({ returns }) => returns);
      expect(back()).toEqual([3, 3]);
      expect(back(7)).toEqual([7, 7]);
    });

    it("never plans more back than was taken, and takes at least what is needed", () => {
      const count = fc.integer({ min: 1, max: 300 });
      const breakage = fc.integer({ min: 0, max: 40 }).map((percent) => percent / 100);
      fc.assert(
        fc.property(count, count, breakage, (friday, sunday, share) => {
          const pieces = [
            gold(friday, { event: "Friday", breakage: share }),
            gold(sunday, { event: "Sunday", breakage: share }),
          ];
          const [need] = needsOf({ pieces }, apart);
          const planned = need?.week.groups.flat() ?? [];
          expect(planned.length).toBe(2);
          for (const { take, returns } of planned) {
            expect(returns).toBeGreaterThanOrEqual(0);
            expect(returns).toBeLessThanOrEqual(take);
          }
          expect(need?.take).toBeGreaterThanOrEqual(friday + sunday);
        }),
        { numRuns: 40 },
      );
    });
  });

  it("never takes fewer for more balloons, and the same in any order of rows", () => {
    const count = fc.integer({ min: 1, max: 200 });
    fc.assert(
      fc.property(count, count, (one, other) => {
        const take = (...rows: readonly Row<PieceCells>[]): number => oneNeed(...rows).take;
        const second = gold(other, { name: "Sign", where: "outdoors" });
        expect(take(gold(one + 1), second)).toBeGreaterThanOrEqual(take(gold(one), second));
        expect(take(second, gold(one))).toBe(take(gold(one), second));
      }),
      { numRuns: 30 },
    );
  });
});
