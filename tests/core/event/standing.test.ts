import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PieceCells } from "../../../src/core/event/cells";
import { pieceBallast, standingBox } from "../../../src/core/event/standing";
import { isWithheld, type Known } from "../../../src/core/withheld";
import { feet, inches, known, type Row } from "./job-builder";
import { pieceOfRows, termsOf } from "./planned";

/** A column 2 m high of 9 in quads, 0.4872 m across (T5), outdoors. */
const POST: Row<PieceCells> = { kind: "column", height: 2, where: "outdoors", base: 0.5 };
const ballast = (rows: readonly Row<PieceCells>[], gust?: number): Known | undefined =>
  pieceBallast(pieceOfRows(rows), termsOf(gust === undefined ? {} : { gust }));
const sentence = (value: Known | undefined): unknown => isWithheld(value) && value.sentence;

describe("standingBox", () => {
  it("T3: is that of the finished stand bouquet, wherever it was built", () => {
    const [width = 0, , height = 0] =
      standingBox(
        pieceOfRows([
          { kind: "sleeve", printed: inches(60), height: feet(6) },
          { kind: "tied ball", printed: inches(12), inflated: inches(10), balloons: 12 },
          { kind: "cover", printed: inches(12), inflated: inches(11) },
        ]),
      ) ?? [];
    expect(width).toBeCloseTo(1.10885, 3);
    expect(height).toBeCloseTo(2.3832, 3);
  });

  it("is none for what gives way or is parked", () => {
    expect(standingBox(pieceOfRows([{ kind: "garland", length: 3 }]))).toBeUndefined();
    expect(standingBox(pieceOfRows([{ ...POST, quantity: 0 }]))).toBeUndefined();
  });
});

describe("pieceBallast", () => {
  it("holds a post in a gust of 8 m/s with 28.6 kg (by hand: moments about the edge of the foot)", () => {
    // 1.25 / 2 x 8^2 = 40 Pa on 0.4872 x 2 m with 1.2: 46.8 N at 1 m; 2 x 46.8 / (9.80665 x 0.5) = 19.07 kg, x 1.5.
    expect(Math.abs(known(ballast([POST], 8)) - 28.6)).toBeLessThan(0.5);
  });

  it("is not asked indoors, of what hangs, lies or floats, or of what is parked", () => {
    expect(ballast([{ ...POST, where: "indoors" }], 8)).toBeUndefined();
    expect(ballast([{ kind: "garland", length: 3, where: "outdoors" }], 8)).toBeUndefined();
    expect(ballast([{ kind: "bouquet", balloons: 5, where: "outdoors" }], 8)).toBeUndefined();
    expect(ballast([{ ...POST, quantity: 0 }], 8)).toBeUndefined();
  });

  it("cannot be told without a gust or a foot, which is said", () => {
    expect(sentence(ballast([POST]))).toBe('"Piece" stands outdoors: gust must be given in terms');
    expect(sentence(ballast([{ kind: "column", height: 2, where: "outdoors" }], 8))).toBe(
      '"Piece" stands outdoors: base must be given in pieces, the width of its foot',
    );
    expect(sentence(ballast([{ kind: "column", balloons: 40, where: "outdoors", base: 0.5 }], 8))).toBe(
      '"Piece" stands outdoors: width and height must be known',
    );
  });

  it("takes the narrowest foot that any row has", () => {
    const wide = { kind: "count", balloons: 5, where: "outdoors", base: 0.9 } as const;
    expect(ballast([POST, wide], 8)).toBe(ballast([POST], 8));
    expect(known(ballast([{ ...POST, base: 0.9 }, wide], 8))).toBeLessThan(known(ballast([POST], 8)));
  });

  it("refuses a gust in which pieces have to be down", () => {
    expect(isWithheld(ballast([POST], 60))).toBe(true);
  });

  it("never weighs less in a stronger wind, on a narrower foot or for a higher piece", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 8 }),
        fc.integer({ min: 3, max: 12 }),
        fc.integer({ min: 10, max: 25 }),
        (gust, base, height) => {
          const at = (wind: number, foot: number, high: number): number =>
            known(ballast([{ ...POST, base: foot / 10, height: high / 10 }], wind));
          const usual = at(gust, base, height);
          expect(at(gust + 0.5, base, height)).toBeGreaterThanOrEqual(usual);
          expect(at(gust, base - 1, height)).toBeGreaterThanOrEqual(usual);
          expect(at(gust, base, height + 1)).toBeGreaterThanOrEqual(usual);
        },
      ),
      { numRuns: 30 },
    );
  });
});
