import { describe, expect, it } from "vitest";
import { ceilingCount } from "../../../src/core/geometry/flat";
import { ceilingPlacements, strandPlacements, wallPlacements } from "../../../src/core/geometry/flat-drawing";
import { centres, written } from "./drawing-checks";

// Worked by hand for balloons of 0.25 m, 0.2 m from centre to centre.
describe("drawing of a wall", () => {
  it("puts a square one in rows and columns about the middle, further faces behind", () => {
    // 0.85 = 0.25 + 3 x 0.2 and 0.65 = 0.25 + 2 x 0.2.
    const face = (z: number) =>
      [0.125, 0.325, 0.525].flatMap((y, row) => [-0.3, -0.1, 0.1, 0.3].map((x) => [x, y, z, row + 1]));
    expect(centres(wallPlacements(0.85, 0.65, 0.25))).toEqual(written(face(0)));
    const both = wallPlacements(0.85, 0.65, 0.25, "square", 0.8, 2);
    expect(centres(both)).toEqual(written([...face(0), ...face(-0.25)]));
    expect(both.every(({ radius }) => radius === 0.125)).toBe(true);
    expect(both.slice(0, 12).every(({ z }) => z === 0)).toBe(true);
  });

  it("shifts every other row of a staggered one by half a step", () => {
    const pitch = 0.1 * Math.sqrt(3);
    // 0.75 = 0.25 + 5 x 0.1: the shifted row has as many. 0.65 = 0.25 + 4 x 0.1: it has one fewer.
    const equal = [
      ...[-0.25, -0.05, 0.15].flatMap((x) => [
        [x, 0.125, 0, 1],
        [x, 0.125 + 2 * pitch, 0, 3],
      ]),
      ...[-0.15, 0.05, 0.25].map((x) => [x, 0.125 + pitch, 0, 2]),
    ];
    const fewer = [
      ...[-0.2, 0, 0.2].map((x) => [x, 0.125, 0, 1]),
      ...[-0.1, 0.1].map((x) => [x, 0.125 + pitch, 0, 2]),
    ];
    expect(centres(wallPlacements(0.75, 0.25 + 2 * pitch, 0.25, "staggered"))).toEqual(written(equal));
    expect(centres(wallPlacements(0.65, 0.25 + pitch, 0.25, "staggered"))).toEqual(written(fewer));
  });
});

it("lays a strand along a line, a balloon and a gap from centre to centre", () => {
  // (1.5 + 0.1)/(0.3 + 0.1) = 4 balloons.
  expect(centres(strandPlacements(1.5, 0.3, 0.1))).toEqual(
    written([-0.6, -0.2, 0.2, 0.6].map((x, index) => [x, 0.15, 0, index + 1])),
  );
});

describe("drawing of a ceiling", () => {
  it("keeps within the walls of the room and reaches them, in rows from the back", () => {
    for (const [length, width] of [
      [9, 6],
      [4, 7],
    ] as const) {
      const places = ceilingPlacements(length, width, 0.28);
      const [most, deepest] = [length / 2 - 0.14, width / 2 - 0.14];
      places.forEach(({ x, y, z, radius, row }, index) => {
        expect(Math.abs(x)).toBeLessThanOrEqual(most + 1e-9);
        expect(Math.abs(z)).toBeLessThanOrEqual(deepest + 1e-9);
        expect([y, radius]).toEqual([0.14, 0.14]);
        expect(z).toBeGreaterThanOrEqual(places[index - 1]?.z ?? -Infinity);
        const rows = (z + deepest) / 0.28;
        expect(rows).toBeGreaterThan(row - 1 - 1e-9);
        expect(rows).toBeLessThan(row + 1e-9);
      });
      // Loose balloons leave no gap of two along a wall's whole length.
      for (const [values, end] of [
        [places.map(({ x }) => x), most],
        [places.map(({ z }) => z), deepest],
      ] as const) {
        expect(Math.max(...values)).toBeGreaterThan(end - 0.28);
        expect(Math.min(...values)).toBeLessThan(0.28 - end);
      }
    }
  });

  it("spreads a thin one evenly: every quarter of the room has its share", () => {
    for (const covered of [0.1, 0.3, 0.6]) {
      const places = ceilingPlacements(8, 5, 0.28, covered);
      for (const isRight of [false, true]) {
        for (const isFront of [false, true]) {
          const quarter = places.filter(({ x, z }) => x > 0 === isRight && z > 0 === isFront);
          expect(Math.abs(quarter.length / places.length - 0.25)).toBeLessThan(0.05);
        }
      }
    }
  });

  it("lays a corridor narrower than a balloon in one row", () => {
    const places = ceilingPlacements(3, 0.2, 0.25);
    expect(places.length).toBe(ceilingCount(3, 0.2, 0.25));
    for (const { z, row } of places) expect([z, row]).toEqual([0, 1]);
  });
});
