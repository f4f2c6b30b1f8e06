import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  likeness,
  lookAlikes,
  lookAlikesAmong,
  nameKey,
  similarNames,
} from "../../../src/core/palette/names";

/** Damerau-Levenshtein distance with adjacent swaps by the plain table (Damerau 1964, optimal string alignment). */
function distance(a: string, b: string): number {
  const table = Array.from({ length: a.length + 1 }, (_, i) =>
    Array.from({ length: b.length + 1 }, (__, j) => (i === 0 ? j : j === 0 ? i : 0)),
  );
  const at = (i: number, j: number): number => table[i]?.[j] ?? Infinity;
  for (let i = 1; i <= a.length; i += 1)
    for (let j = 1; j <= b.length; j += 1) {
      const change = at(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const row = table[i] ?? [];
      row[j] = Math.min(change, at(i - 1, j) + 1, at(i, j - 1) + 1, isSwap ? at(i - 2, j - 2) + 1 : Infinity);
    }
  return at(a.length, b.length);
}

describe("nameKey", () => {
  it("ignores outer spaces, kinds of space, case and Unicode form", () => {
    expect(nameKey(" Rose\u00a0 Gold\u200b ")).toBe(nameKey("rose gold"));
    expect(nameKey("Cafe\u0301")).toBe(nameKey("CAFÉ"));
    expect(nameKey("rosegold")).not.toBe(nameKey("rose gold"));
  });
});

describe("likeness", () => {
  it.each([
    ["coral", "corl", "one letter"],
    ["coral", "corral", "one letter"],
    ["coral", "corel", "one letter"],
    ["coral", "croal", "two letters swapped"],
    ["rose gold", "rosegold", "one letter"],
    ["pink", "pin", "one letter"],
    ["coral", "coral", undefined],
    ["coral", "cor", undefined],
    ["red", "rad", undefined],
    ["blue 11", "blue 12", undefined],
    ["blue 1", "blue 11", undefined],
    ["abcd", "badc", undefined],
  ])("of %s and %s is %s", (one, other, expected) => {
    expect(likeness(one, other)).toBe(expected);
    expect(likeness(other, one)).toBe(expected);
  });

  it("is distance 1 for names of four letters and more", () => {
    const word = fc.string({ unit: fc.constantFrom("a", "b", "c"), minLength: 4, maxLength: 7 });
    fc.assert(
      fc.property(word, word, (one, other) => {
        expect(likeness(one, other) !== undefined).toBe(distance(one, other) === 1);
      }),
      { numRuns: 2000 },
    );
  });
});

describe("lookAlikes", () => {
  it("names each spelling once", () => {
    expect(lookAlikes("Corla", ["Coral", "CORAL", "Corl", "White"])).toEqual(["Coral", "Corl"]);
  });

  it("finds what comparing with every name finds, in order", () => {
    const word = fc.string({ unit: fc.constantFrom("a", "b", "1"), minLength: 3, maxLength: 6 });
    fc.assert(
      fc.property(fc.array(word, { maxLength: 30 }), word, (known, name) => {
        const expected = [...new Set(known)].filter((other) => likeness(name, other));
        expect(lookAlikesAmong(known)(name)).toEqual(expected);
      }),
      { numRuns: 500 },
    );
  });
});

describe("similarNames", () => {
  it("pairs spellings and slips, never the same text", () => {
    expect(similarNames(["Coral", "White", "coral ", "Coral", "Corla", "", "Wihte"])).toEqual([
      { name: "coral ", place: 3, like: "Coral", likePlace: 1, difference: "spaces or case" },
      { name: "Corla", place: 5, like: "Coral", likePlace: 1, difference: "two letters swapped" },
      { name: "Wihte", place: 7, like: "White", likePlace: 2, difference: "two letters swapped" },
    ]);
  });

  it("finds every pair that comparing all with all finds", () => {
    const words = fc.array(fc.string({ unit: fc.constantFrom("a", "b"), minLength: 3, maxLength: 6 }), {
      maxLength: 20,
    });
    fc.assert(
      fc.property(words, (names) => {
        const distinct = [...new Set(names)];
        const expected = distinct.flatMap((name, i) =>
          distinct
            .slice(0, i)
            .filter((other) => likeness(other, name))
            .map((other) => [name, other]),
        );
        const pairs = similarNames(names);
        const found = pairs.map((pair) => [pair.name, pair.like]);
        expect(found.toSorted()).toEqual(expected.toSorted());
        const places = pairs.map((pair) => pair.place * 1000 + pair.likePlace);
        expect(places).toEqual(places.toSorted((a, b) => a - b));
        for (const pair of pairs) {
          expect([names[pair.place - 1], names[pair.likePlace - 1]]).toEqual([pair.name, pair.like]);
        }
      }),
    );
  });

  it("reads a full column of names", () => {
    expect(similarNames(Array.from({ length: 5000 }, (_, i) => `colour ${i}`))).toEqual([]);
  });
});
