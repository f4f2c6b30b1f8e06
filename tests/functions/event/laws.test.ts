import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { functionNamed } from "../../../src/functions/catalogue";
import type { Cell } from "../../../src/functions/definition";
import { evening, stand } from "./worked-jobs";

type Grid = readonly (readonly unknown[])[];
type Tables = Readonly<Record<string, Grid>>;

/** Rows of a plan, the header first; the error of a single cell as a grid of one. */
function spilled(name: string, tables: readonly unknown[]): readonly (readonly Cell[])[] {
  const outcome = functionNamed(name)?.call(tables);
  if (outcome?.kind === "table") return outcome.rows;
  if (outcome?.kind === "error") return [[{ error: "#N/A", sentence: outcome.sentence }]];
  return [[outcome?.kind === "value" ? outcome.value : ""]];
}

const cellsOf = (name: string, column: string, tables: readonly unknown[]): readonly Cell[] => {
  const [head = [], ...rows] = spilled(name, tables);
  return rows.map((row) => row[head.indexOf(column)] ?? "");
};
const totalOf = (job: Tables): Cell => cellsOf("OPTION_PLAN", "total", Object.values(job))[0] ?? "";
const costOf = (job: Tables): Cell => cellsOf("OPTION_PLAN", "cost", Object.values(job))[0] ?? "";
const isError = (cell: Cell): boolean => typeof cell === "object";

const EVENING: Tables = {
  ...evening,
  stock: [
    ["printed", "colour", "count", "value each"],
    [11, "White", 30, 0.18],
  ],
  work: [
    ["task", "minutes per balloon", "minutes per piece"],
    ["wall", 0.7, 40],
  ],
  names: [
    ["written", "means"],
    ["Marine", "Navy"],
  ],
  past_jobs: [
    ["job", "style", "balloons", "hours"],
    ["Fair", "clusters", 240, 2.4],
  ],
};
const STAND: Tables = stand;
const jobs = fc.constantFrom(STAND, EVENING);

/** What stands where a number should. */
const unreadable = fc.constantFrom<unknown>(
  "n/a",
  "tbc",
  "-",
  "ask",
  -3,
  { error: "#N/A" },
  "#REF!",
  "12 or so",
);

/** Columns that every row of a table needs as a number or a choice. */
const NEEDED: Readonly<Record<string, readonly string[]>> = {
  pieces: ["kind", "printed"],
  palettes: ["share"],
  prices: ["price", "bag", "printed"],
  town: ["price", "bag", "printed"],
  depot: ["bag price", "pack", "size"],
  delivery: ["charge"],
  stock: ["count", "printed"],
  goods: ["price", "per"],
  work: ["minutes per balloon"],
  terms: ["value"],
  vehicles: ["m3"],
  past_jobs: ["balloons", "hours"],
};

describe("money that cannot lie", () => {
  it("never lowers a cost where a row of any table cannot be read", () => {
    fc.assert(
      fc.property(jobs, fc.nat(), fc.nat(), fc.nat(), unreadable, (job, which, at, column, junk) => {
        const names = Object.keys(job).filter((name) => NEEDED[name] !== undefined);
        const name = names[which % names.length] ?? "";
        const [head = [], ...rows] = job[name] ?? [];
        const wanted = NEEDED[name] ?? [];
        const index = head.indexOf(wanted[column % wanted.length]);
        const row = [...(rows[at % rows.length] ?? [])];
        row[index] = junk;
        const more = { ...job, [name]: [head, ...rows, row] };
        const [before, after] = [costOf(job), costOf(more)];
        if (!isError(after)) expect(Number(after)).toBeGreaterThanOrEqual(Number(before));
        const [, verdict] = spilled("READY_PLAN", Object.values(more));
        expect(verdict?.[0]).toBe(isError(after) ? "not ready" : "ready");
      }),
      { numRuns: 120 },
    );
  });

  it("withholds every total above a shortage of any item that the job needs", () => {
    fc.assert(
      fc.property(jobs, fc.nat(), (job, which) => {
        const needs = spilled("NEEDS_PLAN", [job["pieces"], job["palettes"]]).slice(1);
        const [printed, , colour] = needs[which % needs.length] ?? [];
        const without = Object.fromEntries(
          Object.entries(job).map(([name, rows]) => [
            name,
            NEEDED[name]?.includes("bag") === true || name === "depot" || name === "stock"
              ? rows.filter((row) => !(row.includes(colour) && row.includes(printed)))
              : rows,
          ]),
        );
        const tables = Object.values(without);
        for (const column of ["cost", "price", "tax", "total"])
          expect(cellsOf("OPTION_PLAN", column, tables).map(isError)).toEqual([true]);
        expect(cellsOf("COST_PLAN", "price", tables).some(isError)).toBe(true);
        expect(isError(spilled("PAPER_PLAN", ["offer", "", ...tables])[0]?.[0] ?? "")).toBe(true);
        expect(spilled("READY_PLAN", tables)[1]?.[0]).toBe("not ready");
      }),
      { numRuns: 40 },
    );
  });

  it("gives the same number or a refusal whether a blank cell arrives as 0, as nothing or as empty text", () => {
    fc.assert(
      fc.property(
        jobs,
        fc.array(fc.tuple(fc.nat(), fc.nat(), fc.nat()), { maxLength: 4 }),
        (job, emptied) => {
          const names = Object.keys(job);
          const grids = Object.fromEntries(
            Object.entries(job).map(([name, rows]) => [name, rows.map((row) => [...row])]),
          );
          for (const [which, at, column] of emptied) {
            const rows = grids[names[which % names.length] ?? ""] ?? [];
            const row = rows[1 + (at % Math.max(1, rows.length - 1))];
            if (row !== undefined) row[column % row.length] = null;
          }
          const totals = [null, "", 0].map((blank) =>
            totalOf(
              Object.fromEntries(
                Object.entries(grids).map(([name, rows]) => [
                  name,
                  rows.map((row) => row.map((cell) => (cell === null ? blank : cell))),
                ]),
              ),
            ),
          );
          const numbers = totals.filter((total) => !isError(total));
          expect(new Set(numbers).size).toBeLessThanOrEqual(1);
        },
      ),
      { numRuns: 120 },
    );
  });
});
