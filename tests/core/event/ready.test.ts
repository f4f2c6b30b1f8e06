import { describe, expect, it } from "vitest";
import { readiness } from "../../../src/core/event/ready";
import { inches, jobOf, type Tables } from "./job-builder";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const said = (tables: Tables): readonly string[] =>
  readiness(jobOf(tables)).problems.map(({ weight, what }) => `${weight}: ${what}`);
const gold = { name: "Arch", kind: "count", printed: inches(11), colour: "Gold", balloons: 20 } as const;

describe("readiness", () => {
  it("is ready where there are only checks, and counts them", () => {
    const { isReady, summary } = readiness(jobOf(EVENING));
    expect(isReady).toBe(true);
    expect(summary).toMatch(/^\d+ to check$/);
  });

  it("names what PART_PLAN, COST_PLAN and OPTION_PLAN ask to look at: foil, prices, budget", () => {
    const found = said(EVENING);
    expect(found).toContain("check: 70.20 over the budget");
    expect(found.some((text) => text.includes("foil is taken as round"))).toBe(true);
    expect(said(STAND_BOUQUET)).toContain("check: travel and loading cost more than the pieces, 57.14");
  });

  it("names a colour of the price list that a slip keeps from being bought", () => {
    const price_list = (EVENING.price_list ?? []).map((row, index) =>
      index === 1 ? { ...row, colour: `${row.colour ?? ""}e` } : row,
    );
    expect(said({ ...EVENING, price_list }).some((text) => text.includes("is no colour of the job"))).toBe(
      true,
    );
  });

  it("is not ready at one price that is missing, and names it first", () => {
    const price_list = (EVENING.price_list ?? []).filter(({ colour }) => colour !== "Gold");
    const { isReady, summary, problems } = readiness(jobOf({ ...EVENING, price_list }));
    expect(isReady).toBe(false);
    expect(summary).toMatch(/^1 stop, \d+ to check$/);
    expect(problems[0]?.what).toBe("nobody sells 18 in Gold foil, 43 short");
  });

  it("is not ready where a piece does not pass the door (T2)", () => {
    const pieces = (STAND_BOUQUET.pieces ?? []).map((row) => ({ ...row, built: "shop" as const }));
    const vehicles = [{ vehicle: "car", m3: 5, "door width": 1, "door height": 0.8 }];
    const { isReady, summary, problems } = readiness(jobOf({ ...STAND_BOUQUET, pieces, vehicles }));
    expect([isReady, problems[0]?.weight, problems[0]?.what]).toEqual([
      false,
      "no go",
      "0.109 m and 0.309 m too wide for the door",
    ]);
    expect(summary).toMatch(/^1 no go, \d+ to check$/);
  });

  it("names every piece that does not pass the door, also where two are too wide by the same length", () => {
    const pieces = ["Left", "Right"].map((name) => ({
      name,
      kind: "column" as const,
      printed: inches(11),
      colour: "White",
      height: 2,
      built: "shop" as const,
    }));
    const vehicles = [{ vehicle: "van", m3: 11, "door width": 0.45, "door height": 2 }];
    const { problems } = readiness(jobOf({ ...STAND_BOUQUET, pieces, vehicles }));
    const doors = problems.filter(({ weight }) => weight === "no go");
    expect(doors.map(({ todo }) => /"(\w+)"/.exec(todo)?.[1])).toEqual(["Left", "Right"]);
  });

  it("is not ready where somebody could be hurt, or the clock does not hold", () => {
    const verdict = (terms: Tables["terms"]): readonly unknown[] => {
      const { isReady, problems } = readiness(jobOf({ ...EVENING, terms: { ...EVENING.terms, ...terms } }));
      return [isReady, problems[0]?.weight];
    };
    expect(verdict({})).toEqual([true, "check"]);
    expect(verdict({ "room m3": 40 })).toEqual([false, "unsafe"]);
    expect(verdict({ gust: 12 })).toEqual([false, "unsafe"]);
    expect(verdict({ access: 14 / 24 })).toEqual([false, "no go"]);
  });

  it("lists problems worst first and each sentence once", () => {
    const { problems } = readiness(
      jobOf({
        ...STAND_BOUQUET,
        price_list: [],
        stock: [{ printed: inches(5), colour: "Coral", count: 3, doubt: "count must be whole" }],
      }),
    );
    const rank = ["stop", "unsafe", "no go", "check", "note"];
    const ranks = problems.map(({ weight }) => rank.indexOf(weight));
    expect(ranks).toEqual(ranks.toSorted((one, other) => one - other));
    expect(new Set(problems.map(({ what }) => what)).size).toBe(problems.length);
  });

  it("stops without pieces, and only notes what was not asked for", () => {
    expect(said({})).toEqual([
      "stop: pieces must be given, found nothing",
      "note: no price list or stock is given, so nothing is said about buying",
      "note: no terms are given, so nothing is said about work, travel and price",
    ]);
    expect(said({ pieces: [gold] }).filter((text) => !text.startsWith("note"))).toEqual([]);
  });

  it("stops at a colour whose palette is blank, which nobody would miss on paper", () => {
    const palettes = (EVENING.palettes ?? []).map((row, index) =>
      index === 1 ? { colour: "Sky", share: 3, doubt: "palette must be given, found nothing" } : row,
    );
    const { isReady, problems } = readiness(jobOf({ ...EVENING, palettes }));
    expect(isReady).toBe(false);
    expect(problems[0]).toMatchObject({
      weight: "stop",
      what: "palettes row 3: palette must be given, found nothing",
    });
  });

  it("asks to look at heights above 4 m indoors, which are mostly feet (common practice: a room is about 3 m)", () => {
    const column = { name: "Post", kind: "column", printed: inches(11), colour: "Gold" } as const;
    const check = "check: pieces row 2: height is 6 m indoors";
    expect(said({ pieces: [{ ...column, height: 6 }] })).toContain(check);
    expect(said({ pieces: [{ ...column, height: 6, where: "outdoors" }] })).not.toContain(check);
    expect(said({ pieces: [{ ...column, height: 4 }] }).some((text) => text.includes("indoors"))).toBe(false);
  });

  it("asks for gust and base of what stands outdoors, until both are given", () => {
    const post = {
      name: "Post",
      kind: "column",
      printed: inches(11),
      colour: "Gold",
      height: 2,
      where: "outdoors",
    } as const;
    expect(said({ pieces: [post] })).toContain("check: pieces row 2: stands outdoors without gust and base");
    const terms = { gust: 8 };
    expect(said({ pieces: [post], terms })).toContain("check: pieces row 2: stands outdoors without base");
    const based = said({ pieces: [{ ...post, base: 0.5 }], terms });
    expect(based.some((text) => text.includes("stands outdoors"))).toBe(false);
  });

  it("asks for a choice where options are open, and looks at each of them", () => {
    const pieces = ["A", "B"].map((option) => ({ ...gold, option, colour: `Gold ${option}` }));
    const found = said({ pieces, price_list: [], terms: STAND_BOUQUET.terms ?? {} });
    expect(found).toContain('check: option must be chosen in terms, one of "A", "B"');
    expect(found).toContain("stop: nobody sells 11 in Gold A, 22 short");
    expect(found).toContain("stop: nobody sells 11 in Gold B, 22 short");
  });
});
