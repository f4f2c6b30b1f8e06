import fc from "fast-check";
import { expect, it } from "vitest";
import { countOf, orNone, tally } from "../../../src/core/numeric/tally";

it("sums amounts by key, keys in the order in which they come first", () => {
  const entries = [
    ["red", 3],
    ["blue", 4],
    ["red", 5],
  ] as const;
  expect([...tally(entries)]).toEqual([
    ["red", 8],
    ["blue", 4],
  ]);
  // Ten times a tenth is 1 by a sum that keeps the digits, 0.9999999999999999 by plain addition.
  expect(countOf(tally(Array.from({ length: 10 }, () => ["cents", 0.1] as const)), "cents")).toBe(1);
});

it("counts nothing where there is no row", () => {
  expect(countOf(tally([["red", 3]]), "green")).toBe(0);
  expect(orNone(undefined)).toBe(0);
  expect(orNone(7)).toBe(7);
});

it("loses nothing", () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.integer({ min: 0, max: 5 }), fc.nat(1000))), (entries) => {
      const whole = entries.reduce((sum, [, amount]) => sum + amount, 0);
      expect([...tally(entries).values()].reduce((sum, amount) => sum + amount, 0)).toBe(whole);
    }),
  );
});
