import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { costPlan, type CostPlanRow } from "../../../src/core/event/cost-plan";
import type { GoodsCells, PieceCells } from "../../../src/core/event/cells";
import { freshPlan } from "../../../src/core/event/job-plan";
import { isWithheld } from "../../../src/core/withheld";
import { inches, jobOf, known, minutes, type Row, type Tables } from "./job-builder";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const planOf = (tables: Tables): readonly CostPlanRow[] => costPlan(freshPlan(jobOf(tables)));
const named = (tables: Tables, name: string): CostPlanRow => {
  const row = planOf(tables).find((one) => one.name === name);
  if (row === undefined) throw new Error(`no row ${name}`);
  return row;
};
const MONEY = ["materials", "goods", "work", "travel", "cost", "each", "price", "margin", "bought"] as const;
const withheldOf = (row: CostPlanRow): readonly string[] => MONEY.filter((column) => isWithheld(row[column]));

/** One row of 20 balloons of 11 in, with whatever else a test needs. */
const simple = (more: Tables, piece: Row<PieceCells> = {}): Tables => ({
  pieces: [{ name: "Arch", kind: "count", printed: inches(11), colour: "Gold", balloons: 20, ...piece }],
  price_list: [{ supplier: "Town", printed: inches(11), colour: "Gold", bag: 50, price: 12.5 }],
  goods: [{ item: "none", per: "piece" }],
  ...more,
  terms: {
    pay: 20,
    crew: 1,
    margin: 0.4,
    travel: minutes(30),
    distance: 15_000,
    "per km": 0.45,
    ...more.terms,
  },
});

describe("costPlan of the stand bouquet", () => {
  it("C2, P9: costs it by used share, to the cent", () => {
    // By hand: (12 x 0.25 + 38 x 0.23 + 7 x 0.24 + 18 x 0.075)/0.97 + 0.60 = 15.83; 57.14/0.6; 93.67/0.6.
    const [bouquet, travel] = planOf(STAND_BOUQUET);
    expect(bouquet).toMatchObject({
      name: "Stand bouquet",
      balloons: 76,
      materials: 15.83,
      goods: 7.6,
      work: 33.71,
      travel: 0,
      cost: 57.14,
      each: 95.23,
      price: 95.23,
      bought: 92.5,
      status: "ok",
    });
    expect(travel).toMatchObject({
      name: "travel and loading",
      materials: 0,
      goods: 0,
      work: 66.67,
      travel: 27,
      cost: 93.67,
      price: 156.12,
      bought: 0,
    });
    expect(known(bouquet?.hours)).toBeCloseTo(1.685, 3);
    expect(known(travel?.hours)).toBeCloseTo(3.333, 3);
  });

  it("says what stays on the shelf unpaid", () => {
    expect(named(STAND_BOUQUET, "travel and loading").status).toContain(
      "69.07 stays on the shelf, unpaid by this job (balloons 64.17, dots 1.93, ribbon 2.97)",
    );
  });

  it("C3: pays whole bags where the terms say so", () => {
    const terms = { ...STAND_BOUQUET.terms, costing: "whole bags" as const };
    // By hand: 12.50 + 3 x 11.50 + 12.00 + 2 x 7.50 + 6.00; goods 3 + 2 + 3.50 + 4.00.
    const row = named({ ...STAND_BOUQUET, terms }, "Stand bouquet");
    expect(row).toMatchObject({ materials: 80, goods: 12.5, bought: 92.5 });
  });

  it("pays whole bags too where left-overs are worth nothing", () => {
    const terms = { ...STAND_BOUQUET.terms, "leftover worth": 0 };
    expect(named({ ...STAND_BOUQUET, terms }, "Stand bouquet").materials).toBe(80);
  });

  it("keeps the worth of a colour that its palette says", () => {
    const palettes = STAND_BOUQUET.palettes?.map((row) =>
      row.colour === "Coral" ? { ...row, keep: 0 } : row,
    );
    // By hand: 14.77/0.97 + 0.60 = 15.8268; the bag of coral costs 12.00, 7/0.97 x 0.24 = 1.7320 of it were used.
    const row = named({ ...STAND_BOUQUET, palettes: palettes ?? [] }, "Stand bouquet");
    expect(row.materials).toBe(26.09);
  });

  it("costs stock at today's price by replacement, at its own worth by used share", () => {
    const stock = [{ printed: inches(12), colour: "Burgundy", count: 50, "value each": 0.1 }];
    const used = named({ ...STAND_BOUQUET, stock }, "Stand bouquet");
    const today = named(
      { ...STAND_BOUQUET, stock, terms: { ...STAND_BOUQUET.terms, costing: "replacement" } },
      "Stand bouquet",
    );
    // By hand: 12/0.97 x (0.25 - 0.10) = 1.8557 less.
    expect(known(used.materials)).toBeCloseTo(15.83 - 1.86, 2);
    expect(today.materials).toBe(15.83);
    expect(used.bought).toBe(80);
  });
});

describe("costPlan of the corporate evening", () => {
  it("C13, P1 to P4: costs every piece to the cent", () => {
    const rows = planOf(EVENING);
    const columns = ["balloons", "materials", "goods", "work", "travel", "cost", "each", "price"] as const;
    expect(rows.map((row) => [row.name, ...columns.map((column) => row[column])])).toEqual([
      ["Railing garland", 566, 104.08, 9.45, 210.24, 0, 323.77, 588.67, 588.67],
      ["Door columns", 152, 28, 8, 42.51, 0, 78.51, 71.37, 142.74],
      ["Logo wall", 286, 52.5, 12, 93.04, 0, 157.54, 286.44, 286.44],
      ["Table bouquets", 240, 88.48, 234.96, 119.32, 0, 442.76, 20.13, 805.2],
      ["travel and loading", 0, 0, 0, 139.33, 36, 175.33, 318.78, 318.78],
    ]);
    const hours = [11.065, 2.237, 4.897, 6.28, 7.333];
    rows.forEach((row, index) => {
      expect(known(row.hours)).toBeCloseTo(hours[index] ?? 0, 3);
    });
  });
});

describe("costPlan withholds exactly what it cannot know", () => {
  it("keeps everything that a missing margin does not touch", () => {
    const rows = planOf(simple({ terms: { margin: undefined } as never }));
    for (const row of rows) expect(withheldOf(row)).toEqual(["each", "price", "margin"]);
  });

  it("withholds work and what follows where pay is not given, but not where it is none", () => {
    const [row] = planOf(simple({ terms: { pay: undefined } as never }));
    expect(withheldOf(row as CostPlanRow)).toEqual(["work", "cost", "each", "price", "margin"]);
    expect(row?.status).toBe("stop: pay must be given in terms; type none if nobody is paid");
    expect(planOf(simple({ terms: { pay: 0 } }))[0]).toMatchObject({ work: 0 });
  });

  it("withholds only the row of travel where a way is missing, and all where travel is spread", () => {
    const [piece, travel] = planOf(simple({ terms: { distance: undefined } as never }));
    expect(withheldOf(piece as CostPlanRow)).toEqual([]);
    expect(withheldOf(travel as CostPlanRow)).toEqual(["travel", "cost", "each", "price", "margin"]);
    const [spread] = planOf(simple({ terms: { distance: undefined, "spread travel": true } as never }));
    expect(withheldOf(spread as CostPlanRow)).toContain("travel");
  });

  it("withholds a piece whose colour nobody sells and no other", () => {
    const tables = simple({});
    const other = {
      name: "Other",
      kind: "count" as const,
      printed: inches(11),
      colour: "Golt",
      balloons: 20,
    };
    const rows = planOf({ ...tables, pieces: [...(tables.pieces ?? []), other] });
    expect(withheldOf(rows[0] as CostPlanRow)).toEqual([]);
    expect(withheldOf(rows[1] as CostPlanRow)).toEqual([
      "materials",
      "cost",
      "each",
      "price",
      "margin",
      "bought",
    ]);
    expect(rows[1]?.status).toBe('stop: nobody sells 11 in Golt, 22 short; looks like "Gold"');
    expect(withheldOf(rows[2] as CostPlanRow)).toEqual([]);
  });

  it("M6: counts an explicit stand-in price, with a check", () => {
    const row = named(simple({ price_list: [], terms: { "missing balloon each": 0.25 } }), "Arch");
    // By hand: 20 / 0.97 x 0.25 = 5.1546.
    expect(row.materials).toBe(5.15);
    expect(row.status).toBe("check: nobody sells 11 in Gold, counted at 0.25 each");
  });

  it("stops an item at a price that cannot be read, and notes one that cannot concern the job", () => {
    const bad = (colour: string, size: number): Tables =>
      simple({
        price_list: [
          { supplier: "Town", printed: inches(11), colour: "Gold", bag: 50, price: 12.5 },
          {
            supplier: "Far",
            printed: inches(size),
            colour,
            bag: 25,
            doubt: 'price must be a number, found "n/a"',
          },
        ],
      });
    const [stopped] = planOf(bad("Gold", 11));
    expect(withheldOf(stopped as CostPlanRow)).toContain("materials");
    expect(stopped?.status).toBe('stop: price_list row 3: price must be a number, found "n/a"');
    expect(planOf(bad("Coral", 11))[0]?.status).toBe("ok");
    expect(planOf(bad("Gold", 16))[0]?.status).toBe("ok");
  });

  it("stops an item whose bag stands at two prices", () => {
    const row = named(
      simple({
        price_list: [
          { supplier: "Town", printed: inches(11), colour: "Gold", bag: 50, price: 12.5 },
          { supplier: "Town", printed: inches(11), colour: "gold ", bag: 50, price: 13 },
        ],
      }),
      "Arch",
    );
    expect(withheldOf(row)).toContain("materials");
    expect(row.status).toContain(
      "price_list row 3: price must be the same as in price_list row 2, found 12.50 and 13.00 for a bag of 50 11 in Gold",
    );
  });

  it("takes a price of none as free, with a check, and stock without any price not at all", () => {
    const free = planOf(
      simple({ price_list: [{ supplier: "Aunt", printed: inches(11), colour: "Gold", bag: 50, price: 0 }] }),
    );
    expect(free[0]).toMatchObject({ materials: 0, bought: 0 });
    expect(free[1]?.status).toContain("price_list row 2: 11 in Gold is free, as typed");
    const stock = [{ printed: inches(11), colour: "Gold", count: 100 }];
    const [unpriced] = planOf(simple({ price_list: [], stock }));
    expect(unpriced?.status).toContain("stop: 11 in Gold on the shelf has no value and nobody sells it");
    const [priced] = planOf(simple({ stock }));
    // By hand: 20/0.97 x 0.25, nothing bought.
    expect(priced).toMatchObject({ materials: 5.15, bought: 0 });
  });

  it("refuses numbers of balloons that nobody means", () => {
    const rows = planOf(simple({}, { balloons: 1e6, quantity: 11 }));
    expect(rows[0]?.status).toBe("stop: pieces row 2: 11 in Gold is needed more than 10000000 times");
    expect(withheldOf(rows[0] as CostPlanRow)).toContain("materials");
  });

  it("never takes foil for latex", () => {
    const [row] = planOf(simple({}, { kind: "foil", balloons: 1, gas: "air" }));
    expect(row?.status).toContain("stop: nobody sells 11 in Gold foil, 1 short");
  });

  it("stops the whole job at a doubtful row of pieces, but keeps counts and hours of the others", () => {
    const tables = simple({});
    const rows = planOf({
      ...tables,
      pieces: [...(tables.pieces ?? []), { name: "Gate", kind: "column", doubt: "height must be a length" }],
    });
    for (const row of rows) expect(withheldOf(row)).toContain("cost");
    expect(rows[0]?.balloons).toBe(20);
    expect(isWithheld(rows[0]?.hours)).toBe(false);
    expect(rows[1]?.status).toBe("stop: pieces row 3: height must be a length");
  });

  it("stops the job at terms that contradict or cannot be read", () => {
    const doubtful = planOf(simple({ termRows: [{ doubt: 'term must be a term, found "discout"' }] }));
    for (const row of doubtful) expect(withheldOf(row)).toContain("materials");
    const twice = planOf(simple({ termRows: [{ term: "pay", value: 25 }] }));
    expect(twice[1]?.status).toContain("pay must stand once");
  });

  it("M8: asks for the price of helium and ribbon", () => {
    const [row, travel] = planOf(simple({}, { kind: "bouquet", ribbon: 1 }));
    expect(withheldOf(row as CostPlanRow)).toEqual(["goods", "cost", "each", "price", "margin", "bought"]);
    // 20 x 15.4517 L.
    expect(row?.status).toContain("stop: helium 309 L has no price, add a row to goods per helium litre");
    expect(withheldOf(travel as CostPlanRow)).toEqual([]);
  });

  it("shows the margin that a fixed price earns, and a price below cost", () => {
    const row = named(simple({}, { "price each": 10 }), "Arch");
    // By hand: 5.15 + (20 x 0.5 + 2 + 20 x 0.12) min x 20/h = 4.80.
    expect(row).toMatchObject({ cost: 9.95, each: 10, price: 10 });
    expect(known(row.margin)).toBeCloseTo(0.005, 9);
    const below = named(simple({}, { "price each": 9 }), "Arch");
    expect(below.status).toBe("check: price 9.00 is below the cost of 9.95");
  });

  it("costs nothing for a parked piece", () => {
    const row = named(simple({}, { quantity: 0 }), "Arch");
    expect(row).toMatchObject({
      balloons: 0,
      materials: 0,
      work: 0,
      cost: 0,
      price: 0,
      margin: "",
      status: "ok",
    });
  });
});

describe("costPlan adds up", () => {
  const piece = fc.record({
    balloons: fc.integer({ min: 1, max: 400 }),
    quantity: fc.integer({ min: 1, max: 40 }),
    colour: fc.constantFrom("Navy", "White", "Gold"),
    breakage: fc.constantFrom(0, 0.03, 0.1),
    style: fc.constantFrom("clusters" as const, "free-form" as const),
  });
  const good = fc.record({
    per: fc.constantFrom("piece" as const, "balloon" as const, "event" as const),
    amount: fc.integer({ min: 1, max: 5 }),
    pack: fc.integer({ min: 1, max: 120 }),
    price: fc.integer({ min: 1, max: 2000 }).map((cents) => cents / 100),
    returns: fc.boolean(),
  });
  const job = fc
    .record({
      pieces: fc.array(piece, { minLength: 1, maxLength: 5 }),
      goods: fc.array(good, { maxLength: 3 }),
      costing: fc.constantFrom("used share" as const, "whole bags" as const, "replacement" as const),
      spread: fc.boolean(),
      worth: fc.constantFrom(0, 0.4, 1),
      bag: fc.constantFrom(7, 50, 100),
      price: fc.integer({ min: 1, max: 3000 }).map((cents) => cents / 100),
      held: fc.integer({ min: 0, max: 300 }),
    })
    .map(({ pieces, goods, costing, spread, worth, bag, price, held }): Tables =>
      simple({
        pieces: pieces.map((one, index) => ({
          name: `P${index}`,
          kind: "count",
          printed: inches(11),
          ...one,
        })),
        goods: goods.map((one, index) => ({ item: `g${index}`, ...one }) satisfies Row<GoodsCells>),
        price_list: ["Navy", "White", "Gold"].map((colour) => ({
          supplier: "Town",
          printed: inches(11),
          colour,
          bag,
          price,
        })),
        delivery: [{ supplier: "Town", charge: 7.9 }],
        stock: [{ printed: inches(11), colour: "Navy", count: held, "value each": 0.07 }],
        terms: { costing, "spread travel": spread, "leftover worth": worth },
      }),
    );
  const cents = (value: unknown): number => Math.round(known(value as number) * 100);

  it("row by row and to whole cents", () => {
    fc.assert(
      fc.property(job, (tables) => {
        for (const row of planOf(tables)) {
          const columns = [row.materials, row.goods, row.work, row.travel];
          expect(columns.reduce<number>((sum, column) => sum + cents(column), 0)).toBe(cents(row.cost));
          expect(cents(row.price)).toBe(Math.round(known(row.quantity) * cents(row.each)));
          for (const column of [...columns, row.cost, row.price, row.bought])
            expect(Math.abs(known(column) * 100 - cents(column))).toBeLessThan(1e-6);
        }
      }),
      { numRuns: 60 },
    );
  });

  it("to the bags that are paid: whole bags charge what is bought and what is taken", () => {
    fc.assert(
      fc.property(job, (tables) => {
        const terms = { ...tables.terms, costing: "whole bags" as const };
        const stock = tables.stock?.map((row) => ({ ...row, "value each": 0 })) ?? [];
        const rows = planOf({ ...tables, terms, stock, goods: [{ item: "none", per: "piece" }] });
        const sum = (column: "materials" | "bought"): number =>
          rows.reduce((total, row) => total + cents(row[column]), 0);
        expect(sum("materials")).toBe(sum("bought"));
      }),
      { numRuns: 40 },
    );
  });

  it("and sorting rows changes nothing but their order", () => {
    fc.assert(
      fc.property(job, fc.infiniteStream(fc.nat()), (tables, order) => {
        const shuffled = <Value>(rows: readonly Value[] = []): readonly Value[] =>
          rows
            .map((row) => ({ row, at: order.next().value as number }))
            .sort((a, b) => a.at - b.at)
            .map(({ row }) => row);
        const rowsOf = (of: Tables): ReadonlyMap<string, CostPlanRow> =>
          new Map(planOf(of).map((row) => [row.name, row]));
        const before = rowsOf(tables);
        const after = rowsOf({
          ...tables,
          pieces: shuffled(tables.pieces),
          price_list: shuffled(tables.price_list),
          goods: shuffled(tables.goods),
          stock: shuffled(tables.stock),
        });
        for (const [name, row] of before) {
          const other = after.get(name);
          for (const column of ["balloons", "hours", "work"] as const)
            expect(known(other?.[column])).toBeCloseTo(known(row[column]), 6);
          // A cent that is left over goes to the first of equal remainders, so rows may differ by one.
          for (const column of ["materials", "goods", "travel", "cost"] as const)
            expect(Math.abs(cents(other?.[column]) - cents(row[column]))).toBeLessThanOrEqual(3);
        }
      }),
      { numRuns: 40 },
    );
  });

  it("and more balloons never cost less in work or goods", () => {
    fc.assert(
      fc.property(job, fc.integer({ min: 1, max: 60 }), (tables, more) => {
        const [first, ...others] = tables.pieces ?? [];
        const larger = { ...first, balloons: (first?.balloons ?? 0) + more };
        const total = (of: Tables, column: "work" | "goods"): number =>
          planOf(of).reduce((sum, row) => sum + cents(row[column]), 0);
        for (const column of ["work", "goods"] as const)
          expect(total({ ...tables, pieces: [larger, ...others] }, column)).toBeGreaterThanOrEqual(
            total(tables, column),
          );
      }),
      { numRuns: 40 },
    );
  });
});
