import { describe, expect, it } from "vitest";
import type { Job } from "../../../src/core/event/job";
import { freshPlan, jobPlan } from "../../../src/core/event/job-plan";
import { inches, jobOf, minutes, type Tables } from "./job-builder";
import { STAND_BOUQUET } from "./sample-jobs";

const arch = (balloons: number, more: Tables = {}): Job =>
  jobOf({
    pieces: [{ name: "Arch", kind: "count", printed: inches(11), colour: "Gold", balloons }],
    ...more,
  });

describe("jobPlan", () => {
  it("is one for jobs of equal content, another where a cell or a given table differs", () => {
    const plan = jobPlan(jobOf(STAND_BOUQUET));
    expect(jobPlan(jobOf(STAND_BOUQUET))).toBe(plan);
    expect(jobPlan(jobOf({ ...STAND_BOUQUET, terms: { ...STAND_BOUQUET.terms, pay: 21 } }))).not.toBe(plan);
    expect(jobPlan(jobOf({ ...STAND_BOUQUET, stock: [] }))).not.toBe(plan);
  });

  it("forgets the oldest of many jobs, but never the one that is asked for again", () => {
    const kept = jobPlan(arch(1));
    const old = jobPlan(arch(2));
    for (let balloons = 3; balloons < 30; balloons += 1) {
      jobPlan(arch(balloons));
      expect(jobPlan(arch(1))).toBe(kept);
    }
    expect(jobPlan(arch(2))).not.toBe(old);
  });
});

describe("freshPlan", () => {
  it("is never remembered, but works each set of options out once", () => {
    const job = jobOf(STAND_BOUQUET);
    const plan = freshPlan(job);
    expect(freshPlan(job)).not.toBe(plan);
    expect(plan.costsOf(plan.chosen)).toBe(plan.costsOf([["", ""]]));
    expect(plan.piecesOf(plan.chosen)).toBe(plan.costsOf(plan.chosen).pieces);
  });

  it("has a scenario for each option, and one chosen by the terms", () => {
    const pieces = ["A", "B"].map((option, index) => ({
      name: "Arch",
      kind: "count" as const,
      printed: inches(11),
      colour: "Gold",
      balloons: 10 * (index + 1),
      option,
    }));
    const open = freshPlan(jobOf({ pieces }));
    expect(open.scenarios.map(({ option }) => option)).toEqual(["A", "B"]);
    expect(open.chosen).toEqual([["", ""]]);
    const balloons = open.scenarios.map(({ inForce }) => open.piecesOf(inForce)[0]?.piece.parts[0]?.balloons);
    expect(balloons).toEqual([10, 20]);
    const chosen = freshPlan(jobOf({ pieces, terms: { option: "b" } }));
    expect([chosen.scenarios.length, chosen.chosen]).toEqual([1, [["", "B"]]]);
  });

  it("lets past jobs teach what nobody typed, and what was typed stand (L2: 0.6454 min a balloon)", () => {
    const past_jobs = [{ job: "June", style: "clusters", balloons: 240, hours: minutes(180) }] as const;
    const time = (more: Tables): number | undefined => {
      const plan = freshPlan(arch(10, { past_jobs, ...more }));
      return plan.work.get("clusters")?.["minutes per balloon"];
    };
    expect((time({}) ?? 0) / 60).toBeCloseTo(0.6454, 3);
    expect(time({ work: [{ task: "clusters", "minutes per balloon": 45 }] })).toBe(45);
    expect(freshPlan(arch(10)).work.size).toBe(0);
  });
});
