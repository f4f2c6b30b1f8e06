import { describe, expect, it } from "vitest";
import type { ComputedCell } from "../../src/sheet/engine";
import { planStatuses } from "../../src/functions/plan-statuses";

const spilled = (row: number, rows: readonly (readonly (string | number)[])[]): ComputedCell => ({
  sheet: 1,
  row,
  column: 2,
  value: rows[0]?.[0] ?? null,
  spilled: rows,
});

describe("planStatuses", () => {
  it("finds every status that is not ok, with its cell", () => {
    const plan = spilled(4, [
      ["item", "status", "type"],
      ["Navy", "ok", "latex"],
      ["Gold", "stop: nobody sells 11 in Gold, 20 short", "latex"],
      ["White", "ok: from stock", "latex"],
      ["Coral", 'check: looks like "Corla"', "latex"],
    ]);
    expect(planStatuses([plan, { sheet: 0, row: 0, column: 0, value: 3 }])).toEqual({
      statuses: [
        { sheet: 1, row: 6, column: 3, status: "stop: nobody sells 11 in Gold, 20 short" },
        { sheet: 1, row: 8, column: 3, status: 'check: looks like "Corla"' },
      ],
      notReady: [],
      ready: [],
    });
  });

  it("finds a verdict that does not let the job go, and takes no other table for one", () => {
    const header = ["weight", "table", "row", "what", "do"];
    const bad = spilled(0, [header, ["not ready", "", "", "1 stop, 3 to check", ""]]);
    const good = spilled(20, [header, ["ready", "", "", "nothing to check", ""]]);
    const other = spilled(40, [
      ["weight", "table"],
      ["not ready", "x"],
    ]);
    const { notReady, ready } = planStatuses([bad, good, other]);
    expect(notReady).toEqual([{ sheet: 1, row: 1, column: 2, status: "not ready: 1 stop, 3 to check" }]);
    expect(ready).toEqual([{ sheet: 1, row: 21, column: 2, status: "ready: nothing to check" }]);
  });
});
