import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coloursOf, palettesOf, type PartColours } from "../../../src/core/event/colours";
import type { PaletteCells, PieceCells } from "../../../src/core/event/cells";
import { isWithheld } from "../../../src/core/withheld";
import { jobOf, type Row } from "./job-builder";
import { partOfRow } from "./planned";
import { STAND_BOUQUET } from "./sample-jobs";

const split = (piece: Row<PieceCells>, palettes?: readonly Row<PaletteCells>[]): PartColours => {
  const part = partOfRow({ kind: "count", ...piece });
  const { colour, ...cells } = part.cells;
  const own =
    piece.palette !== undefined && piece.colour === undefined ? cells : { ...cells, colour: colour ?? "" };
  return coloursOf({ ...part, cells: own }, palettesOf(jobOf(palettes === undefined ? {} : { palettes })));
};
const counts = ({ colours }: PartColours): readonly (readonly [string, number, number])[] =>
  colours.map(({ colour, places, count }) => [colour, places, count]);
const sentences = ({ problems }: PartColours): readonly string[] =>
  problems.map(({ weight, what }) => `${weight}: ${what}`);

const DOOR: readonly Row<PaletteCells>[] = [
  { palette: "Door", colour: "Navy", pattern: 2 },
  { palette: "Door", colour: "White", pattern: 2 },
];

describe("coloursOf", () => {
  it("K12: splits a cover of 45 by 30, 30, 25, 15 into 14, 13, 11, 7 (by hand: largest remainders)", () => {
    const outer = split({ balloons: 45, palette: "Outer" }, STAND_BOUQUET.palettes);
    expect(counts(outer).map(([, places]) => places)).toEqual([14, 13, 11, 7]);
  });

  it("gives a single colour all balloons, without its outer spaces", () => {
    expect(counts(split({ balloons: 12, colour: " Gold " }))).toEqual([["Gold", 12, 12]]);
  });

  it("repeats a whole pattern in every cluster (by hand: 11 clusters of 2 + 2)", () => {
    expect(counts(split({ kind: "column", height: 1.8, palette: "Door" }, DOOR))).toEqual([
      ["Navy", 22, 22],
      ["White", 22, 22],
    ]);
  });

  it("takes the pattern in clusters and the shares elsewhere, where a palette has both (by hand)", () => {
    const both = DOOR.map((row, index) => ({ ...row, share: index === 0 ? 70 : 30 }));
    const places = (piece: Row<PieceCells>): readonly unknown[] =>
      counts(split({ ...piece, palette: "Door" }, both)).map(([, seen]) => seen);
    expect(places({ kind: "column", height: 1.8 })).toEqual([22, 22]);
    expect(places({ kind: "mix", balloons: 44, share: 1 })).toEqual([31, 13]);
  });

  it("splits by the ratio of the pattern, with a check, where clusters are not whole", () => {
    const odd = split({ kind: "column", balloons: 46, palette: "Door" }, DOOR);
    expect(counts(odd).map(([, places]) => places)).toEqual([23, 23]);
    expect(sentences(odd)).toEqual(["check: pieces row 2: a pattern needs whole clusters, split by ratio"]);
  });

  it("takes a second balloon inside once more, without a place of its own", () => {
    const palettes = [{ palette: "Glow", colour: "Clear", share: 1, inside: "Gold" }];
    const layered = split({ balloons: 10, palette: "Glow" }, palettes);
    expect(counts(layered)).toEqual([
      ["Clear", 10, 10],
      ["Gold", 0, 10],
    ]);
    expect(layered.inner).toBe(10);
  });

  it("has places that add up to the balloons, whatever the shares", () => {
    const shares = fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 2000 }), shares, (balloons, weights) => {
        const palettes = weights.map((share, index) => ({
          palette: "Mix",
          colour: `Colour ${index}`,
          share,
        }));
        const total = weights.reduce((sum, share) => sum + share, 0);
        const found = split({ balloons, palette: "Mix" }, palettes);
        // Shares that nearly make 100 are percents with a slip, and refused.
        if (found.problems.length > 0) return;
        const places = new Map(found.colours.map(({ colour, places: seen }) => [colour, seen]));
        expect([...places.values()].reduce((sum, one) => sum + one, 0)).toBe(balloons);
        weights.forEach((share, index) => {
          const due = (balloons * share) / total;
          expect(Math.abs((places.get(`Colour ${index}`) ?? 0) - due)).toBeLessThan(1 + 1e-9);
        });
      }),
      { numRuns: 60 },
    );
  });

  it("says nothing of a parked row", () => {
    expect(split({ balloons: 10, quantity: 0, palette: "Nowhere" }, DOOR)).toMatchObject({
      colours: [],
      inner: 0,
      problems: [],
    });
  });

  it("names a palette that is not there, with the one it looks like", () => {
    const slip = split({ balloons: 10, palette: "Dooor" }, DOOR);
    expect(sentences(slip)).toEqual([
      'stop: pieces row 2: palette must be one of the palettes, found "Dooor"; did you mean "Door"',
    ]);
    expect(slip.colours).toEqual([]);
    expect(isWithheld(slip.inner)).toBe(true);
  });

  it("knows no second balloon where no palettes are given: nothing can be layered then", () => {
    expect(split({ balloons: 10, palette: "Door" }).inner).toBe(0);
  });

  it("refuses a row with a palette and a colour, and one with neither", () => {
    expect(sentences(split({ balloons: 10, palette: "Door", colour: "Gold" }, DOOR))).toEqual([
      "stop: pieces row 2: palette and colour must not both be given",
    ]);
    const part = partOfRow({ kind: "count", balloons: 10 });
    const neither = { ...part, cells: { balloons: 10 } };
    expect(sentences(coloursOf(neither, palettesOf(jobOf({}))))).toEqual([
      "stop: pieces row 2: palette must be given, or colour, found nothing",
    ]);
  });

  it("leaves a missing count to the part itself", () => {
    expect(sentences(split({ kind: "column", palette: "Door" }, DOOR))).toEqual([]);
  });
});

describe("palettesOf", () => {
  it("finds a palette by any spelling of its name", () => {
    expect(palettesOf(jobOf({ palettes: DOOR })).find(" DOOR ", "pieces row 2").rows.length).toBe(2);
  });

  it("stops only the palette that has a doubtful row", () => {
    const palettes = palettesOf(
      jobOf({
        palettes: [
          ...DOOR,
          { palette: "Rail", colour: "Sky", doubt: "share must be a number" },
          { palette: "Rail", colour: "White", share: 1 },
        ],
      }),
    );
    expect(() => palettes.find("Rail", "pieces row 2")).toThrow("palettes row 4: share must be a number");
    expect(palettes.find("Door", "pieces row 2").pattern).toEqual([2, 2]);
  });

  it("stops every palette at a colour whose own palette is blank: it may be missing from any of them", () => {
    const find = (nameless: Row<PaletteCells>): unknown =>
      palettesOf(jobOf({ palettes: [...DOOR, nameless] })).find("Door", "pieces row 2");
    expect(() => find({ colour: "Gold", pattern: 1 })).toThrow(
      "palettes row 4: palette must be given, found nothing",
    );
    expect(() => find({ colour: "Gold", doubt: "palette must be text" })).toThrow(
      "palettes row 4: palette must be text",
    );
  });

  it("knows whether palettes were given at all", () => {
    expect(palettesOf(jobOf({})).isGiven).toBe(false);
    expect(palettesOf(jobOf({ palettes: [] })).isGiven).toBe(true);
  });
});
