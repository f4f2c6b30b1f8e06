import { expect, it } from "vitest";
import { keptWorth } from "../../../src/core/event/keep";
import { inches, jobOf } from "./job-builder";
import { needsOf } from "./planned";

it("takes the smallest keep of the palettes that use a colour, with a check, else the usual share", () => {
  const piece = (name: string, palette: string) =>
    ({ name, kind: "count", printed: inches(11), palette, balloons: 10 }) as const;
  const tables = {
    pieces: [piece("A", "P"), piece("B", "Q")],
    palettes: [
      { palette: "P", colour: "Odd", share: 1, keep: 0 },
      { palette: "Q", colour: "Odd", share: 1, keep: 0.5 },
      { palette: "Unused", colour: "Odd", share: 1, keep: 0.1 },
    ],
  };
  const [need] = needsOf(tables);
  if (need === undefined) throw new Error("no need");
  const kept = keptWorth(need, jobOf(tables), 0.9);
  expect(kept.worth).toBe(0);
  expect(kept.problems.map(({ weight }) => weight)).toEqual(["check"]);
  expect(keptWorth(need, jobOf({ ...tables, palettes: [] }), 0.9)).toEqual({ worth: 0.9, problems: [] });
});
