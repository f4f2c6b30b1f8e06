import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PieceCells } from "../../../src/core/event/cells";
import { inflatedOf } from "../../../src/core/event/part-size";
import { inches, type Row } from "./job-builder";

const sizeOf = (cells: Row<PieceCells>): number | undefined =>
  inflatedOf({ place: "pieces row 2", row: 2, cells, doubts: [] });

describe("inflatedOf", () => {
  it.each([
    // Common practice: clusters 0.8 to 0.85, helium full, outdoors 0.8, in half inches.
    ["an 11 in column to 9 in", { kind: "column", printed: inches(11) }, 9],
    ["an 11 in column outdoors no larger", { kind: "column", printed: inches(11), where: "outdoors" }, 9],
    ["an 11 in bouquet full, to 11 in", { kind: "bouquet", printed: inches(11) }, 11],
    // By hand: 0.8 x 11 = 8.8, in half inches 9.
    ["an 11 in bouquet outdoors to 9 in", { kind: "bouquet", printed: inches(11), where: "outdoors" }, 9],
    ["a size typed as it is", { kind: "column", printed: inches(11), inflated: inches(7) }, 7],
    [
      "a foil at its flat size, whatever was typed",
      { kind: "foil", printed: inches(18), inflated: inches(15) },
      18,
    ],
    ["a 260 to 2 in across", { kind: "count", type: "long", code: 260 }, 2],
    ["a 160 to 1 in across", { kind: "count", type: "long", code: 160 }, 1],
  ] as const)("sizes %s", (_, cells, expected) => {
    expect(sizeOf(cells)).toBeCloseTo(inches(expected), 9);
  });

  it("has no size for a sleeve, which is pulled over relaxed", () => {
    expect(sizeOf({ kind: "sleeve", printed: inches(60) })).toBeUndefined();
  });

  it("says what is missing", () => {
    expect(() => sizeOf({ kind: "column" })).toThrow("pieces row 2: printed must be given, found nothing");
    expect(() => sizeOf({ kind: "count", type: "long", printed: inches(60) })).toThrow(
      "pieces row 2: inflated must be given for a long balloon without a code such as 260, found nothing",
    );
  });

  it("asks for the size of a sleeve and of every long balloon, since nobody could buy it otherwise", () => {
    const sentence = "pieces row 2: printed must be given, found nothing";
    expect(() => sizeOf({ kind: "sleeve", height: 2 })).toThrow(sentence);
    expect(() => sizeOf({ kind: "count", type: "long", inflated: inches(2) })).toThrow(sentence);
    expect(sizeOf({ kind: "sleeve", code: 260 })).toBeUndefined();
  });

  it("stays at the printed size or below, larger outdoors never, in half inches (sizing templates)", () => {
    const kinds = ["column", "mix", "bouquet", "wall", "ceiling", "count"] as const;
    fc.assert(
      fc.property(fc.constantFrom(...kinds), fc.integer({ min: 5, max: 36 }), (kind, printed) => {
        const inside = sizeOf({ kind, printed: inches(printed) }) ?? 0;
        const outside = sizeOf({ kind, printed: inches(printed), where: "outdoors" }) ?? 0;
        expect(inside).toBeLessThanOrEqual(inches(printed) + 1e-9);
        expect(outside).toBeLessThanOrEqual(inside + 1e-9);
        const halves = inside / inches(0.5);
        expect(halves).toBeCloseTo(Math.round(halves), 9);
      }),
    );
  });
});
