import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  pieceDemands,
  pooledNeeds,
  type PaletteRow,
  type NeededPiece,
} from "../../../src/core/palette/needs";
import { toSi } from "../../../src/core/units";

const inch = (value: number): number => toSi(value, "in");
const piece = (row: number, balloons: number, more: Partial<NeededPiece> = {}): NeededPiece => ({
  row,
  name: `piece ${row}`,
  kind: "column",
  quantity: 1,
  printed: inch(11),
  inflated: inch(9),
  balloons,
  palette: "Regatta",
  ...more,
});
const colour = (row: number, name: string, more: Partial<PaletteRow> = {}): PaletteRow => ({
  row,
  palette: "Regatta",
  colour: name,
  ...more,
});
const shares = [
  colour(2, "Navy", { share: 0.5 }),
  colour(3, "White", { share: 0.25 }),
  colour(4, "Coral", { share: 0.25 }),
];
const table = (
  pieces: readonly NeededPiece[],
  palettes: readonly PaletteRow[],
): readonly (readonly unknown[])[] =>
  pooledNeeds(pieceDemands(pieces, palettes)).map((need) => [need.colour, need.places, need.count]);

describe("pieceDemands", () => {
  it("splits a single piece and multiplies, so that equal pieces look alike", () => {
    // 41 splits as 21, 10, 10 (halves: the earlier colour); two of them are 42, 20, 20, not 41, 21, 20.
    expect(table([piece(2, 41, { quantity: 2 })], shares)).toEqual([
      ["Navy", 42, 42],
      ["White", 20, 20],
      ["Coral", 20, 20],
    ]);
  });

  it("takes whole patterns for clustered pieces and shares for the others", () => {
    const palette = [
      colour(2, "Navy", { share: 0.4, pattern: 2 }),
      colour(3, "White", { share: 0.6, pattern: 1 }),
      colour(4, "Coral", { share: 0, pattern: 1 }),
    ];
    expect(table([piece(2, 112, { clusters: 28 })], palette)).toEqual([
      ["Navy", 56, 56],
      ["White", 28, 28],
      ["Coral", 28, 28],
    ]);
    expect(table([piece(2, 100)], palette)).toEqual([
      ["Navy", 40, 40],
      ["White", 60, 60],
    ]);
  });

  it("repeats a short pattern within a cluster and says where it does not fit", () => {
    const palette = [colour(2, "Navy", { pattern: 1 }), colour(3, "White", { pattern: 1 })];
    expect(table([piece(2, 40, { clusters: 10 })], palette)).toEqual([
      ["Navy", 20, 20],
      ["White", 20, 20],
    ]);
    const [need] = pooledNeeds(pieceDemands([piece(2, 25, { clusters: 5 })], palette));
    expect(need).toMatchObject({
      count: 13,
      status: "a pattern of 2 does not fit clusters of 5, split by ratio",
    });
  });

  it("doubles the rubber of layered balloons, not their places", () => {
    const palette = [colour(2, "Blush", { share: 0.5, inside: "White" }), colour(3, "White", { share: 0.5 })];
    expect(table([piece(2, 40)], palette)).toEqual([
      ["Blush", 20, 20],
      ["White", 20, 40],
    ]);
  });

  it.each([
    [
      [piece(7, 10, { palette: "Regata" })],
      shares,
      'pieces row 7: palette must be one of the palettes, found "Regata"; did you mean "Regatta"',
    ],
    [
      [piece(7, 10, { palette: "Sunset" })],
      shares,
      'pieces row 7: palette must be one of the palettes, found "Sunset"',
    ],
    [[piece(2, 10)], [colour(5, "Navy")], "palettes row 5: share must be given, found nothing"],
    [[piece(2, 10)], [...shares, colour(5, "Gold")], "palettes row 5: share must be given, found nothing"],
    [
      [piece(2, 10)],
      [colour(4, "Navy", { pattern: 1 }), colour(5, "Gold")],
      "palettes row 5: pattern must be given, found nothing",
    ],
    [
      [piece(2, 10)],
      [...shares, colour(5, "Gold", { share: 0.1 })],
      'palettes "Regatta": share must add up to 100%, found 110%',
    ],
    [
      [piece(2, 10)],
      [colour(5, "Gold", { share: 0 })],
      "palettes must hold at least one number above 0, found none",
    ],
    [[piece(2, 1e9, { quantity: 1e9 })], shares, "pieces need too many balloons"],
  ])("refuses row %#", (pieces, palettes, sentence) => {
    expect(() => pieceDemands(pieces, palettes)).toThrow(sentence);
  });
});

describe("pooledNeeds", () => {
  it("pools over pieces and spellings before it adds spares", () => {
    const palette = [
      colour(2, "Navy", { share: 1 }),
      { row: 3, palette: "Stage", colour: " NAVY\u00a0", share: 1 },
    ];
    const pieces = [piece(2, 60), piece(3, 40, { palette: "stage " })];
    const needs = pooledNeeds(pieceDemands(pieces, palette), { breakage: 0.03, confidence: 0.95 });
    // 100 at 3 % needs 106: negative binomial, statistics libraries agree. 60 and 40 apart would need 64 + 43.
    expect(needs).toEqual([
      {
        printed: inch(11),
        inflated: inch(9),
        colour: "Navy",
        places: 100,
        count: 100,
        withSpares: 106,
        status: "ok",
      },
    ]);
  });

  it("keeps inflated sizes apart but pools their spares", () => {
    const pieces = [piece(2, 60), piece(3, 40, { inflated: inch(10) })];
    const needs = pooledNeeds(pieceDemands(pieces, [colour(2, "Navy", { share: 1 })]), {
      breakage: 0.03,
      confidence: 0.95,
    });
    // 106 shared as 60 to 40: 63.6 and 42.4.
    expect(needs.map((need) => [need.inflated, need.count, need.withSpares])).toEqual([
      [inch(9), 60, 64],
      [inch(10), 40, 42],
    ]);
  });

  it("lists by printed and then by inflated size, and by first use where both are alike", () => {
    const sizes = [
      [16, 14],
      [11, 10],
      [5, 5],
      [11, 9],
    ] as const;
    const pieces = sizes.map(([printed, inflated], index) =>
      piece(index + 2, 4, { printed: inch(printed), inflated: inch(inflated) }),
    );
    const palette = [colour(2, "Navy", { share: 1 }), colour(3, "Gold", { share: 1 })];
    const needs = pooledNeeds(pieceDemands(pieces, palette));
    expect(needs.map((need) => [need.printed, need.inflated, need.colour])).toEqual(
      [
        [5, 5],
        [11, 9],
        [11, 10],
        [16, 14],
      ].flatMap(([printed = 0, inflated = 0]) =>
        ["Navy", "Gold"].map((name) => [inch(printed), inch(inflated), name]),
      ),
    );
  });

  it("says nothing where a balloon is inflated to its printed size", () => {
    const needs = pooledNeeds(
      pieceDemands([piece(2, 10, { inflated: inch(11) })], [colour(2, " Navy ", { share: 1 })]),
    );
    expect(needs.map((need) => [need.colour, need.status])).toEqual([["Navy", "ok"]]);
  });

  it("stops where pieces and colours together would take minutes", () => {
    const pieces = Array.from({ length: 400 }, (_, index) => piece(index + 2, 1));
    const colours = (count: number): readonly PaletteRow[] =>
      Array.from({ length: count }, (_, index) => colour(index + 2, `colour ${index}`, { share: 1 }));
    expect(pieceDemands(pieces, colours(500))).toHaveLength(400);
    expect(() => pieceDemands(pieces, colours(501))).toThrow(
      "pieces must take at most 200000 colours in all, found more",
    );
  });

  it("names look-alikes and sizes above the print, merging nothing", () => {
    const palette = [colour(2, "Coral", { share: 0.5 }), colour(3, "Corla", { share: 0.5 })];
    const needs = pooledNeeds(pieceDemands([piece(2, 10, { inflated: inch(12) })], palette));
    expect(needs.map((need) => need.status)).toEqual([
      'inflated above its printed size; looks like "Corla"',
      'inflated above its printed size; looks like "Coral"',
    ]);
  });

  it("loses no balloon", () => {
    const rows = fc.array(
      fc.record({ balloons: fc.nat(500), quantity: fc.nat(5), printed: fc.constantFrom(5, 11, 16) }),
      {
        minLength: 1,
        maxLength: 8,
      },
    );
    fc.assert(
      fc.property(rows, (list) => {
        const pieces = list.map((item, i) =>
          piece(i + 2, item.balloons, { quantity: item.quantity, printed: inch(item.printed) }),
        );
        const needs = pooledNeeds(pieceDemands(pieces, shares), { breakage: 0.03, confidence: 0.95 });
        const total = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
        expect(total(needs.map((need) => need.count))).toBe(
          total(list.map((item) => item.balloons * item.quantity)),
        );
        for (const need of needs) expect(need.withSpares).toBeGreaterThanOrEqual(need.count);
      }),
    );
  });
});
