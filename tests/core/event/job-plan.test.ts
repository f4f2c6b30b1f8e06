import { expect, it } from "vitest";
import { freshPlan, jobPlan } from "../../../src/core/event/job-plan";
import { jobOf } from "./job-builder";
import { STAND_BOUQUET } from "./sample-jobs";

it("has one plan for jobs of equal content, and another for other content", () => {
  const plan = jobPlan(jobOf(STAND_BOUQUET));
  expect(jobPlan(jobOf(STAND_BOUQUET))).toBe(plan);
  const dearer = { ...STAND_BOUQUET, terms: { ...STAND_BOUQUET.terms, pay: 21 } };
  expect(jobPlan(jobOf(dearer))).not.toBe(plan);
  expect(freshPlan(jobOf(STAND_BOUQUET))).not.toBe(plan);
});

it("works a scenario out once", () => {
  const plan = freshPlan(jobOf(STAND_BOUQUET));
  expect(plan.costsOf(plan.chosen)).toBe(plan.costsOf(plan.chosen));
  expect(plan.piecesOf(plan.chosen)).toBe(plan.piecesOf(plan.chosen));
});
