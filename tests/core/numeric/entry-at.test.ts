import { expect, it } from "vitest";
import { entryAt, present } from "../../../src/core/numeric/entry-at";

it("gives the entry at an index, and stops where there is none", () => {
  expect(entryAt([5, 0, 7], 1)).toBe(0);
  expect(entryAt(Float64Array.of(2, 4), 1)).toBe(4);
  expect(entryAt(["", null], 1)).toBeNull();
  for (const index of [-1, 3, 0.5, NaN]) expect(() => entryAt([5, 0, 7], index)).toThrow("among 3");
});

it("gives what was looked up, and stops where nothing was found", () => {
  expect(present([5, 0, 7][1])).toBe(0);
  expect(present(new Map([["red", ""]]).get("red"))).toBe("");
  expect(() => present([5, 0, 7][3])).toThrow(RangeError);
  expect(() => present(new Map().get("red"))).toThrow(RangeError);
});
