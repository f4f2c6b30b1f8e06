import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { goodsUse } from "../../../src/core/event/goods-amounts";
import { goodsOf, type Goods, type GoodsTerms, type PlannedGood } from "../../../src/core/event/goods";
import type { GoodsCells } from "../../../src/core/event/cells";
import { isWithheld } from "../../../src/core/withheld";
import { inches, jobOf, known, type Row, type Tables } from "./job-builder";
import { plannedOf } from "./planned";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const USED: GoodsTerms = { costing: "used share", worth: 1 };
const goods = (tables: Tables, trips = 1, terms = USED): Goods => {
  const pieces = plannedOf(tables);
  return goodsOf(
    goodsUse(jobOf(tables), pieces),
    new Map(pieces.map(({ event }) => [event.name, trips])),
    terms,
  );
};
const item = (tables: Tables, name: string, terms = USED): PlannedGood => {
  const found = goods(tables, 1, terms).goods.find(({ good }) => good.item === name);
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
};
const said = ({ problems }: Goods): readonly string[] =>
  problems.map(({ weight, what }) => `${weight}: ${what}`);
const counted = (balloons: number, rows: readonly Row<GoodsCells>[]): Tables => ({
  pieces: [{ name: "Arch", kind: "count", printed: inches(11), colour: "White", balloons }],
  goods: rows,
});

describe("goodsOf", () => {
  it("C7: dots for 45 balloons pay 45 of 100, and the rest of the pack stays (by hand: 1.575, 1.925)", () => {
    const { charge, packs, left } = item(STAND_BOUQUET, "dots");
    expect([charge?.bought, packs, left]).toEqual([3.5, 1, 55]);
    expect(charge?.pays).toBeCloseTo(1.575, 12);
    expect(charge?.unpaid).toBeCloseTo(1.925, 12);
  });

  it("pays whole packs where left-overs are worth nothing, or the terms say whole bags", () => {
    expect(item(STAND_BOUQUET, "dots", { costing: "used share", worth: 0 }).charge?.pays).toBeCloseTo(
      3.5,
      12,
    );
    expect(item(STAND_BOUQUET, "dots", { costing: "whole bags", worth: 1 }).charge?.pays).toBeCloseTo(
      3.5,
      12,
    );
  });

  it("C9, C10: hires cylinders and panels whole (by hand: 2 x 95, 10 x 1.20)", () => {
    const cylinder = item(EVENING, "cylinder");
    expect(known(cylinder.needed)).toBeCloseTo(3730.8, 1);
    expect([cylinder.packs, cylinder.charge?.pays, cylinder.left]).toEqual([2, 190, 0]);
    expect(item(EVENING, "panel").charge?.pays).toBeCloseTo(12, 12);
  });

  it("takes what is owned first, but pays the wear of what returns for every use", () => {
    const row = { per: "balloon", pack: 10, price: 5 } as const;
    // By hand: 45 needed; 38 of the 7 owned are missing, 4 packs, 2 left; used 45 at 0.50.
    const dots = item(counted(45, [{ item: "dots", ...row, owned: 7 }]), "dots");
    expect([dots.packs, dots.toGet, dots.left]).toEqual([5, 4, 2]);
    expect(dots.charge?.pays).toBeCloseTo(22.5, 9);
    const clips = item(counted(45, [{ item: "clips", ...row, owned: 3, returns: true }]), "clips");
    expect([clips.packs, clips.toGet, clips.charge?.pays, clips.charge?.bought]).toEqual([5, 2, 25, 10]);
  });

  it("shares every good over pieces and overhead in parts that add up to 1", () => {
    const tables = {
      ...EVENING,
      goods: [...(EVENING.goods ?? []), { item: "fee", per: "event", price: 9 } as const],
    };
    for (const { good, shares, overhead } of goods(tables).goods) {
      const all = [...shares, ...overhead.values()];
      expect([good.item, all.reduce((sum, share) => sum + share, 0).toFixed(9)]).toEqual([
        good.item,
        "1.000000000",
      ]);
    }
  });

  it("takes a regulator for each cylinder, shared by helium", () => {
    const tables = {
      ...EVENING,
      goods: [...(EVENING.goods ?? []), { item: "regulator", per: "cylinder", price: 4 } as const],
    };
    const regulator = item(tables, "regulator");
    expect([regulator.needed, regulator.charge?.pays]).toEqual([2, 8]);
    expect(regulator.shares).toEqual([0, 0, 0, 1]);
  });

  it("counts hire by the trip (by hand: 3 trips x 2)", () => {
    const hire = goods(counted(5, [{ item: "blanket", per: "trip", amount: 2, price: 1 }]), 3).goods[0];
    expect(hire?.needed).toBe(6);
  });

  it("M8: has no price for helium and ribbon that no good pays for, and says of which pieces", () => {
    const without = (per: string): Goods =>
      goods({ ...EVENING, goods: (EVENING.goods ?? []).filter((row) => row.per !== per) });
    const gas = without("helium litre");
    const sentence = "helium 3,731 L has no price, add a row to goods per helium litre";
    expect(said(gas)).toContain(`stop: ${sentence}`);
    expect([...gas.uncovered]).toEqual([[3, sentence]]);
    expect(said(without("ribbon metre"))).toContain(
      "stop: ribbon 324 m has no price, add a row to goods per ribbon metre",
    );
  });

  it("withholds one good whose row cannot be used, and charges the others", () => {
    const found = goods(
      counted(45, [
        { item: "dots", per: "balloon", doubt: "price must be a number" },
        { item: "ties", per: "balloon", price: 0.1 },
        { item: "line", per: "metre", for: "Arch", price: 1 },
      ]),
    );
    const [dots, ties, line] = found.goods;
    expect([isWithheld(dots?.needed), dots?.charge, dots?.why]).toEqual([
      true,
      undefined,
      "goods row 2: price must be a number",
    ]);
    expect(ties?.charge?.pays).toBeCloseTo(4.5, 12);
    expect(line?.why).toBe('goods row 4: line goes per metre, and "Arch" has no length');
  });

  it("checks a piece that nothing serves, unless none is typed, and a job without goods", () => {
    const other = { item: "pole", per: "piece", for: "column", price: 1 } as const;
    expect(said(goods(counted(5, [other])))).toContain('check: no goods serve "Arch"');
    const silent = goods(counted(5, [other, { item: "none", per: "piece", for: "Arch" }]));
    expect(said(silent)).not.toContain('check: no goods serve "Arch"');
    const { goods: rows, ...bare } = counted(5, []);
    expect(rows).toEqual([]);
    expect(said(goods(bare))).toEqual(["check: no goods are given, only balloons are costed"]);
  });

  it("never charges less for more balloons, nor more than it buys and owns", () => {
    const count = fc.integer({ min: 1, max: 300 });
    const pack = fc.integer({ min: 1, max: 120 });
    fc.assert(
      fc.property(
        count,
        pack,
        fc.nat(50),
        fc.boolean(),
        fc.constantFrom(0, 0.4, 1),
        (balloons, size, owned, returns, worth) => {
          const at = (each: number): PlannedGood =>
            item(
              counted(each, [{ item: "dots", per: "balloon", pack: size, price: 3, owned, returns }]),
              "dots",
              {
                costing: "used share",
                worth,
              },
            );
          const pays = at(balloons).charge?.pays ?? 0;
          expect(pays).toBeGreaterThan(0);
          if (worth === 1 || returns)
            expect(at(balloons + 1).charge?.pays).toBeGreaterThanOrEqual(pays - 1e-9);
          const { toGet, needed, charge } = at(balloons);
          if (!returns)
            expect(charge?.pays).toBeLessThanOrEqual(
              ((Math.min(owned, known(needed)) + known(toGet) * size) * 3) / size + 1e-9,
            );
        },
      ),
      { numRuns: 60 },
    );
  });
});
