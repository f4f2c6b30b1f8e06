import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BUILD_STYLES, buildDuration, crewCount, LAST_SERIAL, startBy } from "../../../src/core/work/build";

const HOUR = 3600;
const hours = (from: number, to: number) => fc.double({ min: from, max: to, noNaN: true });

describe("buildDuration", () => {
  // Restates the constants. Common practice, no source: balloons per person-hour.
  it.each([
    ["clusters", 120],
    ["free-form", 60],
    ["helium", 50],
    ["ceiling", 100],
    ["net", 150],
    ["wall", 80],
    ["strike", 500],
  ] as const)("%s: %i balloons in an hour", (style, count) => {
    expect(buildDuration(count, style)).toBe(HOUR);
  });

  it("knows no other styles", () => {
    expect(BUILD_STYLES).toEqual(["clusters", "free-form", "helium", "ceiling", "net", "wall", "strike"]);
  });

  it("builds clusters at the usual pace without rigging by default", () => {
    expect(buildDuration(240)).toBe(2 * HOUR);
  });

  it("halves the building at twice the pace, not the rigging", () => {
    expect(buildDuration(240, "clusters", 2, 3)).toBe(HOUR + 1.5 * HOUR);
  });

  it("takes the typed minutes for each piece", () => {
    expect(buildDuration(240, "clusters", 1, 3, HOUR / 3)).toBe(3 * HOUR);
    expect(buildDuration(240, "clusters", 1, 3, 0)).toBe(2 * HOUR);
  });

  it("refuses a pace of nothing", () => {
    expect(() => buildDuration(1, "net", 0)).toThrow("pace must be above 0, found 0");
  });
});

describe("crewCount", () => {
  it("takes whole people for useful time", () => {
    // By hand: 10 h in a window of 4 h of which 3.4 h are useful is 2.94 people.
    expect(crewCount(10 * HOUR, 4 * HOUR)).toBe(3);
    expect(crewCount(10 * HOUR, 4 * HOUR, 1)).toBe(3);
    expect(crewCount(10.3 * HOUR, 4 * HOUR)).toBe(4);
  });

  it("does not take one more for rounding dust", () => {
    // On paper 3 people exactly; 0.1 x 3 is a bit above 0.3 in binary doubles.
    expect(crewCount(0.1 * 3 * HOUR, 0.1 * HOUR, 1)).toBe(3);
    expect(crewCount(3 * 4 * 0.85 * HOUR, 4 * HOUR, 0.85)).toBe(3);
  });

  it("takes nobody for no work", () => {
    expect(crewCount(0, HOUR)).toBe(0);
  });

  it("covers the work, and one fewer would not", () => {
    fc.assert(
      fc.property(hours(0.01, 500), hours(0.5, 48), hours(0.2, 1), (work, window, useful) => {
        const crew = crewCount(work * HOUR, window * HOUR, useful);
        expect(crew * window * useful).toBeGreaterThanOrEqual(work * (1 - 1e-11));
        expect((crew - 1) * window * useful).toBeLessThan(work);
      }),
    );
  });

  it.each([
    [0, 0.85, "window must be above 0 h, found 0"],
    [HOUR, 0, "useful must be above 0 and at most 1, found 0"],
  ])("refuses a window of %d s at %d useful", (window, useful, sentence) => {
    expect(() => crewCount(HOUR, window, useful)).toThrow(sentence);
  });
});

describe("startBy", () => {
  // Excel serial of 19 June 2027: days since 30 December 1899 by the proleptic calendar of `Date.UTC`.
  const evening = (Date.UTC(2027, 5, 19, 18, 30) - Date.UTC(1899, 11, 30)) / 86400e3;

  it("goes back by the shared work and the buffer", () => {
    // By hand: 20 h x 1.15 by four people is 5.75 h before 18:30, 12:45.
    const start = startBy(evening, 20 * HOUR, 4);
    const noonish = (Date.UTC(2027, 5, 19, 12, 45) - Date.UTC(1899, 11, 30)) / 86400e3;
    expect(start).toBeCloseTo(noonish, 9);
  });

  it("crosses midnight", () => {
    // By hand: 20 h alone without buffer before 18:30 is 22:30 of the day before.
    expect(startBy(evening, 20 * HOUR, 1, 0)).toBeCloseTo(Math.floor(evening) - 1 + 22.5 / 24, 9);
  });

  it("is never after ready, never negative, and leaves the time it promises", () => {
    fc.assert(
      fc.property(
        hours(1000, LAST_SERIAL),
        hours(0, 1000),
        fc.integer({ min: 1, max: 30 }),
        hours(0, 1),
        (ready, work, crew, buffer) => {
          const start = startBy(ready, work * HOUR, crew, buffer);
          expect(start).toBeLessThanOrEqual(ready);
          expect(start).toBeGreaterThanOrEqual(0);
          expect((ready - start) * 24 * crew).toBeCloseTo(work * (1 + buffer), 4);
        },
      ),
    );
  });

  it("says that a time of day needs its date", () => {
    expect(() => startBy(0.75, 48 * HOUR, 1, 0)).toThrow(
      /^ready must lie at least 2 days after the first date .+, found 0\.75; type the date with the time$/,
    );
  });

  it.each([
    [-1, 1, "ready must be a date from 0 to 2958465 as Excel counts days, found -1"],
    [3e6, 1, "ready must be a date from 0 to 2958465 as Excel counts days, found 3000000"],
    [46000, 0, "crew must be 1 or more, found 0"],
  ])("refuses ready %d with a crew of %d", (ready, crew, sentence) => {
    expect(() => startBy(ready, HOUR, crew)).toThrow(sentence);
  });
});
