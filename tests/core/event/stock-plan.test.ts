import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { freshPlan } from "../../../src/core/event/job-plan";
import { stockPlan, type StockPlanRow } from "../../../src/core/event/stock-plan";
import { isWithheld } from "../../../src/core/withheld";
import { inches, jobOf, known, minutes, type Tables } from "./job-builder";

/** 7.3: Friday needs 96 Navy of 11 in, Sunday 90; 47 lie on the shelf at 0.12; bags of 50 cost 10.00. */
const FRIDAY = 46_556;
const week = (friday = 96, sunday = 90, shelf = 47, more: Tables = {}): Tables => ({
  pieces: [["Friday", friday] as const, ["Sunday", sunday] as const].map(([event, balloons]) => ({
    name: "Arch",
    kind: "count",
    printed: inches(11),
    colour: "Navy",
    event,
    balloons,
  })),
  price_list: [{ supplier: "Town", printed: inches(11), colour: "Navy", bag: 50, price: 10 }],
  stock: shelf === 0 ? [] : [{ printed: inches(11), colour: "Navy", count: shelf, "value each": 0.12 }],
  terms: { crew: 2, travel: minutes(30), distance: 0, "per km": 0, pay: 0, margin: 0 },
  events: [
    { event: "Friday", ready: FRIDAY + 0.75, end: FRIDAY + 0.9 },
    { event: "Sunday", ready: FRIDAY + 2.75, end: FRIDAY + 2.9 },
  ],
  ...more,
});
const bookOf = (tables: Tables): readonly StockPlanRow[] => stockPlan(freshPlan(jobOf(tables)));

describe("stockPlan", () => {
  const rows = bookOf(week());

  it("E5: keeps the book of the week: 47, 197, 95, 98, 2, 5 (by hand)", () => {
    expect(rows.map(({ what, event, balance }) => [what, event, balance])).toEqual([
      ["opening", "", 47],
      ["bought", "", 197],
      ["out", "Friday", 95],
      ["back", "Friday", 98],
      ["out", "Sunday", 2],
      ["back", "Sunday", 5],
      ["closing", "", 5],
    ]);
  });

  it("E1, E2, E4: buys 3 bags for 196, takes 102 and 96, plans 3 back of each", () => {
    const moved = (what: string): readonly unknown[] =>
      rows.filter((row) => row.what === what).map((row) => (what === "out" ? row.out : row.in));
    expect(moved("bought")).toEqual([150]);
    expect(moved("out")).toEqual([102, 96]);
    expect(moved("back")).toEqual([3, 3]);
  });

  it("C6, E6: values what lies there at 0.12, then at 0.1809, and 0.90 at the end (by hand: 35.64 / 197)", () => {
    expect(rows[0]).toMatchObject({ "value each": 0.12, value: 5.64 });
    for (const row of rows.slice(1)) expect(known(row["value each"])).toBeCloseTo(0.1809, 4);
    expect(rows.at(-1)?.value).toBe(0.9);
  });

  it("says what of it comes from the shelf and what from the order (7.3: 47 and 55)", () => {
    expect(rows[2]?.status).toBe("ok: 47 from the shelf, 55 from the order");
    expect(rows[3]?.status).toBe("ok: as planned");
  });

  it("takes what was counted after Friday in place of what was planned", () => {
    const past_jobs = [{ job: "Friday", event: "Friday", printed: inches(11), colour: "Navy", left: 9 }];
    const back = bookOf(week(96, 90, 47, { past_jobs })).find(({ what }) => what === "back");
    expect(back).toMatchObject({ in: 9, status: "ok: as counted" });
  });

  it("says how many are short once, when they leave", () => {
    const rows = bookOf(
      week(96, 90, 47, {
        price_list: [],
        events: [],
        pieces: [{ name: "Arch", kind: "count", printed: inches(11), colour: "Navy", balloons: 96 }],
      }),
    );
    expect(rows.map(({ what, status }) => [what, status])).toEqual([
      ["opening", "stop: nobody sells 11 in Navy, 55 short"],
      ["out", "stop: 55 short when the balloons leave"],
      ["back", "ok: as planned"],
      ["closing", "ok"],
    ]);
  });

  it("asks again where more came back than left", () => {
    const past_jobs = [{ job: "F", event: "Friday", printed: inches(11), colour: "Navy", left: 500 }];
    const back = bookOf(week(96, 90, 47, { past_jobs })).find(({ what }) => what === "back");
    expect(back?.status).toBe('check: 500 came back from "Friday" of 102 planned to leave');
  });

  it("buys 4 bags where the events run at the same hours (by hand: 102 + 96 - 47 = 151)", () => {
    const together = bookOf(week(96, 90, 47, { events: [{ event: "Friday" }, { event: "Sunday" }] }));
    expect(together.find(({ what }) => what === "bought")?.in).toBe(200);
  });

  it("withholds the worth of what cannot be had, and says so", () => {
    const [opening] = bookOf(week(96, 90, 0, { price_list: [] }));
    expect(isWithheld(opening?.value)).toBe(true);
    expect(opening?.status).toMatch(/^stop: nobody sells 11 in Navy, \d+ short$/);
  });

  it("closes with a row for a piece that cannot be read, and withholds every number", () => {
    const tables = week();
    const doubtful = bookOf({
      ...tables,
      pieces: [
        ...(tables.pieces ?? []),
        { name: "Gate", event: "Friday", kind: "count", doubt: "balloons must be whole" },
      ],
    });
    expect(doubtful.at(-1)?.status).toBe("stop: pieces row 4: balloons must be whole");
    for (const { balance, value } of doubtful) expect([balance, value].every(isWithheld)).toBe(true);
  });

  it("has balances that follow from one line to the next and never fall below 0", () => {
    const count = fc.integer({ min: 1, max: 200 });
    fc.assert(
      fc.property(count, count, fc.integer({ min: 0, max: 250 }), (friday, sunday, shelf) => {
        let balance = 0;
        for (const row of bookOf(week(friday, sunday, shelf))) {
          const [came, went] = [row.in, row.out].map((moved) => (moved === "" ? 0 : known(moved)));
          balance += (came ?? 0) - (went ?? 0);
          expect(row.balance).toBe(balance);
          expect(balance).toBeGreaterThanOrEqual(0);
          expect(Math.round(known(row.value) * 100)).toBeCloseTo(known(row.value) * 100, 6);
        }
      }),
      { numRuns: 30 },
    );
  });
});
