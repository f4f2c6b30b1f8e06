import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { functionNamed } from "../../../src/functions/catalogue";
import type { Cell } from "../../../src/functions/definition";
import { evening, stand, type Rows } from "./worked-jobs";

const NAMES = ["PART_PLAN", "GOODS_PLAN", "COST_PLAN", "OPTION_PLAN"] as const;

/** What people and programs leave in cells. */
const rough = fc.oneof(
  fc.constantFrom<string | number | null>(
    null,
    0,
    -1,
    1e9,
    0.5,
    "",
    "none",
    "n/a",
    "-",
    "tbc",
    "#N/A",
    "3 %",
    "6 ft",
    "every",
    "all",
    "cover",
    "helium",
    "A",
    "Gold",
  ),
  fc.double({ noNaN: true, min: -10, max: 1e6 }),
  fc.integer({ min: 0, max: 500 }),
);

/** A worked job in which some cells were typed over, rows repeated or left out. */
const job = fc
  .record({
    base: fc.constantFrom(stand, evening),
    cells: fc.array(fc.record({ table: fc.nat(9), row: fc.nat(12), column: fc.nat(16), value: rough }), {
      maxLength: 6,
    }),
    without: fc.nat(40),
  })
  .map(({ base, cells, without }) => {
    const tables = Object.values(base).map((rows) => rows.map((row) => [...row]));
    for (const { table, row, column, value } of cells) {
      const rows = tables[table % tables.length];
      const cell = rows?.[1 + (row % Math.max(1, rows.length - 1))];
      if (cell !== undefined && column < cell.length) cell[column] = value;
    }
    return tables.filter((_, index) => index === 0 || index !== without) as readonly Rows[];
  });

const isGood = (cell: Cell): boolean => {
  if (typeof cell === "number") return Number.isFinite(cell);
  return typeof cell !== "object" || (cell.error === "#N/A" && cell.sentence !== "");
};

describe("plans over rough tables", () => {
  it("always spill, with numbers that are numbers and a reason for each one that is withheld", () => {
    fc.assert(
      fc.property(job, fc.constantFrom(...NAMES), (tables, name) => {
        const outcome = functionNamed(name)?.call(tables);
        if (outcome?.kind !== "table") throw new Error(JSON.stringify(outcome));
        const [head = [], ...rows] = outcome.rows;
        const status = head.indexOf("status");
        for (const row of rows) {
          expect(row.filter((cell) => !isGood(cell))).toEqual([]);
          expect(String(row[status])).toMatch(/^(?:ok$|check: |no go: |unsafe: |stop: )/);
          expect(String(row[status])).not.toMatch(/undefined|NaN|fault of its own|\[object/);
        }
      }),
      { numRuns: 150 },
    );
  }, 120_000);

  it("never give a money number in a row that stops for the whole job", () => {
    fc.assert(
      fc.property(job, (tables) => {
        const costs = functionNamed("COST_PLAN")?.call(tables);
        const options = functionNamed("OPTION_PLAN")?.call(tables);
        if (costs?.kind !== "table" || options?.kind !== "table") throw new Error("no tables");
        const money = (rows: readonly (readonly Cell[])[], column: string): readonly Cell[] =>
          rows.slice(1).map((row) => row[rows[0]?.indexOf(column) ?? 0] ?? "");
        const isHidden = (cell: Cell): boolean => typeof cell === "object";
        // A total is known exactly where every price and cost that it adds up is known and nothing stops the job.
        if (money(costs.rows, "cost").some(isHidden))
          expect(money(options.rows, "cost").every((cell) => isHidden(cell))).toBe(true);
      }),
      { numRuns: 80 },
    );
  }, 120_000);
});
