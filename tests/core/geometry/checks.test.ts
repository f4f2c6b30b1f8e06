import { describe, expect, it } from "vitest";
import {
  checkAtLeast,
  checkCount,
  checkLength,
  checkNotNegative,
  checkPacking,
  checkShare,
  inMetres,
  neighbourDistance,
} from "../../../src/core/geometry/checks";

it("writes a length to the tenth of a millimetre", () => {
  expect(inMetres(1.23456)).toBe("1.2346 m");
  expect(inMetres(2)).toBe("2 m");
});

describe("checks of geometry arguments", () => {
  it.each<[() => unknown, string]>([
    [() => checkLength("height", 0), "height must be more than 0 m, found 0"],
    [() => checkLength("height", Number.NaN), "height must be more than 0 m"],
    [() => checkLength("height", Infinity), "height must be more than 0 m"],
    [() => checkAtLeast("across", 0.1, 0.2, "one balloon"), "across must be at least 0.2 m"],
    [
      () => checkAtLeast("across", Infinity, 0.2, "one balloon"),
      "across must be at least 0.2 m, one balloon",
    ],
    [() => checkNotNegative("gap", -0.1), "gap must be 0 m or more, found -0.1"],
    [() => checkNotNegative("gap", Infinity), "gap must be 0 m or more"],
    [() => checkCount("count", 1e9 + 1, 1), "count must be a whole number from 1 to 1000000000"],
    [() => checkShare("covered", -0.1), "covered must be from 0 to 1, found -0.1"],
    [() => checkPacking(0), "packing must be more than 0, up to 1, found 0"],
    [() => checkPacking(1.01), "packing must be more than 0, up to 1, found 1.01"],
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
      checkNotNegative("gap", 0);
      checkCount("count", 4, 1);
      checkCount("count", 1e9, 1);
      checkShare("covered", 0);
      checkShare("covered", 1);
      checkPacking(1);
    }).not.toThrow();
    expect(neighbourDistance(0.25, 0.8)).toBeCloseTo(0.2, 15);
  });
});
