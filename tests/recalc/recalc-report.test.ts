import { describe, expect, it } from "vitest";
import { changedText } from "../../src/recalc/recalc-report";

describe("what a recalculation says", () => {
  it("counts cells as English does", () => {
    expect([0, 1, 2].map(changedText)).toEqual(["0 cells changed", "1 cell changed", "2 cells changed"]);
  });
});
