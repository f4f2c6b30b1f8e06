import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mixedColours, patternColours } from "../../../src/core/event/mixed-colours";
import { wallPlacements } from "../../../src/core/geometry/flat-drawing";

describe("mixed colours", () => {
  it("uses each colour as often as counted", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 1, maxLength: 6 }), (counts) => {
        const all = counts.reduce((sum, count) => sum + count, 0);
        const places = Array.from({ length: all }, (_, index) => ({
          x: index,
          y: 0,
          z: 0,
          radius: 0.5,
          row: 1,
        }));
        const colours = mixedColours(places, counts);
        counts.forEach((count, colour) => {
          expect(colours.filter((one) => one === colour)).toHaveLength(count);
        });
      }),
    );
  });

  it("alternates two colours of one number along a line", () => {
    const line = Array.from({ length: 8 }, (_, index) => ({ x: index, y: 0, z: 0, radius: 0.5, row: 1 }));
    expect(mixedColours(line, [4, 4])).toEqual([0, 1, 0, 1, 0, 1, 0, 1]);
  });

  it("puts fewer alike side by side on a wall than chance does", () => {
    const wall = wallPlacements(3, 3, 0.25);
    const [one, two] = [Math.floor(wall.length / 3), Math.floor(wall.length / 3)];
    const colours = mixedColours(wall, [one, two, wall.length - one - two]);
    let [alike, pairs] = [0, 0];
    wall.forEach((place, index) => {
      wall.slice(index + 1).forEach((other, further) => {
        if (Math.hypot(place.x - other.x, place.y - other.y) > 0.26) return;
        pairs += 1;
        if (colours[index] === colours[index + 1 + further]) alike += 1;
      });
    });
    // Three colours at random: a third of the neighbours.
    expect(alike / pairs).toBeLessThan(0.2);
  });
});

describe("patterns of clusters", () => {
  it("gives every cluster the same, its colours in turn", () => {
    expect(patternColours(2, [4, 2, 2])).toEqual([0, 1, 2, 0, 0, 1, 2, 0]);
  });

  it("is none where a colour is no whole number in a cluster", () => {
    expect(patternColours(3, [4, 8])).toBeUndefined();
    expect(patternColours(1.5, [3, 3])).toBeUndefined();
    expect(patternColours(0, [0])).toBeUndefined();
  });
});
