import { describe, expect, it } from "vitest";
import type { PastJobCells } from "../../../src/core/event/cells";
import { freshPlan } from "../../../src/core/event/job-plan";
import { partPlan } from "../../../src/core/event/part-plan";
import { taughtJob } from "../../../src/core/event/taught-job";
import { resolvedTerms } from "../../../src/core/event/terms";
import { inches, jobOf, minutes, type Row, type Tables } from "./job-builder";

const HOUR = 3600;
const column: Tables = {
  pieces: [{ name: "Door", kind: "column", height: 1.8, printed: inches(11), colour: "White" }],
};
const past: readonly Row<PastJobCells>[] = [
  { job: "1", event: "Fair", style: "clusters", kind: "column", balloons: 240, hours: 3 * HOUR },
  { job: "2", event: "Fair", taken: 101, popped: 5 },
  { job: "3", event: "Fair", kind: "column", balloons: 240, "planned balloons": 200 },
];

function plan(tables: Tables): { readonly balloons: unknown; readonly hours: number } {
  const [row] = partPlan(freshPlan(jobOf(tables)));
  return { balloons: row?.balloons, hours: Number(row?.hours) };
}

describe("taughtJob", () => {
  it("leaves a job without past jobs as it is", () => {
    const job = jobOf(column);
    expect(taughtJob(job)).toEqual({ job, terms: {} });
  });

  it("uses learned minutes, spacing and breakage where the tables say nothing", () => {
    const before = plan(column);
    const after = plan({ ...column, past_jobs: past });
    expect(before.balloons).toBe(44);
    expect(after.balloons).toBeGreaterThan(44);
    const rigging = 20 / 60;
    expect((after.hours - rigging) / Number(after.balloons) / ((before.hours - rigging) / 44)).toBeCloseTo(
      1.29078,
      3,
    );
    const { terms } = taughtJob(jobOf({ ...column, past_jobs: past }));
    expect(terms.breakage?.value).toBeCloseTo(0.03393, 5);
    expect(resolvedTerms(jobOf(column), "", terms).breakage).toMatchObject({
      origin: "past jobs",
      why: "1 past job",
    });
  });

  it("lets what was typed win: spacing of the piece, minutes of style, kind or name, breakage of the terms", () => {
    const typed = plan({
      ...column,
      pieces: column.pieces?.map((row) => ({ ...row, spacing: 0.8 })) ?? [],
      past_jobs: past,
    });
    expect(typed.balloons).toBe(44);
    for (const task of ["clusters", "column", "Door"]) {
      const { hours } = plan({
        ...column,
        pieces: column.pieces?.map((row) => ({ ...row, spacing: 0.8 })) ?? [],
        work: [{ task, "minutes per balloon": minutes(2), "minutes per piece": 0 }],
        past_jobs: [...past, { job: "4", kind: "column", pieces: 4, "rigging hours": 2 * HOUR }],
      });
      expect(hours).toBeCloseTo((44 * 2) / 60, 9);
    }
    const job = jobOf({ ...column, terms: { breakage: 0.2 }, past_jobs: past });
    expect(resolvedTerms(job, "", taughtJob(job).terms).breakage).toMatchObject({
      value: 0.2,
      origin: "you",
    });
  });

  it("never lets a job learn from itself", () => {
    const own = { ...column, events: [{ event: "fair" }], past_jobs: past };
    expect(plan(own)).toEqual(plan({ ...column, events: [{ event: "fair" }] }));
  });
});
