import { expect, it } from "vitest";
import { inches } from "./job-builder";
import { needsOf } from "./planned";

const row = (event: string, balloons: number, breakage: number) =>
  ({ name: "X", event, kind: "count", printed: inches(11), colour: "Navy", balloons, breakage }) as const;

it("S6: expects to use count / (1 - breakage) of each group", () => {
  const [need] = needsOf({ pieces: [row("", 100, 0.03), row("", 90, 0.1)] });
  expect(need?.count).toBe(190);
  expect(need?.expected).toBeCloseTo(100 / 0.97 + 90 / 0.9, 9);
});

it("lets events without dates take their own spares each: 102 and 96, not the 196 of both together", () => {
  // Published: negative binomial quantiles of 96, 90 and 186 at 3 % and 95 %.
  expect(needsOf({ pieces: [row("Friday", 96, 0.03), row("Sunday", 90, 0.03)] })[0]?.take).toBe(102 + 96);
  expect(needsOf({ pieces: [row("Friday", 186, 0.03)] })[0]?.take).toBe(196);
});
