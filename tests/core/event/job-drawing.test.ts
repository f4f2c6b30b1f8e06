import { describe, expect, it } from "vitest";
import { jobDrawing } from "../../../src/core/event/job-drawing";
import { freshPlan, jobPlan } from "../../../src/core/event/job-plan";
import { inches, jobOf } from "./job-builder";

const column = { kind: "column", printed: inches(11), height: 2, colour: "Navy" } as const;
const job = jobOf({
  pieces: [
    { name: "Door", ...column },
    { name: "Door", ...column, height: 3, option: "B" },
    { name: "Gate", ...column, option: "A" },
    { name: "Parked", ...column, quantity: 0 },
    { name: "Table", kind: "bouquet", printed: inches(11), balloons: 3, ribbon: 1, colour: "Navy" },
  ],
});

describe("the drawing of a job", () => {
  it("draws what options share once, what they add as their own, what is parked not at all", () => {
    const drawn = jobDrawing(freshPlan(job)).map(({ name, balls }) => [name, balls.length]);
    expect(drawn).toContainEqual(["Gate", expect.any(Number)]);
    expect(drawn.filter(([name]) => name === "Table")).toEqual([["Table", 3]]);
    expect(drawn.filter(([name]) => name === "Door")).toHaveLength(2);
    expect(drawn.some(([name]) => name === "Parked")).toBe(false);
  });

  it("names the option of what only one has, and none of what they share or where only one is built", () => {
    const named = (tables: typeof job): readonly string[] =>
      jobDrawing(freshPlan(tables)).map(({ name, option }) => `${name} ${option}`);
    expect(named(job)).toEqual(["Door B", "Table ", "Door A", "Gate A"]);
    const chosen = jobOf({
      pieces: [
        { name: "Door", ...column },
        { name: "Gate", ...column, option: "A" },
      ],
      terms: { option: "A" },
    });
    expect(named(chosen)).toEqual(["Door ", "Gate "]);
  });

  it("is made once for a plan", () => {
    expect(jobDrawing(jobPlan(job))).toBe(jobDrawing(jobPlan(job)));
  });
});
