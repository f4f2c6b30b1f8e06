import { expect, it } from "vitest";
import { painted } from "../../../src/core/event/painted";
import { freshPlan } from "../../../src/core/event/job-plan";
import { inches, jobOf, known } from "./job-builder";

it("gives the places of each row the row's own colours", () => {
  const row = { name: "Bunch", printed: inches(11) };
  const plan = freshPlan(
    jobOf({
      pieces: [
        { ...row, kind: "bouquet", balloons: 4, palette: "P" },
        { ...row, kind: "foil", printed: inches(18), colour: "Gold" },
      ],
      palettes: [
        { palette: "P", colour: "Navy", share: 3, inside: "White" },
        { palette: "P", colour: "Sky", share: 1 },
      ],
    }),
  );
  const [piece] = plan.costsOf(plan.chosen).pieces;
  const rows = (piece?.parts ?? []).map((planned) => ({
    planned,
    cells: planned.part.cells,
    size: 0.2,
    balloons: known(planned.part.each),
  }));
  const places = [0, 1, 0, 0, 0].map((group, index) => ({
    x: index,
    y: 0,
    z: 0,
    radius: 0.1,
    row: 1,
    group,
  }));
  const balls = painted(places, rows);
  // What is inside another balloon is not seen: three navy ones and one sky one, the foil where its place is.
  const seen = balls.map(({ colour }) => colour).sort();
  expect(seen).toEqual(["Gold", "Navy", "Navy", "Navy", "Sky"]);
  expect(balls.filter(({ isFoil }) => isFoil)).toEqual([expect.objectContaining({ x: 1, colour: "Gold" })]);
});
