import { describe, expect, it } from "vitest";
import { learnPlan } from "../../../src/core/event/learn-plan";
import { isWithheld } from "../../../src/core/withheld";
import { jobOf } from "./job-builder";

describe("learnPlan", () => {
  it("says how much of an estimate is the decorator's own (by hand: 3 jobs of 240 balloons, 1 - 6.25 / 38.11)", () => {
    const past = ["1", "2", "3"].map((job) => ({
      job,
      style: "clusters" as const,
      balloons: 240,
      hours: 3 * 3600,
    }));
    const row = learnPlan(jobOf({ past_jobs: past })).find(({ of }) => of === "clusters");
    expect(row?.["own weight"]).toBeCloseTo(1 - 6.25 / (6.25 + 3 * 10.6195), 4);
    expect(row?.status).toBe("ok: 3 jobs: 84 % yours, 16 % trade default");
    expect(row?.default).toBe(0.5);
    expect(row?.["own alone"]).toBeCloseTo(0.75, 12);
  });

  it("gives the trade default without jobs", () => {
    const row = learnPlan(jobOf({ past_jobs: [] })).find(({ of }) => of === "clusters");
    expect(row).toMatchObject({
      jobs: 0,
      estimate: 0.5,
      "own alone": "",
      status: "ok: no jobs yet, the trade default",
    });
  });

  it("says in its own row of breakage which past job does not say how many popped", () => {
    const rows = learnPlan(
      jobOf({
        past_jobs: [
          { job: "1", taken: 100, popped: 3 },
          { job: "2", taken: 200, where: "outdoors" },
        ],
      }),
    );
    const statusOf = (of: string): string | undefined => rows.find((row) => row.of === of)?.status;
    expect(statusOf("indoors")).toMatch(/^ok: 1 job/);
    expect(statusOf("outdoors")).toMatch(/^check: past_jobs row 3: popped is 0 or a blank cell/);
  });

  it("closes with every past job that cannot be read, its numbers withheld", () => {
    const rows = learnPlan(
      jobOf({ past_jobs: [{ job: "1", doubt: "hours must be a time in hours, found nothing" }] }),
    );
    const last = rows.at(-1);
    expect(last?.status).toBe("stop: past_jobs row 2: hours must be a time in hours, found nothing");
    expect(isWithheld(last?.estimate)).toBe(true);
  });

  it("refuses a trade default of nothing by its sentence", () => {
    const rows = learnPlan(
      jobOf({ past_jobs: [], termRows: [{ term: "sure", doubt: "value must be a share" }] }),
    );
    expect(rows).toHaveLength(1);
    expect(rows[0]?.status).toContain("stop: terms row 2: value must be a share");
  });
});
