import fc from "fast-check";
import { expect, it } from "vitest";
import { isWithheld, sumKnown, whenKnown, withheld, type Known } from "../../src/core/withheld";

const gap = withheld("nobody sells 11 in Gold, 20 short");
const known = fc.oneof(fc.integer({ min: -1000, max: 1000 }), fc.constant<Known>(gap));

it("tells a withheld number from cells of every other kind", () => {
  expect(isWithheld(gap)).toBe(true);
  for (const cell of [0, "", "#N/A", true, null, undefined, { error: "#N/A" }, []])
    expect(isWithheld(cell)).toBe(false);
});

it("never adds up to a number where one is missing", () => {
  fc.assert(
    fc.property(fc.array(known), (values) => {
      const total = sumKnown(values);
      const isWhole = values.every((value) => typeof value === "number");
      expect(typeof total === "number").toBe(isWhole);
      if (isWhole) expect(total).toBe(values.reduce<number>((sum, value) => sum + (value as number), 0));
    }),
  );
});

it("computes only with known numbers and hands on the first gap", () => {
  expect(whenKnown([2, 3], (a, b) => a * b)).toBe(6);
  expect(whenKnown([2, gap], (a, b) => a * b)).toBe(gap);
});
