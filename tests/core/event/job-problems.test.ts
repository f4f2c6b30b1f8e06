import { describe, expect, it } from "vitest";
import type { Problem } from "../../../src/core/problem";
import { jobProblems } from "../../../src/core/event/job-problems";
import { jobScope } from "../../../src/core/event/scope";
import { inches, jobOf, type Tables } from "./job-builder";
import { plannedOf } from "./planned";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const problems = (tables: Tables, found: readonly Problem[] = []): readonly Problem[] => {
  const job = { ...jobOf(tables), problems: found };
  return jobProblems(job, jobScope(job), plannedOf(tables));
};
const said = (tables: Tables): readonly string[] =>
  problems(tables).map(({ weight, table, what }) => `${weight} ${table}: ${what}`);

describe("jobProblems", () => {
  it("has nothing to say about the stand bouquet, and one count to look at in the evening", () => {
    expect(said(STAND_BOUQUET)).toEqual([]);
    // The logo takes 32 of the wall's 286 places (worked example of the design).
    expect(said(EVENING)).toEqual([
      "check pieces: pieces row 6: 254 balloons as typed, 4 m x 2.4 m gives 286",
    ]);
  });

  it("stops the job at doubtful rows of terms, events and vehicles", () => {
    expect(said({ ...STAND_BOUQUET, termRows: [{ term: "gust", doubt: "gust must be a speed" }] })).toEqual([
      "stop terms: terms row 10: gust must be a speed",
    ]);
    expect(said({ ...STAND_BOUQUET, events: [{ event: "Friday", doubt: "ready must be a date" }] })).toEqual([
      "stop events: events row 2: ready must be a date",
    ]);
    expect(said({ ...STAND_BOUQUET, vehicles: [{ vehicle: "van", doubt: "m3 must be a volume" }] })).toEqual([
      "stop vehicles: vehicles row 2: m3 must be a volume",
    ]);
  });

  it("stops the job at a doubtful past job, whose lesson would be missing without a word", () => {
    const past_jobs = [{ job: "Fair", doubt: "hours must be a time in hours, found four" }];
    expect(said({ ...STAND_BOUQUET, past_jobs })).toEqual([
      "stop past_jobs: past_jobs row 2: hours must be a time in hours, found four",
    ]);
  });

  it("says every sentence of a row, and each once however many terms and events it touches", () => {
    const termRows = [{ doubt: 'term must be a term, found "discout"' }];
    const events = [{ event: "Friday" }, { event: "Sunday" }];
    const pieces = (STAND_BOUQUET.pieces ?? []).map((row) => ({ ...row, event: "every" }));
    expect(said({ ...STAND_BOUQUET, pieces, events, termRows })).toEqual([
      'stop terms: terms row 10: term must be a term, found "discout"',
    ]);
  });

  it("stops at terms that contradict, an event that is not there, and rows of work", () => {
    expect(said({ ...STAND_BOUQUET, termRows: [{ term: "pay", value: 25 }] })).toEqual([
      "stop terms: terms row 10: pay must stand once, as in terms row 2",
    ]);
    const pieces = (STAND_BOUQUET.pieces ?? []).map((row) => ({ ...row, event: "Fridya" }));
    const [first] = said({ ...STAND_BOUQUET, pieces, events: [{ event: "Friday" }] });
    expect(first).toMatch(/^stop pieces: pieces row 2: event must be one of the events, found "Fridya"/);
    expect(
      said({ ...STAND_BOUQUET, work: [{ task: "cover", doubt: "where must be shop or site" }] }),
    ).toEqual(["stop work: work row 2: where must be shop or site"]);
  });

  it("hands on what was found about the tables themselves, and what pieces say", () => {
    const found: Problem = {
      weight: "note",
      table: "stock",
      what: "table 4 read as stock, 31 rows",
      todo: "",
      reach: { of: "none" },
    };
    expect(problems(STAND_BOUQUET, [found])).toEqual([found]);
    const wide = (STAND_BOUQUET.pieces ?? []).map((row) =>
      row.kind === "collar" ? { ...row, inflated: inches(6) } : row,
    );
    expect(said({ ...STAND_BOUQUET, pieces: wide })).toEqual([
      "check pieces: pieces row 5: inflated above its printed size",
    ]);
  });

  it("leaves prices, shelf and goods to what buys: they stop items, not the job", () => {
    const price_list = [{ supplier: "Town", doubt: "price must be a number" }];
    const goods = [{ item: "pole", doubt: "price must be a number" }];
    expect(said({ ...STAND_BOUQUET, price_list, goods })).toEqual([]);
  });
});
