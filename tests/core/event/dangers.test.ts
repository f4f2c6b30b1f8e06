import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dangersOf, sinking } from "../../../src/core/event/dangers";
import type { PieceCells } from "../../../src/core/event/cells";
import type { TermCells } from "../../../src/core/event/term-cells";
import { inches, minutes, type Row, type Tables } from "./job-builder";
import { costsOf, plannedOf, termsOf } from "./planned";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const said = (tables: Tables): readonly string[] =>
  dangersOf(costsOf(tables)).map(({ weight, what }) => `${weight}: ${what}`);
const one = (row: Row<PieceCells>, terms: Partial<TermCells> = {}): Tables => ({
  pieces: [{ name: "Piece", printed: inches(11), colour: "White", ...row }],
  terms: { crew: 1, travel: minutes(30), ...terms },
});
const bouquet = { kind: "bouquet", balloons: 5 } as const;

describe("dangersOf", () => {
  it("finds none in the sample jobs", () => {
    expect([said(STAND_BOUQUET), said(EVENING)]).toEqual([[], []]);
  });

  it("calls helium unsafe that does not float (by hand: 5 x (14.1 g of lift - 50 g), about -180 g)", () => {
    const [heavy] = said(one({ ...bouquet, "grams each": 0.05 }));
    expect(heavy).toMatch(/^unsafe: pieces row 2: does not float, lift is -1[78]\d\.\d g$/);
    expect(said(one({ ...bouquet, "grams each": 0.05, quantity: 0 }))).toEqual([]);
    expect(said(one({ ...bouquet, "grams each": 0.05, gas: "air" }))).toEqual([]);
  });

  it("calls wind above the take-down gust of 10 m/s unsafe outdoors, for air too (common practice)", () => {
    const column = { kind: "column", height: 2, where: "outdoors" } as const;
    expect(said(one(column, { gust: 10 }))).toEqual([]);
    expect(said(one(column, { gust: 12 }))[0]).toMatch(
      /^unsafe: do not put up balloons in a gust of 12 m\/s/,
    );
    expect(said(one({ ...column, where: "indoors" }, { gust: 12 }))).toEqual([]);
  });

  it("calls a room unsafe in which the helium would leave less than 19.5 % oxygen (29 CFR 1910.134)", () => {
    const inRoom = (room: number): readonly string[] =>
      said({ ...EVENING, terms: { ...EVENING.terms, "room m3": room } });
    // By hand: 0.2095 (1 - 3.731 / 40) = 19.0 %; in 600 m3 20.8 %.
    expect(inRoom(40)).toEqual([
      "unsafe: the helium, all leaked, would leave 19.0 % of oxygen in the room, below 19.5 %",
    ]);
    expect(inRoom(600)).toEqual([]);
  });

  it("says what cannot go by the clock (by hand: five hours later access leaves half an hour)", () => {
    const late = said({ ...EVENING, terms: { ...EVENING.terms, access: 14 / 24 } });
    expect(late[0]).toMatch(/^no go: work on site starts .* before access at 14:00$/);
  });

  it("leaves what cannot be known to others", () => {
    expect(said(one({ kind: "bouquet" }, { "room m3": 10 }))).toEqual([]);
    expect(said({ pieces: one(bouquet).pieces ?? [] })).toEqual([]);
  });

  it("stops where the hours reach back beyond all dates, which nobody else would say", () => {
    const pieces = (EVENING.pieces ?? []).map((row) => (row.width === 0.4 ? { ...row, width: 20 } : row));
    expect(said({ ...EVENING, pieces })[0]).toMatch(/^stop: ready must lie far enough after/);
  });
});

it("sinking never takes a part that lifts, whatever a balloon weighs", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 40 }), (grams) => {
      const [planned] = plannedOf(one({ ...bouquet, "grams each": grams / 1000 }));
      const [part] = planned?.parts ?? [];
      const found = part === undefined ? [] : sinking(part, termsOf());
      // By hand: 13.7044 L x 1.02885 g/L = 14.1 g carry at most 14 g.
      expect(found.length).toBe(grams <= 14 ? 0 : 1);
    }),
    { numRuns: 40 },
  );
});
