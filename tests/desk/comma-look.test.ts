import { describe, expect, it } from "vitest";
import { commaLook } from "../../src/desk/comma-look";

// What Excel takes where the comma is the decimal mark: arguments parted by semicolons (Microsoft's help on list separators).
describe("a call that may hold decimal commas", () => {
  it.each([
    [
      "=BLN.COUNT_COLUMN(1,8,9)",
      "height 1 m and balloon 8 in: did you mean height 1.8 m?",
      "=BLN.COUNT_COLUMN(1.8,9)",
    ],
    [
      "=2*BLN.COUNT_COLUMN(1,8,A2)",
      "height 1 m and balloon 8 in: did you mean height 1.8 m?",
      "=2*BLN.COUNT_COLUMN(1.8,A2)",
    ],
    [
      "=BLN.METRES(1,8)",
      "length 1 m and a number 8 that METRES does not take: did you mean length 1.8 m?",
      "=BLN.METRES(1.8)",
    ],
  ])("%s is asked about", (typed, sentence, suggestion) => {
    expect(commaLook(typed)).toEqual({ sentence, suggestion });
  });

  it.each([
    "=BLN.COUNT_COLUMN(1, 8, 9)",
    "=BLN.COUNT_COLUMN(1.8,9)",
    // One number fewer is no column at all.
    "=BLN.COUNT_COLUMN(2,10)",
    // A balloon of 900 in does not exist, and nobody writes 8,900 in.
    "=BLN.COUNT_COLUMN(1,8,900)",
    // Counts have no decimals.
    "=BLN.COUNT_WITH_SPARES(100,1)",
    "=SUM(1,8,9)",
    '="BLN.COUNT_COLUMN(1,8,9)"',
  ])("%s is not", (typed) => {
    expect(commaLook(typed)).toBeUndefined();
  });
});
