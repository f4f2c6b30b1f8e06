import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PieceCells, WorkCells } from "../../../src/core/event/cells";
import {
  buildingWork,
  leadingPart,
  riggingOfOne,
  riggingWork,
  secondValues,
  strikeWork,
  usualBalloonTime,
} from "../../../src/core/event/part-work";
import { workTable, type WorkTable } from "../../../src/core/event/work-table";
import { feet, inches, jobOf, minutes, type Row } from "./job-builder";
import { partOfRow, pieceOfRows, termsOf } from "./planned";

const MINUTE = 60;
const tableOf = (...work: readonly Row<WorkCells>[]): WorkTable => workTable(jobOf({ work }));
const NOTHING = tableOf();
const rigging = (rows: readonly Row<PieceCells>[], work = NOTHING): number =>
  riggingOfOne(pieceOfRows(rows), work) / MINUTE;
const STAND: readonly Row<PieceCells>[] = [
  { kind: "sleeve", printed: inches(60), height: feet(6) },
  { kind: "tied ball", printed: inches(12), inflated: inches(10), balloons: 12 },
  { kind: "cover", printed: inches(12), inflated: inches(11) },
  { kind: "collar", printed: inches(5), inflated: inches(4), balloons: 18 },
];

it.each([
  // Minutes per balloon, common practice, no source.
  ["clusters", 0.5],
  ["free-form", 1],
  ["helium", 1.2],
  ["ceiling", 0.6],
  ["net", 0.4],
  ["wall", 0.75],
  ["sleeve", 3],
] as const)("one balloon of style %s takes %s minutes", (style, expected) => {
  expect(usualBalloonTime(style) / MINUTE).toBeCloseTo(expected, 9);
});

describe("buildingWork", () => {
  it("W1: makes 40 table bouquets of 5 in 240 minutes (by hand: 200 x 1.2)", () => {
    const part = partOfRow({ kind: "bouquet", quantity: 40, balloons: 5 });
    expect(buildingWork(part, 0, termsOf(), NOTHING) / MINUTE).toBeCloseTo(240, 9);
  });

  it("W3: builds the stand bouquet in 3 + 6 + 45 + 18 minutes", () => {
    const built = pieceOfRows(STAND).parts.map((part) => buildingWork(part, 0, termsOf(), NOTHING) / MINUTE);
    [3, 6, 45, 18].forEach((expected, place) => {
      expect(built[place]).toBeCloseTo(expected, 9);
    });
  });

  it("stuffs a second balloon in half a minute, whatever the pace (common practice)", () => {
    const part = partOfRow({ kind: "count", balloons: 10, quantity: 3 });
    const layered = (pace: number): number =>
      (buildingWork(part, 10, termsOf({ pace }), NOTHING) -
        buildingWork(part, 0, termsOf({ pace }), NOTHING)) /
      MINUTE;
    expect(layered(1)).toBeCloseTo(3 * 10 * 0.5, 9);
    expect(layered(2)).toBeCloseTo(15, 9);
  });

  it("goes by the decorator's own minutes: name over kind, kind over style", () => {
    const part = partOfRow({ kind: "column", balloons: 40 });
    const own = (...work: readonly Row<WorkCells>[]): number =>
      buildingWork(part, 0, termsOf(), tableOf(...work)) / MINUTE;
    const style = { task: "clusters", "minutes per balloon": minutes(1) };
    const kind = { task: "column", "minutes per balloon": minutes(2) };
    const name = { task: "Piece", "minutes per balloon": minutes(3) };
    expect(own(style)).toBeCloseTo(40, 9);
    expect(own(style, kind)).toBeCloseTo(80, 9);
    expect(own(name, kind, style)).toBeCloseTo(120, 9);
  });

  it("takes half the time at twice the pace, and never less for more balloons", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), fc.integer({ min: 1, max: 30 }), (balloons, tenths) => {
        const time = (count: number, pace: number): number =>
          buildingWork(partOfRow({ kind: "count", balloons: count }), 0, termsOf({ pace }), NOTHING);
        const pace = tenths / 10;
        expect(time(balloons, 2 * pace)).toBeCloseTo(time(balloons, pace) / 2, 6);
        expect(time(balloons + 1, pace)).toBeGreaterThan(time(balloons, pace));
      }),
      { numRuns: 30 },
    );
  });

  it("refuses a pace of 0", () => {
    const part = partOfRow({ kind: "count", balloons: 10 });
    expect(() => buildingWork(part, 0, termsOf({ pace: 0 }), NOTHING)).toThrow(
      "pace must be above 0, found 0",
    );
  });
});

describe("strikeWork", () => {
  it("W7: strikes 1,244 balloons in 2.488 h (by hand: x 0.12 min, common practice)", () => {
    const part = partOfRow({ kind: "count", balloons: 311, quantity: 4 });
    expect(strikeWork(part, NOTHING) / 3600).toBeCloseTo(2.488, 9);
    const own = tableOf({ task: "strike", "minutes per balloon": minutes(0.5) });
    expect(strikeWork(part, own) / MINUTE).toBeCloseTo(622, 9);
  });
});

describe("riggingOfOne", () => {
  it.each([
    // Minutes by kind, common practice, no source.
    ["a column", { kind: "column", height: 2 }, 20],
    ["an arch", { kind: "arch", width: 3, height: 2.4 }, 45],
    ["a garland of 30 m", { kind: "garland", length: 30 }, 30],
    ["a garland of 40 m, a minute more for each metre above 30", { kind: "garland", length: 40 }, 40],
    ["a strand", { kind: "strand", length: 40 }, 10],
    ["a wall", { kind: "wall", width: 4, height: 2.4 }, 45],
    ["a ceiling", { kind: "ceiling", width: 4, length: 4 }, 15],
    ["a net", { kind: "net", width: 1, length: 4 }, 45],
    ["a foil", { kind: "foil", printed: inches(18) }, 1],
    ["a bouquet", { kind: "bouquet", balloons: 5 }, 1.5],
    ["20 counted balloons", { kind: "count", balloons: 20 }, 2],
    ["21 counted balloons", { kind: "count", balloons: 21 }, 10],
    ["60 counted balloons", { kind: "count", balloons: 60 }, 10],
    ["61 counted balloons", { kind: "count", balloons: 61 }, 30],
    ["counted helium, however many", { kind: "count", balloons: 200, gas: "helium" }, 1.5],
    ["a tied ball by itself, as a count", { kind: "tied ball", balloons: 12 }, 2],
  ] as const)("rigs %s", (_, row, expected) => {
    expect(rigging([row])).toBeCloseTo(expected, 9);
  });

  it("W3: charges the stand bouquet once, the largest of 5, 10, 20 and 5, in any order of rows", () => {
    expect(rigging(STAND)).toBeCloseTo(20, 9);
    expect(rigging(STAND.toReversed())).toBeCloseTo(20, 9);
    expect(rigging(STAND.filter(({ kind }) => kind === "sleeve" || kind === "tied ball"))).toBeCloseTo(10, 9);
  });

  it("takes typed minutes, from pieces before those from work", () => {
    const work = tableOf({ task: "column", "minutes per piece": minutes(7) });
    expect(rigging([{ kind: "column", height: 2 }], work)).toBeCloseTo(7, 9);
    expect(rigging([{ kind: "column", height: 2, rigging: minutes(3) }], work)).toBeCloseTo(3, 9);
    expect(rigging([{ kind: "column", height: 2, rigging: 0 }], work)).toBe(0);
  });

  it("does not rig parked rows", () => {
    expect(rigging([{ kind: "column", height: 2, quantity: 0 }])).toBe(0);
  });
});

it("W1: rigs 40 table bouquets in 60 minutes (by hand: 40 x 1.5)", () => {
  const piece = pieceOfRows([{ kind: "bouquet", quantity: 40, balloons: 5 }]);
  expect(riggingWork(piece, NOTHING) / MINUTE).toBeCloseTo(60, 9);
  expect(riggingWork(pieceOfRows([{ kind: "bouquet", quantity: 0, balloons: 5 }]), NOTHING)).toBe(0);
});

describe("secondValues", () => {
  it("names a second rigging and a second price that are not read, and no equal ones", () => {
    const { parts } = pieceOfRows([
      { kind: "column", height: 2, rigging: minutes(5), "price each": 90 },
      { kind: "count", balloons: 3, rigging: minutes(9), "price each": 90 },
    ]);
    expect(secondValues(parts).map(({ weight, what }) => `${weight}: ${what}`)).toEqual([
      "check: pieces row 3: rigging is not read, pieces row 2 has it",
    ]);
  });
});

describe("leadingPart", () => {
  it("is the first part that is built, or the first of all", () => {
    const parked = pieceOfRows([
      { kind: "column", height: 2, quantity: 0 },
      { kind: "count", balloons: 3, quantity: 2 },
    ]);
    expect(leadingPart(parked)?.place).toBe("pieces row 3");
    expect(leadingPart(pieceOfRows([{ kind: "column", height: 2, quantity: 0 }]))?.place).toBe(
      "pieces row 2",
    );
  });
});
