import { describe, expect, it } from "vitest";
import { StepBudget } from "../../../src/core/buying/step-budget";

describe("StepBudget", () => {
  it("counts what is taken and says when it was too much", () => {
    const budget = new StepBudget(10);
    expect([budget.take(4), budget.take(6), budget.isSpent, budget.used]).toEqual([true, true, false, 10]);
    expect([budget.take(1), budget.isSpent, budget.used]).toEqual([false, true, 11]);
  });
});
