import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { PART_KINDS, type PieceCells } from "../../../src/core/event/cells";
import type { Part, Piece } from "../../../src/core/event/part";
import { pieceOf, sizeText } from "../../../src/core/event/parts";
import { pieceRowsOf } from "../../../src/core/event/piece-rows";
import { chosenScenario, jobScope } from "../../../src/core/event/scope";
import { workTable } from "../../../src/core/event/work-table";
import { isWithheld } from "../../../src/core/withheld";
import { feet, inches, jobOf, known, type Row, type Tables } from "./job-builder";

/** One piece of these rows, 11 in where they do not say. */
function piece(rows: readonly Row<PieceCells>[], more: Tables = {}): Piece {
  const pieces = rows.map((row) => ({ name: "Piece", printed: inches(11), ...row }));
  const job = jobOf({ ...more, pieces });
  const scope = jobScope(job);
  const [first] = pieceRowsOf(scope, chosenScenario(scope));
  if (first === undefined) throw new Error("no piece");
  return pieceOf(first, workTable(job));
}
function part(row: Row<PieceCells>, more: Tables = {}): Part {
  const [first] = piece([row], more).parts;
  if (first === undefined) throw new Error("no part");
  return first;
}
const sentences = ({ problems }: Pick<Piece, "problems">): readonly string[] =>
  problems.map(({ weight, what }) => `${weight}: ${what}`);

const STAND: readonly Row<PieceCells>[] = [
  { kind: "sleeve", printed: inches(60), height: feet(6) },
  { kind: "tied ball", printed: inches(12), inflated: inches(10), balloons: 12 },
  { kind: "cover", printed: inches(12), inflated: inches(11) },
  { kind: "collar", printed: inches(5), inflated: inches(4), balloons: 18 },
];

describe("pieceOf counts", () => {
  it("K1: 48 typed on a column of 1.8 m, with a check that its height gives 44", () => {
    const typed = piece([{ kind: "column", height: 1.8, balloons: 48 }]);
    expect(typed.parts[0]).toMatchObject({ each: 48, clusters: 12 });
    expect(sentences(typed)).toEqual(["check: pieces row 2: 48 balloons as typed, 1.8 m gives 44"]);
  });

  it("K3, K11: the stand bouquet as 1, 12, 45 and 18, its ball 1.109 m across, in any order of rows", () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([...STAND], { minLength: 4 }), (rows) => {
        const found = piece(rows).parts;
        const each = Object.fromEntries(found.map(({ kind, each: one }) => [kind, one]));
        expect(each).toEqual({ sleeve: 1, "tied ball": 12, cover: 45, collar: 18 });
        expect(found.find(({ kind }) => kind === "cover")?.finished).toBeCloseTo(1.109, 3);
      }),
      { numRuns: 12 },
    );
  });

  it("honours a typed number on every kind, and takes it as often as the piece is built", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...PART_KINDS),
        fc.integer({ min: 0, max: 500 }),
        fc.integer({ min: 1, max: 50 }),
        (kind, balloons, quantity) => {
          const one = part({ kind, balloons, quantity });
          expect([one.each, one.balloons]).toEqual([balloons, balloons * quantity]);
        },
      ),
    );
  });

  it("Z9: parks a row with quantity none, and nothing of it is wrong", () => {
    const parked = piece([{ kind: "column", quantity: 0 }]);
    expect(parked.parts[0]?.balloons).toBe(0);
    expect(sentences(parked)).toEqual([]);
  });

  it("K10: builds a piece as often as any row of it says", () => {
    const bouquets = piece([
      { kind: "bouquet", quantity: 40, balloons: 5 },
      { kind: "foil", printed: inches(18), balloons: 1 },
    ]);
    expect(bouquets.quantity).toBe(40);
    expect(bouquets.parts.map(({ balloons }) => balloons)).toEqual([200, 40]);
  });

  it("checks rows of one piece that are built unequally often", () => {
    const uneven = piece([
      { kind: "count", quantity: 2, balloons: 5 },
      { kind: "count", quantity: 3, balloons: 5 },
    ]);
    expect(uneven.quantity).toBe(3);
    expect(sentences(uneven)).toEqual([
      "check: pieces row 2: rows of this piece are built 2 and 3 times, it is rigged and priced 3 times",
    ]);
  });
});

describe("pieceOf reads what a kind is by itself", () => {
  it.each([
    [{ kind: "column" }, "latex", "air", "clusters"],
    [{ kind: "wall" }, "latex", "air", "wall"],
    [{ kind: "sleeve" }, "long", "air", "sleeve"],
    [{ kind: "foil" }, "foil", "helium", "helium"],
    [{ kind: "bouquet" }, "latex", "helium", "helium"],
    [{ kind: "count", gas: "helium" }, "latex", "helium", "helium"],
    [{ kind: "ceiling" }, "latex", "helium", "ceiling"],
    [{ kind: "foil", gas: "air" }, "foil", "air", "helium"],
  ] as const)("%o is %s, %s, %s", (row, type, gas, style) => {
    expect(part(row)).toMatchObject({ type, gas, style });
  });

  it("takes breakage of 3 % in, 10 % out, 2 % for foil, or as typed (common practice)", () => {
    const breakage = (row: Row<PieceCells>): unknown => part({ kind: "count", balloons: 1, ...row }).breakage;
    expect(breakage({})).toBe(0.03);
    expect(breakage({ where: "outdoors" })).toBe(0.1);
    expect(breakage({ kind: "foil", where: "outdoors" })).toBe(0.02);
    expect(breakage({ where: "outdoors", breakage: 0 })).toBe(0);
  });

  it("builds on site and travels flat; built in the shop it travels built, unless typed", () => {
    expect(part({ kind: "column" })).toMatchObject({ where: "indoors", built: "site", carried: "empty" });
    expect(part({ kind: "column", built: "shop" }).carried).toBe("built");
    expect(part({ kind: "column", built: "shop", carried: "bagged" }).carried).toBe("bagged");
    const work = [{ task: "column", where: "shop" as const }];
    expect(part({ kind: "column" }, { work }).built).toBe("shop");
    expect(part({ kind: "column", built: "site" }, { work }).built).toBe("site");
  });
});

describe("pieceOf withholds", () => {
  it("every number of a doubtful row and none of the others, with all its sentences", () => {
    const { parts, problems } = piece([
      { kind: "column", height: 2, doubt: "height must be a number, found two" },
      { kind: "count", balloons: 5 },
    ]);
    const [doubtful, whole] = parts;
    expect(
      [doubtful?.quantity, doubtful?.each, doubtful?.balloons, doubtful?.inflated].every(isWithheld),
    ).toBe(true);
    expect(doubtful?.unread).toBe("pieces row 2: height must be a number, found two");
    expect(whole?.balloons).toBe(5);
    expect(sentences({ problems })).toEqual(["stop: pieces row 2: height must be a number, found two"]);
  });

  it("a count that its dimensions do not give", () => {
    const wall = piece([{ kind: "wall", width: 4 }]);
    expect(isWithheld(wall.parts[0]?.each)).toBe(true);
    expect(sentences(wall)).toEqual([
      'stop: pieces row 2: height must be given for kind "wall", found nothing',
    ]);
  });

  it("a cover without its ball", () => {
    expect(sentences(piece([{ kind: "cover" }]))).toEqual([
      "stop: pieces row 2: cover must have a tied ball in the same piece, or balloons",
    ]);
  });
});

describe("pieceOf checks", () => {
  it("a size above what is printed, but not of foil", () => {
    expect(sentences(piece([{ kind: "count", balloons: 5, inflated: inches(12) }]))).toEqual([
      "check: pieces row 2: inflated above its printed size",
    ]);
    expect(sentences(piece([{ kind: "count", balloons: 5, inflated: inches(11) }]))).toEqual([]);
  });

  it("a typed number that makes no whole clusters", () => {
    const odd = piece([{ kind: "column", balloons: 46 }]);
    expect(sentences(odd)).toEqual(["check: pieces row 2: 46 balloons are no whole clusters of 4"]);
    expect(known(odd.parts[0]?.clusters)).toBe(11.5);
  });
});

it("sizeText says a size as the trade does", () => {
  expect(sizeText({ printed: inches(11) })).toBe("11 in");
  expect(sizeText({ code: 260 })).toBe("260");
  expect(sizeText({})).toBe("");
});
