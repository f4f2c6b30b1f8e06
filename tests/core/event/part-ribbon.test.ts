import { expect, it } from "vitest";
import { partRibbon, ribbonCount } from "../../../src/core/event/part-ribbon";
import { inches } from "./job-builder";
import { firstPart, plannedOf } from "./planned";
import { STAND_BOUQUET } from "./sample-jobs";

it("hangs one with its knot from every balloon of every piece", () => {
  const part = firstPart({
    pieces: [{ name: "X", kind: "bouquet", balloons: 5, quantity: 4, printed: inches(11), ribbon: 1.2 }],
  });
  // By hand: 4 x 5 x (1.2 + 0.15).
  expect(ribbonCount(part)).toBe(5);
  expect(partRibbon(part)).toBeCloseTo(27, 9);
});

it("K5: hangs 22 from a cover of 45, none where none was typed", () => {
  const parts = plannedOf(STAND_BOUQUET)[0]?.parts.map(({ part }) => ribbonCount(part));
  expect(parts).toEqual([0, 0, 22, 0]);
});
