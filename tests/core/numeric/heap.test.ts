import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Heap } from "../../../src/core/numeric/heap";

describe("Heap", () => {
  it("gives entries in the order of their keys", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -9, max: 9 })), (keys) => {
        const heap = new Heap<number>();
        keys.forEach((key, i) => {
          heap.push(key, i);
        });
        const out = keys.map(() => heap.pop());
        expect(out.map((entry) => entry?.key)).toEqual(keys.toSorted((a, b) => a - b));
        expect(out.map((entry) => entry?.value).toSorted((a = 0, b = 0) => a - b)).toEqual(
          keys.map((_, i) => i),
        );
        expect(heap.pop()).toBeUndefined();
      }),
    );
  });
});
