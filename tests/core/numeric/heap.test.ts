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

  it("gives the smallest key of what waits, whenever it is asked", () => {
    // The model is a list sorted anew at each turn; undefined takes one out.
    const turn = fc.option(fc.integer({ min: -50, max: 50 }), { nil: undefined, freq: 3 });
    fc.assert(
      fc.property(fc.array(turn, { maxLength: 120 }), (turns) => {
        const heap = new Heap<string>();
        let model: number[] = [];
        for (const key of turns) {
          if (key === undefined) {
            const [smallest] = model;
            const entry = heap.pop();
            expect(entry).toEqual(
              smallest === undefined ? undefined : { key: smallest, value: `waits at ${smallest}` },
            );
            model = model.slice(1);
          } else {
            heap.push(key, `waits at ${key}`);
            model = [...model, key].toSorted((a, b) => a - b);
          }
        }
      }),
    );
  });

  it("takes keys without end, which come last", () => {
    const heap = new Heap<string>();
    [Infinity, 2, Infinity, -Infinity, 1].forEach((key) => {
      heap.push(key, "");
    });
    expect([1, 2, 3, 4, 5].map(() => heap.pop()?.key)).toEqual([-Infinity, 1, 2, Infinity, Infinity]);
  });
});
