import { describe, expect, it } from "vitest";
import type { PastJobCells } from "../../../src/core/event/cells";
import { lessonsOf, othersOnly, type Lesson } from "../../../src/core/event/learning";
import { resolvedTerms } from "../../../src/core/event/terms";
import { jobOf, minutes, type Row } from "./job-builder";

const HOUR = 3600;

function lessons(rows: readonly Row<PastJobCells>[]): readonly Lesson[] {
  const job = jobOf({ past_jobs: rows });
  return lessonsOf(job.past_jobs, resolvedTerms(job), (term) => (term === "breakage outdoors" ? 0.1 : 0.03));
}

function lesson(rows: readonly Row<PastJobCells>[], measure: string, of: string): Lesson {
  const found = lessons(rows).find((row) => row.measure === measure && row.of === of);
  if (found === undefined) throw new Error(`no lesson of ${measure} of ${of}`);
  return found;
}

describe("pace", () => {
  it("is the trade default of half a minute without jobs (common practice, no source)", () => {
    expect(lesson([], "pace", "clusters")).toMatchObject({ jobs: 0, estimate: minutes(0.5), ownWeight: 0 });
  });

  it("is 0.6454 minutes after one job of 240 balloons in 3 h (by hand, normal with known variance)", () => {
    const learned = lesson([{ style: "clusters", balloons: 240, hours: 3 * HOUR }], "pace", "clusters");
    expect(learned.estimate / 60).toBeCloseTo(0.6454, 4);
    expect(learned.ownWeight).toBeCloseTo(0.63, 3);
    expect([learned.low / 60, learned.high / 60].map((value) => Number(value.toFixed(3)))).toEqual([
      0.432, 0.963,
    ]);
    expect(learned).toMatchObject({ jobs: 1, table: "work", column: "minutes per balloon" });
  });

  it("takes the style of a kind where none is typed, and no job of 0 hours or 0 balloons", () => {
    const rows: readonly Row<PastJobCells>[] = [
      { kind: "mix", balloons: 100, hours: 2 * HOUR },
      { style: "clusters", balloons: 100, hours: 0 },
      { style: "clusters", balloons: 0, hours: HOUR },
      { style: "clusters", balloons: 50 },
    ];
    expect(lesson(rows, "pace", "free-form").jobs).toBe(1);
    expect(lesson(rows, "pace", "clusters").jobs).toBe(0);
  });

  it("leaves out a row that cannot be read", () => {
    const row: Row<PastJobCells> = { style: "clusters", balloons: 100, hours: HOUR, doubt: "hours must be" };
    expect(lesson([row], "pace", "clusters").jobs).toBe(0);
  });
});

describe("rigging", () => {
  it("is learned by kind from the hours of rigging (by hand)", () => {
    // 4 columns in 2 h: 30 min each where 20 are usual: y = ln 1.5, v = 0.09 + 1/4 = 0.34, 1/v = 2.9412, P = 9.1912,
    // m = 0.40547 x 2.9412 / 9.1912 = 0.12975; 20 x 1.13854
    const rows: readonly Row<PastJobCells>[] = [{ kind: "column", pieces: 4, "rigging hours": 2 * HOUR }];
    expect(lesson(rows, "rigging", "column").estimate / 60).toBeCloseTo(22.771, 2);
    expect(lessons(rows).filter(({ measure }) => measure === "rigging")).toHaveLength(1);
  });
});

describe("breakage", () => {
  it("is learned by place and type (by hand, Beta-binomial)", () => {
    const rows: readonly Row<PastJobCells>[] = [
      { taken: 101, popped: 5 },
      { taken: 101, popped: 30, where: "outdoors" },
      { taken: 20, popped: 0, type: "foil", where: "outdoors" },
    ];
    expect(lesson(rows, "breakage", "indoors").estimate).toBeCloseTo(0.03393, 5);
    // (20 + 30/2) / (200 + 50.5)
    expect(lesson(rows, "breakage", "outdoors").estimate).toBeCloseTo(35 / 250.5, 10);
    expect(lesson(rows, "breakage", "foil")).toMatchObject({ jobs: 1, column: "breakage foil" });
  });
});

describe("fullness", () => {
  const more = (kind: PastJobCells["kind"]): Row<PastJobCells> => ({
    kind,
    balloons: 120,
    "planned balloons": 100,
  });
  // y = ln 1.2 = 0.18232; v = 0.01 + 1/120; 1/v = 54.545; P = 44.444 + 54.545; m = 0.18232 x 54.545 / 98.990 = 0.10046

  it("packs a mix by the factor, a column by its inverse, a ball by the root of that (by hand)", () => {
    expect(lesson([more("mix")], "fullness", "mix").estimate).toBeCloseTo(0.7 * Math.exp(0.10046), 4);
    expect(lesson([more("column")], "fullness", "column").estimate).toBeCloseTo(0.8 * Math.exp(-0.10046), 4);
    expect(lesson([more("ball")], "fullness", "ball").estimate).toBeCloseTo(Math.exp(-0.05023), 4);
  });

  it("gives the low end below the high end whichever way the factor works", () => {
    for (const { low, high, estimate } of lessons([more("mix"), more("column"), more("wall")])) {
      expect(low).toBeLessThanOrEqual(estimate);
      expect(estimate).toBeLessThanOrEqual(high);
    }
  });

  it("stays inside the limits of a spacing", () => {
    const rows = Array.from({ length: 30 }, (): Row<PastJobCells> => ({
      kind: "column",
      balloons: 1000,
      "planned balloons": 100,
    }));
    expect(lesson(rows, "fullness", "column").estimate).toBe(0.6);
  });
});

describe("othersOnly", () => {
  it("leaves out jobs of the same event, in any case and spacing", () => {
    const { past_jobs: rows } = jobOf({
      past_jobs: [{ job: "1", event: "Regatta" }, { job: "2", event: "Fair" }, { job: "3" }],
    });
    expect(othersOnly(rows, [" regatta "]).map(({ cells }) => cells.job)).toEqual(["2", "3"]);
  });
});
