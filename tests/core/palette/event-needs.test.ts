import { describe, expect, it } from "vitest";
import { countedPieces, eventNeeds, type EventNeeds } from "../../../src/core/palette/event-needs";
import type { PaletteRow } from "../../../src/core/palette/needs";
import type { PieceRow } from "../../../src/core/palette/piece-count";
import type { Doubtful } from "../../../src/core/stock/doubtful";
import { toSi } from "../../../src/core/units";

function rows<Row extends { readonly row: number }>(
  table: string,
  usual: Partial<Row>,
  cells: readonly (Partial<Row> & { readonly doubt?: string })[],
): readonly Doubtful<Row>[] {
  return cells.map(({ doubt, ...given }, index) => {
    const row = index + 2;
    const read = { ...usual, ...given, row } as unknown as Row;
    return {
      row,
      place: `${table} row ${row}`,
      cells: read,
      doubts: doubt === undefined ? [] : [`${table} row ${row}: ${doubt}`],
      value: doubt === undefined ? read : undefined,
    };
  });
}
type Given<Row> = readonly (Partial<Row> & { readonly doubt?: string })[];
const piecesOf = (...cells: Given<PieceRow>): readonly Doubtful<PieceRow>[] =>
  rows<PieceRow>(
    "pieces",
    { name: "Arch", kind: "count", quantity: 1, printed: toSi(11, "in"), palette: "Door" },
    cells,
  );
const DOOR: Given<PaletteRow> = [
  { palette: "Door", colour: "Navy", pattern: 2 },
  { palette: "Door", colour: "White", pattern: 2 },
];
const needs = (pieces: Given<PieceRow>, palettes: Given<PaletteRow> = DOOR): EventNeeds =>
  eventNeeds(piecesOf(...pieces), rows<PaletteRow>("palettes", {}, palettes));
const taken = ({ demands }: EventNeeds): readonly (readonly unknown[])[] =>
  demands.map(({ row, colour, count }) => [row, colour, count]);
const column = { kind: "column", height: 1.8 } as const;

describe("countedPieces", () => {
  it("K2: counts 44 balloons of a column of 1.8 m, and names a row that lacks its height", () => {
    const { counted, uncounted } = countedPieces(piecesOf(column, { kind: "column" }));
    expect(counted.map(({ row, balloons }) => [row, balloons])).toEqual([[2, 44]]);
    expect(uncounted).toEqual([
      { row: 3, kind: "column", what: 'pieces row 3: height must be given for kind "column", found nothing' },
    ]);
  });

  it("stops every size of a mix where one row of it cannot be read", () => {
    const mix = { kind: "mix", width: 0.4, length: 3, share: 1 } as const;
    const { counted, uncounted } = countedPieces(
      piecesOf(mix, { ...mix, doubt: "share must be a number" }, { ...mix, name: "Rail" }),
    );
    expect(counted.map(({ row }) => row)).toEqual([4]);
    expect(uncounted.map(({ row, what }) => [row, what]).toSorted()).toEqual([
      [2, "pieces row 3: share must be a number"],
      [3, "pieces row 3: share must be a number"],
    ]);
  });
});

describe("eventNeeds", () => {
  it("splits every piece into its colours (by hand: 11 clusters of 2 + 2, twice)", () => {
    expect(taken(needs([{ ...column, quantity: 2 }]))).toEqual([
      [2, "Navy", 44],
      [2, "White", 44],
    ]);
  });

  it("loses no other row to one that cannot be read or counted, and names each once", () => {
    const found = needs([
      { balloons: 8 },
      { kind: "wall", doubt: "width must be a length" },
      { kind: "column" },
      { balloons: 4 },
    ]);
    expect(new Set(found.demands.map(({ row }) => row))).toEqual(new Set([2, 5]));
    expect([...found.stops.keys()].toSorted()).toEqual([3, 4]);
    expect(found.problems.map(({ weight, row, reach }) => [weight, row, reach.of])).toEqual([
      ["stop", 3, "job"],
      ["stop", 4, "job"],
    ]);
  });

  it("stops only the pieces of a palette that has a doubtful row", () => {
    const found = needs(
      [{ balloons: 8 }, { balloons: 8, palette: "Rail" }],
      [...DOOR, { palette: "Rail", colour: "Sky", doubt: "share must be a number" }],
    );
    expect(new Set(found.demands.map(({ row }) => row))).toEqual(new Set([2]));
    expect([...found.stops]).toEqual([[3, "palettes row 4: share must be a number"]]);
  });

  it("stops every piece at a colour whose palette cannot be read: it may be missing from any", () => {
    const found = needs(
      [{ balloons: 8 }],
      [...DOOR, { colour: "Gold", pattern: 1, doubt: "palette must be given" }],
    );
    expect(found.demands).toEqual([]);
    expect([...found.stops]).toEqual([[2, "palettes row 4: palette must be given"]]);
  });

  it("names a palette that is not there", () => {
    const found = needs([{ balloons: 8, palette: "Dor" }, { balloons: 8 }]);
    expect([...found.stops]).toEqual([
      [2, 'pieces row 2: palette must be one of the palettes, found "Dor"; did you mean "Door"'],
    ]);
    expect(new Set(found.demands.map(({ row }) => row))).toEqual(new Set([3]));
  });

  it("takes nothing of what is parked, and has nothing to say about an empty event", () => {
    expect(taken(needs([{ balloons: 8, quantity: 0 }]))).toEqual([]);
    expect(needs([])).toMatchObject({ counted: [], demands: [], problems: [] });
  });
});
