import { describe, expect, it } from "vitest";
import { outlinePlacements } from "../../../src/core/geometry/outline-drawing";
import type { Placement } from "../../../src/core/geometry/drawing";
import { centres, written } from "./drawing-checks";

const letter = [
  { x: 1, y: 1 },
  { x: 2.2, y: 1 },
  { x: 2.2, y: 1.5 },
  { x: 1.5, y: 1.5 },
  { x: 1.5, y: 3 },
  { x: 1, y: 3 },
];

// Worked by hand for balloons of 0.25 m, 0.2 m from centre to centre.
describe("drawing of an outline", () => {
  const pitch = (0.25 * Math.sqrt(3)) / 2;

  it("fills a rectangle of four and three", () => {
    const [right, top] = [3 + 4 * 0.25, 5 + 0.25 + pitch];
    const places = outlinePlacements(
      [
        { x: 3, y: 5 },
        { x: right, y: 5 },
        { x: right, y: top },
        { x: 3, y: top },
      ],
      0.25,
    );
    expect(centres(places)).toEqual(
      written([
        ...[3.125, 3.375, 3.625, 3.875].map((x) => [x, 0.125, 0, 1]),
        ...[3.25, 3.5, 3.75].map((x) => [x, 0.125 + pitch, 0, 2]),
      ]),
    );
    expect(places.every(({ radius }) => radius === 0.125)).toBe(true);
  });

  it("counts rows from the first that has a balloon, a row's height apart", () => {
    // The tip is too thin for a balloon.
    const wedge = [
      { x: 0, y: -2 },
      { x: 0.9, y: 1 },
      { x: -0.9, y: 1 },
    ];
    const places = outlinePlacements(wedge, 0.25);
    expect(Math.min(...places.map(({ row }) => row))).toBe(1);
    const inRow = places.filter(({ row }) => row === places.at(-1)?.row);
    const [one, other] = [inRow[0], inRow.at(-1)];
    if (one === undefined || other === undefined || one === other) throw new Error("a row of one balloon");
    const length = Math.hypot(other.x - one.x, other.y - one.y);
    const height = ({ x, y }: Placement) => (y * (other.x - one.x) - x * (other.y - one.y)) / length;
    for (const place of places) {
      expect(height(place) - height(one)).toBeCloseTo((place.row - one.row) * pitch, 9);
    }
    // Half a balloon inside the lid, and inside both slanted sides, whose direction is 0.9 : 3.
    for (const { x, y } of places) {
      expect(y).toBeLessThan(3 - 0.125 + 1e-6);
      expect((0.9 * y - 3 * Math.abs(x)) / Math.hypot(0.9, 3)).toBeGreaterThan(0.125 - 1e-6);
    }
  });

  it("keeps a letter within its outline", () => {
    const places = outlinePlacements(letter, 0.127);
    expect(Math.min(...places.map(({ x, radius }) => x - radius))).toBeGreaterThan(1 - 1e-6);
    expect(Math.max(...places.map(({ y, radius }) => y + radius))).toBeLessThan(2 + 1e-6);
  });
});
