import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { columnCount } from "../../../src/core/geometry/clusters";
import { PIECE_KINDS } from "../../../src/core/event/cells";
import { countPieces, dimensionsOf, type PieceRow } from "../../../src/core/palette/piece-count";
import { toSi } from "../../../src/core/units";

const inches = (value: number): number => toSi(value, "in");
const feet = (value: number): number => toSi(value, "ft");

const piece = (given: Partial<PieceRow>): PieceRow => ({
  row: 2,
  name: "Piece",
  kind: "count",
  quantity: 1,
  printed: inches(11),
  palette: "Regatta",
  ...given,
});

const balloonsOf = (given: Partial<PieceRow>): number | undefined => countPieces([piece(given)])[0]?.balloons;

describe("countPieces", () => {
  // Common practice, no source: the counts that decorators know by heart for these pieces.
  it.each<[string, Partial<PieceRow>, number]>([
    ["a 6 ft column of 9 in quads", { kind: "column", height: feet(6) }, 48],
    ["an arch 5 x 2.8 m of 9 in quads", { kind: "arch", width: 5, height: 2.8 }, 220],
    ["10 ft of 9 in quads", { kind: "garland", length: feet(10) }, 80],
    ["an 8 x 8 ft wall of 9 in", { kind: "wall", width: feet(8), height: feet(8) }, 169],
    ["a piece whose count is known", { kind: "count", balloons: 45 }, 45],
  ])("counts %s", (_, given, balloons) => {
    expect(balloonsOf(given)).toBe(balloons);
  });

  it("puts about one 11 in balloon on each square foot of a ceiling", () => {
    // Common practice, no source: one to the square foot; 20 x 30 ft.
    const balloons = balloonsOf({ kind: "ceiling", length: feet(30), width: feet(20) }) ?? 0;
    expect(balloons).toBeGreaterThan(570);
    expect(balloons).toBeLessThan(630);
  });

  it("sizes balloons by their use where no inflated size is given", () => {
    // Common practice, no source: 11 in is sized to 9 in in clusters and to 11 in with helium.
    const [column] = countPieces([piece({ kind: "column", height: 2 })]);
    const [ceiling] = countPieces([piece({ kind: "ceiling", length: 5, width: 4 })]);
    expect(column?.inflated).toBeCloseTo(inches(9), 12);
    expect(ceiling?.inflated).toBeCloseTo(inches(11), 12);
    expect(ceiling?.gas).toBe("helium");
  });

  it("shares one mix over the rows of its name and rigs it once", () => {
    const rows = [
      piece({
        row: 2,
        name: "Bar garland",
        kind: "mix",
        length: 3,
        width: 0.55,
        printed: inches(5),
        share: 5,
      }),
      piece({ row: 3, name: "bar  garland", kind: "mix", printed: inches(11), share: 4 }),
      piece({ row: 4, name: "Bar garland", kind: "mix", printed: inches(16), share: 1 }),
    ];
    const counted = countPieces(rows);
    const total = counted.reduce((all, row) => all + row.balloons, 0);
    // Common practice, no source: 10 to 12 balloons to the foot at this thickness, give or take the mix.
    expect(total / (3 / 0.3048)).toBeGreaterThan(7);
    expect(total / (3 / 0.3048)).toBeLessThan(14);
    expect(counted.map((row) => row.isFirst)).toEqual([true, false, false]);
    expect((counted[0]?.balloons ?? 0) / total).toBeCloseTo(0.5, 1);
  });

  it.each(PIECE_KINDS)("names the row and the dimension that a %s lacks", (kind) => {
    const [needed = ""] = dimensionsOf(kind);
    expect(() => countPieces([piece({ row: 7, kind })])).toThrow(
      `pieces row 7: ${needed} must be given for kind "${kind}", found nothing`,
    );
  });

  it("names the row where a dimension is 0", () => {
    expect(() => countPieces([piece({ row: 4, kind: "wall", width: 0, height: 2 })])).toThrow(
      'pieces row 4: width must be above 0 m for kind "wall", found 0',
    );
    expect(balloonsOf({ kind: "count", balloons: 0 })).toBe(0);
  });

  it("builds a piece that is filled with helium as one, unless its style is given", () => {
    const styles = [
      piece({ row: 2, kind: "strand", length: 3, gas: "helium" }),
      piece({ row: 3, kind: "strand", length: 3, gas: "helium", style: "clusters" }),
    ];
    expect(countPieces(styles).map((row) => [row.gas, row.style])).toEqual([
      ["helium", "helium"],
      ["helium", "clusters"],
    ]);
    const [air] = countPieces([piece({ row: 2, kind: "strand", length: 3 })]);
    expect(air?.gas).toBe("air");
    expect(air?.style).not.toBe("helium");
  });

  it("adds the row to what the geometry refuses", () => {
    expect(() => countPieces([piece({ row: 5, kind: "net", length: 0.1, width: 0.1 })])).toThrow(
      /^pieces row 5: balloon must/,
    );
  });

  it("counts as the function of the kind does", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 8, noNaN: true }),
        fc.integer({ min: 5, max: 24 }),
        (height, size) => {
          expect(balloonsOf({ kind: "column", height, inflated: inches(size) })).toBe(
            columnCount(height, inches(size)),
          );
        },
      ),
    );
  });
});
