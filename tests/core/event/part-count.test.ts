import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PieceCells } from "../../../src/core/event/cells";
import type { Line } from "../../../src/core/event/job";
import { computedEach, countingOf, eachOf } from "../../../src/core/event/part-count";
import { isWithheld, type Known } from "../../../src/core/withheld";
import { inches, jobOf, type Row } from "./job-builder";

const linesOf = (...rows: readonly Row<PieceCells>[]): readonly Line<PieceCells>[] =>
  jobOf({ pieces: rows.map((row) => ({ name: "Piece", printed: inches(11), ...row })) }).pieces;
const grouped = (...rows: readonly Row<PieceCells>[]): readonly (Known | undefined)[] => {
  const lines = linesOf(...rows);
  const counting = countingOf(lines);
  return lines.map((line) => counting.grouped.get(line));
};

/** 7.2: the railing garland, outdoors. */
const rail = (printed: number, share: number, more: Row<PieceCells> = {}): Row<PieceCells> => ({
  kind: "mix",
  printed: inches(printed),
  share,
  where: "outdoors",
  ...more,
});
const RAIL = [rail(5, 5, { width: 0.4, length: 30 }), rail(11, 4), rail(16, 1)] as const;

describe("countingOf a mix or collar", () => {
  it("counts the railing garland as 283 + 226 + 57 (worked example of the design)", () => {
    expect(grouped(...RAIL)).toEqual([283, 226, 57]);
  });

  it("K9: counts a collar 0.9 m wide and 0.25 m thick as 128 (by hand: ring pi x 0.65, packing 0.7)", () => {
    expect(
      grouped({ kind: "collar", printed: inches(5), inflated: inches(4), width: 0.9, height: 0.25 }),
    ).toEqual([128]);
  });

  it("does not depend on the order of rows, nor on which of them has the dimensions", () => {
    expect(grouped(...RAIL.toReversed())).toEqual([57, 226, 283]);
    const [first, second, third] = [rail(5, 5), rail(11, 4), rail(16, 1, { width: 0.4, length: 30 })];
    expect(grouped(first, second, third)).toEqual([283, 226, 57]);
  });

  it("takes typed numbers on all rows or on none", () => {
    expect(grouped(rail(5, 5, { balloons: 30 }), rail(11, 4, { balloons: 20 }))).toEqual([30, 20]);
    const [first] = grouped(rail(5, 5, { balloons: 30 }), rail(11, 4));
    expect(isWithheld(first) && first.sentence).toBe(
      "pieces row 3: balloons must be given on all rows of a mix or on none, found nothing",
    );
  });

  it("withholds every size where one row cannot be read or lacks its share", () => {
    const doubtful = grouped(
      rail(5, 5, { width: 0.4, length: 30 }),
      rail(11, 4, { doubt: "share must be a number" }),
    );
    expect(doubtful.map((count) => isWithheld(count) && count.sentence)).toEqual([
      "pieces row 3: share must be a number",
      "pieces row 3: share must be a number",
    ]);
    const blank = grouped(rail(5, 5, { width: 0.4, length: 30 }), { kind: "mix", printed: inches(11) });
    expect(blank.every(isWithheld)).toBe(true);
  });

  it("never takes fewer balloons for a longer or thicker body", () => {
    const size = fc.integer({ min: 3, max: 40 });
    fc.assert(
      fc.property(size, size, (length, decimetres) => {
        const total = (more: number, thicker: number): number =>
          grouped(
            rail(5, 5, { length: length + more, width: (decimetres + thicker) / 10 }),
            rail(11, 4),
          ).reduce<number>((sum, count) => sum + Number(count), 0);
        expect(total(1, 0)).toBeGreaterThanOrEqual(total(0, 0));
        expect(total(0, 1)).toBeGreaterThanOrEqual(total(0, 0));
      }),
      { numRuns: 30 },
    );
  });
});

describe("countingOf a covered ball", () => {
  const ball = { kind: "tied ball", printed: inches(12), inflated: inches(10), balloons: 12 } as const;

  it("knows the tied ball of the piece, which may stand below its cover", () => {
    const core = countingOf(linesOf({ kind: "cover" }, ball)).core();
    expect(core).toMatchObject({ balloons: 12, spacing: undefined });
    expect(core?.inflated).toBeCloseTo(inches(10), 12);
  });

  it("has none without one, or where it is parked", () => {
    expect(countingOf(linesOf({ kind: "cover" })).core()).toBeUndefined();
    expect(countingOf(linesOf({ kind: "cover" }, { ...ball, quantity: 0 })).core()).toBeUndefined();
  });

  it("cannot choose between two, or read a doubtful one", () => {
    expect(() => countingOf(linesOf(ball, ball, { kind: "cover" })).core()).toThrow(
      "pieces row 3: cover must have one tied ball in the same piece, give each ball with its cover a name, found 2",
    );
    expect(() => countingOf(linesOf({ ...ball, doubt: "balloons must be whole" })).core()).toThrow(
      "pieces row 2: balloons must be whole",
    );
  });
});

describe("eachOf and computedEach", () => {
  const column = (cells: Row<PieceCells>): readonly [number, number] => {
    const [line] = linesOf({ kind: "column", ...cells });
    if (line === undefined) throw new Error("no row");
    const part = { kind: "column", place: line.place, cells: line.cells, inflated: inches(9) } as const;
    return [eachOf(part, line, new Map()), computedEach(part)];
  };

  it("K1, K2: 48 typed win over the 44 that 1.8 m give (by hand: 11 clusters of 4)", () => {
    expect(column({ height: 1.8 })).toEqual([44, 44]);
    expect(column({ height: 1.8, balloons: 48 })).toEqual([48, 44]);
  });

  it("names the dimension that is missing", () => {
    expect(() => column({})).toThrow('pieces row 2: height must be given for kind "column", found nothing');
  });
});
