import { describe, expect, it } from "vitest";
import {
  checkAtLeast,
  checkCount,
  checkLength,
  checkShare,
  metres,
  neighbourDistance,
} from "../../../src/core/geometry/checks";

it("writes a length to the tenth of a millimetre", () => {
  expect(metres(1.23456)).toBe("1.2346 m");
  expect(metres(2)).toBe("2 m");
});

describe("checks of geometry arguments", () => {
  it.each<[() => unknown, string]>([
    [() => checkLength("height", 0), "height must be more than 0 m, found 0"],
    [() => checkLength("height", Number.NaN), "height must be more than 0 m"],
    [() => checkLength("height", Infinity), "height must be more than 0 m"],
    [() => checkAtLeast("across", 0.1, 0.2, "one balloon"), "across must be at least 0.2 m"],
    [() => checkCount("count", 2.5, 1), "count must be a whole number"],
    [() => checkCount("count", 0, 1), "count must be a whole number"],
    [() => checkShare("covered", 1.1), "covered must be from 0 to 1, found 1.1"],
    [() => neighbourDistance(0.25, 2), "spacing must be from 0.6 to 1.2"],
    [() => neighbourDistance(0, 1), "balloon must be more than 0 m"],
  ])("refuse with a sentence: %s", (check, sentence) => {
    expect(check).toThrow(sentence);
  });

  it("let good values through", () => {
    expect(() => {
      checkLength("height", 2);
      checkAtLeast("across", 0.2, 0.2, "one balloon");
      checkCount("count", 4, 1);
      checkShare("covered", 1);
    }).not.toThrow();
    expect(neighbourDistance(0.25, 0.8)).toBeCloseTo(0.2, 15);
  });
});
