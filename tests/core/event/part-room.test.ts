import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PieceCells } from "../../../src/core/event/cells";
import { boxOf, partRoom, pieceBox } from "../../../src/core/event/part-room";
import { feet, inches, type Row } from "./job-builder";
import { pieceOfRows } from "./planned";

const STAND: readonly Row<PieceCells>[] = [
  { kind: "sleeve", printed: inches(60), height: feet(6), built: "shop" },
  { kind: "tied ball", printed: inches(12), inflated: inches(10), balloons: 12, built: "shop" },
  { kind: "cover", printed: inches(12), inflated: inches(11), built: "shop" },
  { kind: "collar", printed: inches(5), inflated: inches(4), balloons: 18, built: "shop" },
];

/** Room of all parts of a piece, m3. */
const roomOf = (rows: readonly Row<PieceCells>[]): number => {
  const piece = pieceOfRows(rows);
  return piece.parts.reduce((sum, part) => sum + partRoom(part, piece), 0);
};

describe("boxOf", () => {
  it("T3: is as high as the pole and half the ball (by hand: 1.8288 + 0.5544 m, 1.10885 m wide)", () => {
    const [width = 0, depth = 0, height = 0] = pieceBox(pieceOfRows(STAND)) ?? [];
    expect(width).toBeCloseTo(1.10885, 3);
    expect(depth).toBeCloseTo(1.10885, 3);
    expect(height).toBeCloseTo(2.3832, 3);
  });

  it("has none without parts, or where nothing is carried built", () => {
    expect(boxOf([])).toBeUndefined();
    expect(pieceBox(pieceOfRows([{ kind: "column", height: 2 }]))).toBeUndefined();
    expect(pieceBox(pieceOfRows([{ kind: "garland", length: 2, built: "shop" }]))).toBeUndefined();
  });

  it("is never smaller than the box of a part, whatever order the rows have", () => {
    const rows = [
      ...STAND,
      { kind: "column", height: 3, built: "shop" },
      { kind: "wall", width: 4, height: 2, built: "shop" },
      { kind: "arch", width: 3, height: 2.4, built: "shop" },
    ] as const;
    fc.assert(
      fc.property(fc.shuffledSubarray([...rows.slice(0, 2), ...rows.slice(4)], { minLength: 1 }), (some) => {
        const { parts } = pieceOfRows(some);
        const whole = boxOf(parts) ?? [0, 0, 0];
        for (const { box } of parts)
          box?.forEach((side, place) => {
            expect(whole[place]).toBeGreaterThanOrEqual(side - 1e-12);
          });
        expect(boxOf(parts.toReversed())).toEqual(whole);
      }),
      { numRuns: 30 },
    );
  });
});

describe("partRoom", () => {
  it("T3: puts the whole box of the stand bouquet on its first part, 2.93 m3", () => {
    const piece = pieceOfRows(STAND);
    const rooms = piece.parts.map((part) => partRoom(part, piece));
    expect(rooms[0]).toBeCloseTo(2.93, 2);
    expect(rooms.slice(1)).toEqual([0, 0, 0]);
  });

  it("T5: takes two columns by their boxes (by hand: 2 x 0.4872^2 x 3 = 1.424 m3)", () => {
    expect(roomOf([{ kind: "column", height: 3, quantity: 2, built: "shop" }])).toBeCloseTo(1.424, 2);
  });

  it("T4: takes what gives way by its balloons / 0.35, bagged / 0.45, flat not at all (common practice)", () => {
    // By hand: a foil of 18 in holds 14.5567 L (G1), 40 of them 582.27 L.
    const foils = { kind: "foil", printed: inches(18), quantity: 40 } as const;
    expect(roomOf([{ ...foils, carried: "built" }])).toBeCloseTo(0.58227 / 0.35, 3);
    expect(roomOf([{ ...foils, carried: "bagged" }])).toBeCloseTo(0.58227 / 0.45, 3);
    expect(roomOf([{ ...foils, carried: "empty" }])).toBe(0);
    expect(roomOf([foils])).toBe(0);
  });

  it("grows in step with the pieces", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), (quantity) => {
        const one = { kind: "column", height: 2, built: "shop" } as const;
        expect(roomOf([{ ...one, quantity }])).toBeCloseTo(quantity * roomOf([one]), 9);
      }),
      { numRuns: 15 },
    );
  });
});
