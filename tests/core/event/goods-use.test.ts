import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { goodsTable, type Good } from "../../../src/core/event/goods-table";
import {
  isPaidBy,
  isServed,
  overheadUse,
  perCylinder,
  pieceUse,
  rowsForPart,
} from "../../../src/core/event/goods-use";
import type { GoodsCells, PieceCells } from "../../../src/core/event/cells";
import type { PlannedPiece } from "../../../src/core/event/plan-parts";
import { withheld } from "../../../src/core/withheld";
import { inches, jobOf, type Row } from "./job-builder";
import { plannedOf } from "./planned";

const good = (...rows: readonly Row<GoodsCells>[]): Good => {
  const [first] = goodsTable(
    jobOf({ goods: rows.map((row) => ({ item: "thing", price: 1, ...row })) }),
  ).goods;
  if (first === undefined) throw new Error("no good");
  return first;
};
const piece = (...rows: readonly Row<PieceCells>[]): PlannedPiece => {
  const pieces = rows.map((row) => ({ name: "Piece", printed: inches(11), colour: "White", ...row }));
  const [first] = plannedOf({ pieces });
  if (first === undefined) throw new Error("no piece");
  return first;
};
const use = (row: Row<GoodsCells>, ...rows: readonly Row<PieceCells>[]): number =>
  pieceUse(good(row), piece(...rows));
const columns = { kind: "column", height: 1.8, quantity: 3 } as const;

describe("pieceUse", () => {
  it.each([
    // By hand; a column of 1.8 m has 44 balloons in 11 clusters (K2).
    ["piece", { per: "piece", amount: 2 }, 6],
    ["balloon", { per: "balloon" }, 132],
    ["cluster", { per: "cluster" }, 33],
    ["metre, rounded up for each piece", { per: "metre" }, 6],
    ["metre of what may be cut", { per: "metre", unit: "m" }, 5.4],
    ["event, which is no piece's", { per: "event" }, 0],
    ["trip, which is no piece's", { per: "trip" }, 0],
    ["cylinder, which all helium decides", { per: "cylinder" }, 0],
  ] as const)("counts per %s", (_, row, expected) => {
    expect(use(row, columns)).toBeCloseTo(expected, 9);
  });

  it("C10: takes 10 panels for a wall of 4 x 2.4 m (by hand: 9.6 m2, not cut)", () => {
    expect(use({ per: "m2" }, { kind: "wall", width: 4, height: 2.4 })).toBe(10);
  });

  it("takes ribbon with its knots and helium with its loss (by hand: 240 x 1.35 m; G2: 640.5 L)", () => {
    const bouquets = { kind: "bouquet", quantity: 40, balloons: 5, ribbon: 1.2 } as const;
    const foils = { kind: "foil", printed: inches(18), ribbon: 1.2 } as const;
    expect(use({ per: "ribbon metre", unit: "m" }, bouquets, foils)).toBeCloseTo(324, 9);
    expect(use({ per: "helium litre", unit: "L" }, { ...foils, quantity: 40 })).toBeCloseTo(640.5, 1);
  });

  it("counts a piece once, however many parts it has, and the balloons of all", () => {
    const parts = [
      { kind: "count", balloons: 12, quantity: 2 },
      { kind: "count", balloons: 8 },
    ] as const;
    expect(use({ per: "piece" }, ...parts)).toBe(2);
    expect(use({ per: "balloon" }, ...parts)).toBe(40);
  });

  it("lets rows for a name replace those for its kind, and those the ones for all", () => {
    const rows: readonly Row<GoodsCells>[] = [
      { per: "piece", amount: 1 },
      { per: "piece", amount: 10, for: "column" },
      { per: "piece", amount: 100, for: "Piece" },
    ];
    expect(pieceUse(good(...rows), piece(columns))).toBe(300);
    expect(pieceUse(good(...rows.slice(0, 2)), piece(columns))).toBe(30);
    expect(pieceUse(good(...rows.slice(0, 1)), piece(columns))).toBe(3);
    expect(pieceUse(good(...rows.toReversed()), piece(columns))).toBe(300);
  });

  it("takes nothing for what is parked", () => {
    expect(use({ per: "piece" }, { ...columns, quantity: 0 })).toBe(0);
  });

  it("refuses to take 0 for a length that is not there, where the row means this piece", () => {
    const open = { kind: "count", balloons: 12 } as const;
    expect(() => use({ per: "metre", for: "Piece" }, open)).toThrow(
      'goods row 2: thing goes per metre, and "Piece" has no length',
    );
    expect(() => use({ per: "m2", for: "count" }, open)).toThrow('"Piece" has no area');
    expect(use({ per: "metre" }, open)).toBe(0);
  });

  it("does not guess what hangs on a count that is not known", () => {
    expect(() => use({ per: "balloon" }, { kind: "column" })).toThrow("height must be given");
  });

  it("never takes less for more balloons or more pieces", () => {
    const per = fc.constantFrom("piece" as const, "balloon" as const, "cluster" as const);
    const count = fc.integer({ min: 1, max: 200 });
    fc.assert(
      fc.property(
        per,
        count,
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: 1, max: 30 }),
        (driver, balloons, quantity, tenths) => {
          const at = (each: number, pieces: number): number =>
            use({ per: driver, amount: tenths / 10 }, { kind: "column", balloons: each, quantity: pieces });
          expect(at(balloons + 1, quantity)).toBeGreaterThanOrEqual(at(balloons, quantity));
          expect(at(balloons, quantity + 1)).toBeGreaterThanOrEqual(at(balloons, quantity));
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe("rows that serve", () => {
  const arch = piece({ kind: "bouquet", balloons: 5, ribbon: 1 }, { kind: "count", balloons: 3 });
  const [bouquet, counted] = arch.parts;

  it("go part by part", () => {
    const own = good({ per: "balloon", for: "bouquet" });
    expect(bouquet && rowsForPart(own, arch, bouquet).length).toBe(1);
    expect(counted && rowsForPart(own, arch, counted).length).toBe(0);
    expect(isServed([own], arch)).toBe(true);
    expect(isServed([good({ per: "balloon", for: "wall" })], arch)).toBe(false);
    expect(isServed([good({ per: "event" })], arch)).toBe(false);
  });

  it("serve a piece only where it takes something of them", () => {
    const wall = piece({ kind: "wall", width: 4, height: 2.4 });
    for (const per of ["ribbon metre", "helium litre", "cylinder"] as const) {
      expect(isServed([good({ per })], wall)).toBe(false);
      expect(isServed([good({ per })], piece({ kind: "bouquet", balloons: 5, ribbon: 1 }))).toBe(true);
    }
    expect(isServed([good({ per: "balloon", amount: 0 })], wall)).toBe(false);
    // What cannot be counted may take some.
    expect(isServed([good({ per: "balloon" })], piece({ kind: "wall" }))).toBe(true);
  });

  it("cover helium and ribbon by their drivers only", () => {
    const gas = good({ per: "helium litre", for: "bouquet" });
    expect(bouquet && isPaidBy(gas, arch, bouquet, "helium litre")).toBe(true);
    expect(bouquet && isPaidBy(gas, arch, bouquet, "ribbon metre")).toBe(false);
    expect(counted && isPaidBy(gas, arch, counted, "helium litre")).toBe(false);
  });

  it("go by cylinders where they say so", () => {
    expect(bouquet && perCylinder(good({ per: "cylinder", amount: 2 }), arch, bouquet)).toBe(2);
    expect(bouquet && perCylinder(good({ per: "piece" }), arch, bouquet)).toBe(0);
  });
});

describe("overheadUse", () => {
  it("takes what goes by the event once, and what goes by the trip for each (by hand: 2 + 3 x 4)", () => {
    const both = good({ per: "event", amount: 2 }, { per: "trip", amount: 3 }, { per: "balloon", amount: 9 });
    expect(overheadUse(both, 4)).toBe(14);
  });

  it("needs the trips only where it goes by them", () => {
    const unknown = withheld("a load is not known");
    expect(overheadUse(good({ per: "event" }), unknown)).toBe(1);
    expect(() => overheadUse(good({ per: "trip" }), unknown)).toThrow("a load is not known");
  });
});
