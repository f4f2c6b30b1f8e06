import { expect, it } from "vitest";
import { grouped } from "../../../src/core/stock/grouped";

it("groups by key, groups and members in the order they come", () => {
  const groups = grouped(["pear", "apple", "plum", "avocado"], (word) => word[0]);
  expect([...groups]).toEqual([
    ["p", ["pear", "plum"]],
    ["a", ["apple", "avocado"]],
  ]);
  expect(grouped([], String).size).toBe(0);
});
