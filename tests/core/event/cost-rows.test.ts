import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { costRows, TRAVEL_NAME, type CostRow } from "../../../src/core/event/cost-rows";
import { isWithheld, type Known } from "../../../src/core/withheld";
import { inches, known, minutes, type Tables } from "./job-builder";
import { costsOf } from "./planned";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const rowsOf = (tables: Tables): readonly CostRow[] => costRows(costsOf(tables));
const cents = (value: Known | "" | undefined): number => Math.round(known(value) * 100);
const total = (
  rows: readonly CostRow[],
  column: "cost" | "materials" | "goods" | "work" | "travel" | "bought",
): number => rows.reduce((sum, row) => sum + cents(row[column]), 0);

describe("costRows", () => {
  it("C2, P9: costs the stand bouquet 57.14 and its travel 93.67 (worked example of the design)", () => {
    expect(rowsOf(STAND_BOUQUET)).toMatchObject([
      {
        name: "Stand bouquet",
        balloons: 76,
        materials: 15.83,
        goods: 7.6,
        work: 33.71,
        travel: 0,
        cost: 57.14,
        price: 95.23,
        bought: 92.5,
      },
      {
        name: TRAVEL_NAME,
        quantity: 1,
        balloons: 0,
        materials: 0,
        goods: 0,
        work: 66.67,
        travel: 27,
        cost: 93.67,
        price: 156.12,
      },
    ]);
  });

  it("C13: shares the evening's materials in whole cents that add up to 273.06", () => {
    const rows = rowsOf(EVENING);
    expect(rows.map(({ materials }) => materials)).toEqual([104.08, 28, 52.5, 88.48, 0]);
    expect(total(rows, "materials")).toBe(27306);
    expect(total(rows, "cost")).toBe(117791);
  });

  it("spreads travel over the pieces by what they cost, and leaves no row of its own", () => {
    const rows = rowsOf({ ...EVENING, terms: { ...EVENING.terms, "spread travel": true } });
    expect(rows.map(({ name }) => name)).toEqual([
      "Railing garland",
      "Door columns",
      "Logo wall",
      "Table bouquets",
    ]);
    // Only work and travel are rounded row by row, half a cent each at most: 5 rows before, 4 after.
    expect(Math.abs(total(rows, "cost") - 117791)).toBeLessThanOrEqual(5);
    expect(Math.abs(total(rows, "travel") - 3600)).toBeLessThanOrEqual(2);
    // By hand: of 1002.58 the garland costs 323.77, so 32.29 % of 36.00.
    expect(Math.abs(cents(rows[0]?.travel) - 1163)).toBeLessThanOrEqual(1);
  });

  it("spreads travel evenly over pieces that cost nothing", () => {
    const one = { kind: "count", printed: inches(11), colour: "Gold", balloons: 10 } as const;
    const rows = rowsOf({
      pieces: [
        { ...one, name: "Arch" },
        { ...one, name: "Sign" },
      ],
      price_list: [{ supplier: "Town", printed: inches(11), colour: "Gold", bag: 50, price: 0 }],
      goods: [{ item: "none", per: "piece" }],
      terms: {
        pay: 0,
        margin: 0,
        crew: 1,
        travel: minutes(10),
        distance: 10_000,
        "per km": 0.5,
        "spread travel": true,
      },
    });
    // By hand: 2 x 2 x 10 km x 0.50 = 20.00.
    expect(rows.map(({ travel }) => travel)).toEqual([10, 10]);
  });

  it("puts what no piece takes into the row of travel and loading", () => {
    const goods = [...(STAND_BOUQUET.goods ?? []), { item: "permit", per: "event", price: 25 } as const];
    expect(rowsOf({ ...STAND_BOUQUET, goods }).map((row) => row.goods)).toEqual([7.6, 25]);
  });

  it("says where a typed price lies below the cost", () => {
    const pieces = (STAND_BOUQUET.pieces ?? []).map((row) => ({ ...row, "price each": 50 }));
    const [row] = rowsOf({ ...STAND_BOUQUET, pieces });
    expect(row?.problems.map(({ weight, what }) => `${weight}: ${what}`)).toContain(
      "check: price 50.00 is below the cost of 57.14",
    );
  });

  it("adds up row by row and over all rows, whatever the job", () => {
    const count = fc.integer({ min: 1, max: 60 });
    fc.assert(
      fc.property(count, count, fc.integer({ min: 500, max: 6000 }), (bouquets, doors, pay) => {
        const pieces = (EVENING.pieces ?? []).map((row) => {
          if (row.kind === "bouquet") return { ...row, quantity: bouquets };
          return row.kind === "column" ? { ...row, quantity: doors } : row;
        });
        const tables = { ...EVENING, pieces, terms: { ...EVENING.terms, pay: pay / 100 } };
        const costs = costsOf(tables);
        const rows = costRows(costs);
        for (const row of rows) {
          expect(cents(row.materials) + cents(row.goods) + cents(row.work) + cents(row.travel)).toBe(
            cents(row.cost),
          );
          expect(cents(row.price)).toBe(known(row.quantity) * cents(row.each));
        }
        const exact = costs.materials.pieces.reduce((sum, { pays }) => sum + pays, 0) * 100;
        expect(Math.abs(total(rows, "materials") - exact)).toBeLessThanOrEqual(0.5 + 1e-6);
        const bags = costs.purchases.items.reduce((sum, { paid }) => sum + paid, costs.purchases.delivery);
        const packs = costs.goods.goods.reduce((sum, { charge }) => sum + (charge?.bought ?? 0), 0);
        expect(Math.abs(total(rows, "bought") - (bags + packs) * 100)).toBeLessThanOrEqual(0.5 + 1e-6);
      }),
      { numRuns: 12 },
    );
  });
});

describe("a doubtful cell", () => {
  // Delivery is free: what an order's charge is shared by moves with every item of it.
  const rich: Tables = {
    ...EVENING,
    delivery: [
      { supplier: "Depot", charge: 0 },
      { supplier: "Town", charge: 0 },
    ],
    stock: [
      { printed: inches(11), colour: "White", count: 120, "value each": 0.11 },
      { printed: inches(5), colour: "Coral", count: 40 },
    ],
    work: [{ task: "wall", "minutes per balloon": minutes(1) }],
  };
  const usual = new Map(rowsOf(rich).map((row) => [row.name, row]));

  /** The job with one cell of one row unreadable, as the reader hands it over. */
  const spoiled = (sort: "stock" | keyof typeof rich, place: number, column: string): Tables => ({
    ...rich,
    [sort]: (rich[sort] as readonly object[]).map((row, index) =>
      index !== place
        ? row
        : {
            ...Object.fromEntries(Object.entries(row).filter(([name]) => name !== column)),
            doubt: `${column} must be readable`,
          },
    ),
  });

  it.each(["pieces", "palettes", "price_list", "delivery", "stock", "goods", "work", "vehicles"] as const)(
    "of %s never lowers a cost: each number is withheld or at least what it was (every cell tried)",
    (sort) => {
      const columns = ["materials", "goods", "work", "travel", "cost"] as const;
      const lowered = (rich[sort] ?? []).flatMap((row, place) =>
        Object.keys(row).flatMap((column) =>
          rowsOf(spoiled(sort, place, column)).flatMap((after) =>
            columns
              .filter((amount) => {
                const [value, before] = [after[amount], usual.get(after.name)?.[amount]];
                // A withheld amount takes part in no sharing of cents, so that others may move by one.
                return !isWithheld(value) && before !== undefined && cents(value) < cents(before) - 1;
              })
              .map((amount) => `${sort} row ${place + 2}: ${column} lowers ${amount} of ${after.name}`),
          ),
        ),
      );
      expect(lowered).toEqual([]);
    },
    60_000,
  );

  it("of a colour that no piece needs takes no number away", () => {
    const rows = rowsOf(spoiled("stock", 1, "count"));
    expect(rows.map(({ cost }) => cost)).toEqual([...usual.values()].map(({ cost }) => cost));
  });
});
