import fc from "fast-check";
import { expect, it } from "vitest";
import { sum } from "../../../src/core/numeric/sums";

it("keeps digits that plain addition loses", () => {
  // Neumaier's own example: 1 + 1e100 + 1 - 1e100 = 2.
  expect(sum([1, 1e100, 1, -1e100])).toBe(2);
  expect(sum(Array.from({ length: 10 }, () => 0.1))).toBe(1);
});

it("is 0 of nothing, never minus 0", () => {
  expect(Object.is(sum([]), 0)).toBe(true);
  expect(Object.is(sum([-0]), 0)).toBe(true);
});

it("adds whole numbers exactly in any order", () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -1e9, max: 1e9 })), (values) => {
      const exact = values.reduce((total, value) => total + BigInt(value), 0n);
      expect(sum(values)).toBe(Number(exact));
      expect(sum([...values].reverse())).toBe(Number(exact));
    }),
  );
});
