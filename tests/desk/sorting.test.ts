import fc from "fast-check";
import { expect, it } from "vitest";
import { sortedOrder } from "../../src/desk/sorting";

it("sorts as Excel does: numbers, texts, FALSE and TRUE, blanks last either way", () => {
  const keys = ["b", null, 3, true, "A", 1, false, ""];
  const sorted = (isAscending: boolean): unknown => sortedOrder(keys, isAscending).map((at) => keys[at]);
  expect(sorted(true)).toEqual([1, 3, "A", "b", false, true, null, ""]);
  expect(sorted(false)).toEqual([true, false, "b", "A", 3, 1, null, ""]);
});

it("loses no row and keeps the order of equal ones", () => {
  fc.assert(
    fc.property(
      fc.array(fc.oneof(fc.integer({ max: 3 }), fc.constant(null), fc.constantFrom("x", "y"))),
      (keys) => {
        const order = sortedOrder(keys, true);
        expect([...order].sort((a, b) => a - b)).toEqual(keys.map((_, index) => index));
        for (const [at, index] of order.entries()) {
          const next = order[at + 1];
          if (next !== undefined && keys[index] === keys[next]) expect(index).toBeLessThan(next);
        }
      },
    ),
  );
});
