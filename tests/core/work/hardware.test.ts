import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hardwarePlan } from "../../../src/core/work/hardware";
import { known } from "../as-read";
import type { HardwarePiece, HardwareRecipe } from "../../../src/core/work/hardware";

const piece = (given: Partial<HardwarePiece>): HardwarePiece => ({
  row: 1,
  name: "",
  kind: "column",
  quantity: 1,
  metres: 0,
  clusters: 0,
  ...given,
});

const recipe = (given: Partial<HardwareRecipe>): HardwareRecipe => ({
  row: 1,
  kind: "column",
  item: "pole",
  unit: "piece",
  fixed: 0,
  perMetre: 0,
  perCluster: 0,
  ...given,
});

describe("hardwarePlan", () => {
  it("rounds what is counted up for each piece and pools what is cut", () => {
    // By hand: two columns of 2 m and one of 3.2 m. Poles of 1.5 m: 2 each and 3, that is 7. Line 2 m + 0.3 m
    // for each of 8 or 13 clusters: 2 x 4.4 + 5.9 = 14.7 m, one roll of 100 m.
    const pieces = [
      piece({ name: "door", quantity: 2, metres: 2, clusters: 8 }),
      piece({ row: 2, name: "stage", kind: " COLUMN ", metres: 3.2, clusters: 13 }),
    ];
    const recipes = [
      recipe({ perMetre: 1 / 1.5 }),
      recipe({ row: 2, item: "base", fixed: 1 }),
      recipe({ row: 3, item: "line", unit: "m", fixed: 2, perCluster: 0.3, pack: 100 }),
      recipe({ row: 4, kind: "arch", item: "frame", fixed: 1 }),
    ];
    expect(hardwarePlan(pieces, recipes)).toEqual([
      { item: "pole", unit: "piece", needed: 7, pack: 1, packs: 7, left: 0, status: "ok" },
      { item: "base", unit: "piece", needed: 3, pack: 1, packs: 3, left: 0, status: "ok" },
      { item: "line", unit: "m", needed: 14.7, pack: 100, packs: 1, left: 85.3, status: "ok" },
    ]);
  });

  it("pools one item over kinds", () => {
    const pieces = [piece({ quantity: 3 }), piece({ row: 2, kind: "arch", quantity: 2 })];
    const recipes = [
      recipe({ item: "sand bag", fixed: 1, pack: 4 }),
      recipe({ row: 2, kind: "Arch", item: "Sand Bag", unit: "Piece", fixed: 4, pack: 4 }),
    ];
    expect(hardwarePlan(pieces, recipes)).toEqual([
      { item: "sand bag", unit: "piece", needed: 11, pack: 4, packs: 3, left: 1, status: "ok" },
    ]);
  });

  it("keeps a kind without a recipe as a row that says so", () => {
    const pieces = [
      piece({ row: 2, kind: "wall" }),
      piece({ row: 3, kind: "column" }),
      piece({ row: 5, kind: "Wall" }),
      piece({ row: 6, kind: "net" }),
    ];
    const rows = hardwarePlan(pieces, [recipe({ fixed: 1 })]);
    expect(rows.map(({ item, packs, status }) => [item, packs, status])).toEqual([
      ["pole", 1, "ok"],
      ["wall", 0, "check: no recipe for this kind, pieces rows 2, 5"],
      ["net", 0, "check: no recipe for this kind, pieces row 6"],
    ]);
  });

  it("buys no extra pack for rounding dust", () => {
    // Ten pieces of 0.1 m are 1 m, though ten times 0.1 added up is not 1 in binary doubles.
    const pieces = Array.from({ length: 10 }, (_, index) => piece({ row: index + 1, metres: 0.1 }));
    expect(hardwarePlan(pieces, [recipe({ unit: "m", perMetre: 1 })])).toMatchObject([
      { needed: 1, packs: 1, left: 0 },
    ]);
  });

  it("brings enough and never a whole pack too many", () => {
    const amount = fc.integer({ min: 0, max: 20000 }).map((thousandths) => thousandths / 1000);
    const pieces = fc.array(
      fc.record({
        quantity: fc.integer({ min: 1, max: 20 }),
        metres: amount,
        clusters: fc.integer({ min: 0, max: 40 }),
      }),
      { minLength: 1, maxLength: 6 },
    );
    const recipes = fc.record({
      unit: fc.constantFrom("m", "piece"),
      fixed: amount,
      perMetre: amount,
      perCluster: amount,
      pack: fc.double({ min: 0.5, max: 100, noNaN: true }),
    });
    fc.assert(
      fc.property(pieces, recipes, (built, taken) => {
        const rows = hardwarePlan(built.map(piece), [recipe(taken)]);
        let least = 0;
        for (const { quantity, metres, clusters } of built) {
          for (let one = 0; one < quantity; one += 1) {
            least += taken.fixed + taken.perMetre * metres + taken.perCluster * clusters;
          }
        }
        const count = built.reduce((sum, { quantity }) => sum + quantity, 0);
        const most = least + (taken.unit === "m" ? 0 : count) + taken.pack;
        const brought = rows.reduce((sum, row) => sum + known(row.packs) * known(row.pack), 0);
        expect(brought).toBeGreaterThanOrEqual(least * (1 - 1e-9));
        expect(brought).toBeLessThanOrEqual(most * (1 + 1e-9));
        for (const row of rows) {
          expect(known(row.left)).toBeGreaterThanOrEqual(0);
          expect(known(row.needed) + known(row.left)).toBeCloseTo(known(row.packs) * known(row.pack), 6);
        }
      }),
    );
  });

  it.each([
    [
      recipe({ row: 4, kind: "arch", unit: "m" }),
      'recipes row 4: unit must be "piece" as for the same item in row 1',
    ],
    [
      recipe({ row: 4, kind: "arch", pack: 6 }),
      "recipes row 4: pack must be 1 as for the same item in row 1, found 6",
    ],
    [recipe({ row: 4, pack: 0 }), "recipes row 4: pack must be above 0, found 0"],
  ])("withholds an item whose recipes contradict each other, and no other", (second, sentence) => {
    const base = recipe({ row: 7, item: "base", fixed: 1 });
    const [pole, other] = hardwarePlan([piece({})], [recipe({}), second, base]);
    expect(pole).toMatchObject({ item: "pole", needed: { error: "#N/A" }, packs: { error: "#N/A" } });
    expect(pole?.status).toContain(`stop: ${sentence}`);
    expect(other).toMatchObject({ item: "base", needed: 1, status: "ok" });
  });

  it("withholds what an unreadable piece or recipe may need", () => {
    const recipes = [recipe({}), recipe({ row: 2, kind: "arch", item: "frame", fixed: 1 })];
    const arch = { of: "arch", what: "pieces row 4: height must be given" };
    expect(
      hardwarePlan([piece({})], recipes, { pieces: [arch], recipes: [] }).map(({ item, status }) => [
        item,
        status,
      ]),
    ).toEqual([["frame", "stop: pieces row 4: height must be given"]]);
    const nameless = { what: "recipes row 9: item must be given" };
    const [last] = hardwarePlan([piece({})], [], { pieces: [], recipes: [nameless] }).toReversed();
    expect(last).toMatchObject({ item: "", packs: { error: "#N/A" }, status: `stop: ${nameless.what}` });
  });
});
