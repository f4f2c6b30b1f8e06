import { describe, expect, it } from "vitest";
import { jobPlan } from "../../../src/core/event/job-plan";
import { momentText, setupPaper } from "../../../src/core/event/papers/setup";
import { clockText, workPlan, type WorkPlanRow } from "../../../src/core/event/work-plan";
import { isWithheld } from "../../../src/core/withheld";
import { jobOf, inches, minutes, type Tables } from "./job-builder";
import { EVENING } from "./sample-jobs";

const rows = (tables: Tables): readonly WorkPlanRow[] => workPlan(jobPlan(jobOf(tables)));
const evening = (terms: Tables["terms"] = {}): readonly WorkPlanRow[] =>
  rows({ ...EVENING, terms: { ...EVENING.terms, ...terms } });
const stage = (list: readonly WorkPlanRow[], name: string): WorkPlanRow | undefined =>
  list.find((row) => row.stage === name);

/** 19 June 2027 as Excel counts days. */
const DATE = 46557;

describe("workPlan", () => {
  it("gives whole minutes where the event has a date, as the setup paper says them", () => {
    const tables = {
      ...EVENING,
      terms: { ...EVENING.terms, access: DATE + 10 / 24, ready: DATE + 14.5 / 24 },
    };
    const plan = jobPlan(jobOf(tables));
    const clock = setupPaper(plan, "").filter(({ section }) => section === "clock");
    const said = new Map(clock.map(({ line, amount }) => [line, amount]));
    const timed = workPlan(plan).flatMap(({ stage: name, start }) =>
      typeof start === "number" && said.has(name) ? [{ name, start }] : [],
    );
    expect(timed.length).toBeGreaterThan(4);
    for (const { name, start } of timed) {
      expect(Math.abs(start * 1440 - Math.round(start * 1440))).toBeLessThan(1e-6);
      expect(said.get(name)).toBe(momentText(start));
    }
  });

  it("sets the clock of a corporate evening without a date in words (by hand, buffer common practice)", () => {
    const list = evening();
    expect(list.slice(0, 7).map(({ stage: name, start }) => [name, start])).toEqual([
      ["shop", "15:19 the day before"],
      ["loading", "9:25"],
      ["driving", "9:33"],
      ["unloading", "10:03"],
      ["site building", "10:10"],
      // 2.9167 person-hours x 1.15 / 3 = 67 min before 14:30
      ["site rigging", "13:23"],
      ["ready", "14:30"],
    ]);
    expect(stage(list, "strike")).toMatchObject({ "person-hours": 2.488, start: "", end: "" });
    // 11.625 x 1.15 / 4.5 = 2.97
    expect(stage(list, "people needed")).toMatchObject({ people: 3, "person-hours": "" });
  });

  it("adds up to the hours of the costs, so that a native sum is right", () => {
    const hours = evening().map((row) => row["person-hours"]);
    const total = hours.reduce<number>((sum, value) => sum + (typeof value === "number" ? value : 0), 0);
    // 31.813 h of the cost plan: building, rigging, strike 24.48 and travel and loading 7.333
    expect(total).toBeCloseTo(31.813, 3);
  });

  it("gives serial numbers where the event has dates", () => {
    const list = evening({ ready: DATE + 14.5 / 24, access: DATE + 10 / 24, end: DATE + 22 / 24 });
    expect(Number(stage(list, "shop")?.start)).toBeCloseTo(DATE - 1 + (15 + 19 / 60) / 24, 3);
    expect(stage(list, "strike")?.start).toBe(DATE + 22 / 24);
  });

  it("warns of work before access and of a strike that ends too late", () => {
    const list = evening({ access: 11 / 24, end: 22 / 24, "clear by": 22.5 / 24 });
    expect(stage(list, "unloading")?.status).toBe("no go: work on site starts 57 min before access at 11:00");
    // strike 2.488 h and loading 20 min of three people with a buffer: 64.9 min after 22:00, 34.9 min late
    expect(stage(list, "loading back")?.status).toBe("no go: the strike ends 35 min after clear by at 22:30");
    expect(stage(evening({ end: 22 / 24, "clear by": 1 / 24 }), "loading back")?.status).toBe("ok");
  });

  it("warns of helium that is down before the end", () => {
    // An untreated 11 in balloon floats some 16 h (common practice): filled at 10:10, down long before noon of the next day.
    const list = evening({ ready: DATE + 14.5 / 24, end: DATE + 1.5 });
    expect(stage(list, "site building")?.status).toMatch(
      /^no go: "Table bouquets" is filled 25\.8 h before the end and floats \d+\.\d h$/,
    );
    expect(stage(evening({ ready: DATE + 14.5 / 24, end: DATE + 23 / 24 }), "site building")?.status).toBe(
      "ok",
    );
  });

  it("keeps one row with its sentence for an event whose hours cannot be known", () => {
    const terms = Object.fromEntries(
      Object.entries(EVENING.terms ?? {}).filter(([term]) => term !== "travel"),
    );
    const [row, ...others] = rows({ ...EVENING, terms });
    expect(others).toEqual([]);
    expect(row?.status).toBe("stop: travel must be given in terms; type none if there is no way to go");
    expect(isWithheld(row?.["person-hours"])).toBe(true);
  });

  it("says where a typed crew is too small", () => {
    expect(stage(evening({ crew: 2 }), "people needed")?.status).toBe(
      "check: a crew of 2 is less than the time on site asks for",
    );
  });

  it("leaves the strike out where nothing is collected", () => {
    expect(stage(evening({ collect: false }), "strike")).toBeUndefined();
  });
});

describe("trips of a job with vehicles", () => {
  const column = {
    name: "Door",
    kind: "column",
    printed: inches(11),
    colour: "White",
    built: "shop",
  } as const;
  const tables = (height: number, quantity: number): Tables => ({
    pieces: [{ ...column, height, quantity }],
    vehicles: [{ vehicle: "car", m3: 1, length: 2, "door width": 1, "door height": 0.8 }],
    terms: { pay: 0, travel: minutes(30), distance: 0, "per km": 0, crew: 1 },
  });
  const work = (height: number, quantity: number): readonly WorkPlanRow[] => rows(tables(height, quantity));

  it("loads built columns by their box (by hand: 0.4872^2 x 1.9 = 0.451 m3, two in a car of 1 m3)", () => {
    const loading = (quantity: number): unknown => stage(work(1.9, quantity), "loading")?.["person-hours"];
    expect(loading(2)).toBeCloseTo(1 / 3, 12);
    expect(loading(3)).toBeCloseTo(2 / 3, 12);
  });

  it("names a column that is longer than the car, and still counts a trip for it", () => {
    const list = work(2.25, 1);
    const last = stage(list, "people needed");
    expect(stage(list, "loading")?.["person-hours"]).toBeCloseTo(1 / 3, 12);
    expect(last?.status).toBe("ok");
    const problem = jobPlan(jobOf(tables(2.25, 1)))
      .costsOf([["", ""]])
      .problems.find(({ weight }) => weight === "no go");
    expect(problem).toMatchObject({ what: "too long by 0.25 m", table: "pieces", row: 2 });
  });
});

describe("clockText", () => {
  it.each([
    [1000.5, "12:00"],
    [999.99999, "0:00"],
    [999.9, "21:36 the day before"],
    [1001.25, "6:00 the day after"],
    [997.25, "6:00 3 days before"],
  ])("%s is %s", (serial, text) => {
    expect(clockText(serial)).toBe(text);
  });
});
