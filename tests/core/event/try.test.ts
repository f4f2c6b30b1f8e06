import { it } from "vitest";
import { partPlan } from "../../../src/core/event/part-plan";
import { jobOf } from "./job-builder";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";
it("x", () => {
  for (const t of [STAND_BOUQUET, EVENING]) console.table(partPlan(jobOf(t)));
});
