import { expect, it } from "vitest";
import { pieceBox } from "../../../src/core/event/part-room";
import { feet, inches } from "./job-builder";
import { plannedOf } from "./planned";
import { STAND_BOUQUET } from "./sample-jobs";

it("T3: boxes a ball on a sleeved pole as pole and half of the ball", () => {
  const pieces = STAND_BOUQUET.pieces?.map((row) => ({ ...row, carried: "built" as const })) ?? [];
  const [planned] = plannedOf({ ...STAND_BOUQUET, pieces });
  const [width, depth, height] = (planned && pieceBox(planned.piece)) ?? [0, 0, 0];
  // By hand: 1.10885 across, 1.8288 + 0.5544 high.
  expect(width).toBeCloseTo(1.10885, 4);
  expect(depth).toBe(width);
  expect(height).toBeCloseTo(2.3832, 4);
});

it("has no box for what gives way or is inflated on site", () => {
  const box = (carried: "built" | "empty", kind: "garland" | "wall"): unknown => {
    const size = { width: 2, height: feet(6), length: 3, printed: inches(11) };
    const [planned] = plannedOf({ pieces: [{ name: "X", kind, carried, ...size }] });
    return planned && pieceBox(planned.piece);
  };
  expect(box("built", "garland")).toBeUndefined();
  expect(box("empty", "wall")).toBeUndefined();
  expect(box("built", "wall")).toEqual([2, inches(9), feet(6)]);
});
