import { describe, expect, it } from "vitest";
import { freshPlan } from "../../../src/core/event/job-plan";
import type { PieceCells } from "../../../src/core/event/cells";
import type { PieceDrawing } from "../../../src/core/event/drawn-piece";
import { pieceDrawing } from "../../../src/core/event/piece-drawing";
import { feet, inches, jobOf, type Row, type Tables } from "./job-builder";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const PALETTES = [
  { palette: "P", colour: "Teal", share: 3 },
  { palette: "P", colour: "Peach", share: 2 },
];

function drawn(tables: Tables): readonly PieceDrawing[] {
  const plan = freshPlan(jobOf(tables));
  return plan.costsOf(plan.chosen).pieces.map(pieceDrawing);
}

/** The one piece of rows, all named alike. */
function piece(...rows: readonly Row<PieceCells>[]): PieceDrawing {
  const pieces = rows.map((row) => ({ name: "Piece", printed: inches(11), ...row }));
  const [first] = drawn({ pieces, palettes: PALETTES });
  if (first === undefined) throw new Error("nothing drawn");
  return first;
}

const named = (pieces: readonly PieceDrawing[], name: string): PieceDrawing => {
  const found = pieces.find((one) => one.name === name);
  if (found === undefined) throw new Error(`no ${name}`);
  return found;
};

const counted = ({ balls }: PieceDrawing): Record<string, number> => {
  const counts: Record<string, number> = {};
  for (const { colour } of balls) counts[colour] = (counts[colour] ?? 0) + 1;
  return counts;
};

const width = ({ balls }: Pick<PieceDrawing, "balls">): number =>
  Math.max(...balls.map(({ x, radius }) => x + radius)) -
  Math.min(...balls.map(({ x, radius }) => x - radius));
const top = ({ balls }: Pick<PieceDrawing, "balls">): number =>
  Math.max(...balls.map(({ y, radius }) => y + radius));

describe("the stand bouquet", () => {
  const stand = named(drawn(STAND_BOUQUET), "Stand bouquet");
  // Inflated sizes as typed: 10 in inside, 11 in outside, 4 in on the floor; the pole is 6 ft = 1.8288 m.
  const core = stand.balls.filter(({ radius }) => radius === inches(10) / 2);
  const cover = stand.balls.filter(({ radius }) => radius === inches(11) / 2);
  const collar = stand.balls.filter(({ radius }) => radius === inches(4) / 2);
  const POLE = 1.8288;
  const off = ({ x, y, z }: { x: number; y: number; z: number }): number => Math.hypot(x, y - POLE, z);

  it("has the counts and colours of the plan", () => {
    // Section 7.1 of the design: 12, 45 as 14 + 13 + 11 + 7, 18 as 12 + 6.
    expect([core.length, cover.length, collar.length]).toEqual([12, 45, 18]);
    expect(counted(stand)).toEqual({ Burgundy: 12, Blush: 14 + 12, Rose: 13, Peach: 11 + 6, Coral: 7 });
    expect(counted({ ...stand, balls: collar })).toEqual({ Blush: 12, Peach: 6 });
  });

  it("has its ball's centre at the pole's end, a pole of its height in its colour", () => {
    for (const balls of [core, cover]) {
      const middle = balls.reduce((sum, { y }) => sum + y, 0) / balls.length;
      expect(Math.abs(middle - POLE)).toBeLessThan(0.02);
    }
    const poles = stand.lines.filter(({ what }) => what === "pole");
    expect(poles).toEqual([
      { what: "pole", from: [0, 0, 0], to: [0, feet(6), 0], width: 0.05, colour: "White" },
    ]);
    expect(feet(6)).toBeCloseTo(POLE, 12);
  });

  it("has a cover as wide as the finished ball, its balloons outside of the core's", () => {
    // Finished 1.109 m (section 7.1): the centres lie on a sphere of (1.109 - 0.2794) / 2 = 0.4148 m.
    for (const ball of cover) expect(off(ball)).toBeCloseTo(0.4148, 3);
    expect(width(stand)).toBeLessThanOrEqual(1.109 + 1e-6);
    expect(width(stand)).toBeGreaterThan(0.95 * 1.109);
    expect(top(stand)).toBeLessThanOrEqual(POLE + 1.109 / 2 + 1e-6);
    expect(stand.size?.[0]).toBeCloseTo(1.109, 3);
    expect(stand.size?.[1]).toBeCloseTo(2.383, 3);
    // Balloons of twelve tied at 10 in have their centres on one sphere, well inside of the cover's.
    const inner = Math.max(...core.map(off));
    for (const ball of core) expect(off(ball)).toBeCloseTo(inner, 6);
    expect(inner).toBeLessThan(0.4148 - inches(4));
    // A loose balloon rests on core balloons: it may press on one by less than a fifth of their touching distance.
    const touching = (inches(10) + inches(11)) / 2;
    for (const ball of cover)
      for (const { x, y, z } of core)
        expect(Math.hypot(ball.x - x, ball.y - y, ball.z - z)).toBeGreaterThan(0.75 * touching);
  });

  it("has 22 ribbons that meet 0.65 m below the finished ball", () => {
    const ribbons = stand.lines.filter(({ what }) => what === "ribbon");
    expect(ribbons).toHaveLength(22);
    for (const { from, to } of ribbons) {
      expect(to[0]).toBe(0);
      expect(to[1]).toBeCloseTo(POLE - 1.109 / 2 - 0.65, 3);
      expect(from[1]).toBeLessThan(POLE + 0.05);
    }
  });

  it("has its collar on the floor round the pole", () => {
    for (const { y, radius } of collar) expect(y - radius).toBeGreaterThan(-1e-9);
    expect(Math.min(...collar.map(({ y, radius }) => y - radius))).toBeLessThan(0.03);
    expect(Math.max(...collar.map(({ y, radius }) => y + radius))).toBeLessThanOrEqual(2 * inches(4) + 1e-9);
    expect(collar.some(({ x }) => x > 0.05) && collar.some(({ x }) => x < -0.05)).toBe(true);
  });
});

describe("the corporate evening", () => {
  const pieces = drawn(EVENING);

  it("draws one of each piece in the plan's numbers", () => {
    // Section 7.2: 566, 76 in each of two, 254 + 32, 5 + 1 in each of forty.
    expect(pieces.map(({ name, quantity, balls }) => [name, quantity, balls.length])).toEqual([
      ["Railing garland", 1, 566],
      ["Door columns", 2, 76],
      ["Logo wall", 1, 286],
      ["Table bouquets", 40, 6],
    ]);
    expect(counted(named(pieces, "Table bouquets"))).toEqual({ Navy: 3, White: 2, Gold: 1 });
    expect(counted(named(pieces, "Logo wall"))).toEqual({ White: 254, Navy: 32 });
  });

  it("gives every cluster of the columns its pattern of 2 and 2", () => {
    const { balls } = named(pieces, "Door columns");
    for (let first = 0; first < balls.length; first += 4) {
      const cluster = balls.slice(first, first + 4).map(({ colour }) => colour);
      expect(cluster.filter((colour) => colour === "Navy")).toHaveLength(2);
      expect(cluster.filter((colour) => colour === "White")).toHaveLength(2);
    }
  });

  it("keeps the garland within 30 m by 0.4 m, all three sizes in every quarter", () => {
    const garland = named(pieces, "Railing garland");
    expect(width(garland)).toBeLessThanOrEqual(30 + 1e-9);
    expect(width(garland)).toBeGreaterThan(29.5);
    for (const { y, z, radius } of garland.balls) {
      expect(Math.hypot(y - 0.2, z) + radius).toBeLessThan(0.2 + 1e-6);
    }
    for (const end of [-15, -7.5, 0, 7.5]) {
      const here = garland.balls.filter(({ x }) => x >= end && x < end + 7.5);
      expect(new Set(here.map(({ radius }) => radius)).size).toBe(3);
    }
  });

  it("floats the bouquet 1.2 m above its weight, the foil 0.763 of its flat size wide", () => {
    const bouquet = named(pieces, "Table bouquets");
    const [weight] = bouquet.lines.filter(({ what }) => what === "weight");
    expect(weight?.from).toEqual([0, 0, 0]);
    const ribbons = bouquet.lines.filter(({ what }) => what === "ribbon");
    expect(ribbons).toHaveLength(6);
    for (const { from, to } of ribbons) {
      expect(to).toEqual(weight?.to);
      expect(Math.hypot(...from.map((value, index) => value - (to[index] ?? 0)))).toBeCloseTo(1.2, 9);
    }
    const [foil] = bouquet.balls.filter(({ isFoil }) => isFoil);
    // Mylar balloon of 18 in: inflated radius is flat radius / 1.31103 (Amer. Math. Monthly 101, 1994).
    expect(foil?.radius).toBeCloseTo(0.4572 / 2 / 1.31103, 4);
    expect(foil?.colour).toBe("Gold");
  });

  it("puts the logo into the middle of the wall and says so", () => {
    const wall = named(pieces, "Logo wall");
    const logo = wall.balls.filter(({ colour }) => colour === "Navy");
    for (const { x, y } of logo) {
      expect(Math.abs(x)).toBeLessThan(1);
      expect(Math.abs(y - 1.2)).toBeLessThan(0.6);
    }
    expect(new Set(wall.balls.map(({ x, y }) => `${x.toFixed(6)} ${y.toFixed(6)}`)).size).toBe(286);
    expect(wall.notes).toEqual([expect.stringMatching(/pieces row 7: drawn in the middle of the wall/)]);
  });
});

describe("what parts stand on", () => {
  it("rests a ball on the floor and on a column, and runs a pole into its middle", () => {
    const middle = ({ balls }: PieceDrawing, colour: string): number => {
      const own = balls.filter((ball) => ball.colour === colour);
      return (Math.max(...own.map(({ y }) => y)) + Math.min(...own.map(({ y }) => y))) / 2;
    };
    const ball = { kind: "ball", width: 0.8, colour: "Gold" } as const;
    expect(middle(piece(ball), "Gold")).toBeCloseTo(0.4, 1);
    const onColumn = piece({ kind: "column", height: 1.2, palette: "P" }, ball);
    const column = onColumn.balls.filter(({ colour }) => colour !== "Gold");
    expect(middle(onColumn, "Gold")).toBeCloseTo(top({ balls: column }) + 0.4, 1);
    const onPole = piece({ kind: "sleeve", printed: inches(60), height: 1.5, colour: "White" }, ball);
    expect(middle(onPole, "Gold")).toBeCloseTo(1.5, 1);
  });

  it("keeps a collar inside its width and thickness", () => {
    const collar = piece(
      { kind: "collar", width: 0.8, height: 0.3, printed: inches(5), share: 3, palette: "P" },
      { kind: "collar", share: 1, palette: "P" },
    );
    for (const { x, y, z, radius } of collar.balls) {
      expect(Math.hypot(x, z) + radius).toBeLessThan(0.4 + 1e-6);
      expect(Math.abs(y - 0.15) + radius).toBeLessThan(0.15 + 1e-6);
    }
  });

  it("lets a foil rise from the top of what carries it", () => {
    const topper = piece(
      { kind: "column", height: 1.2, palette: "P" },
      { kind: "foil", printed: inches(36), colour: "Gold" },
    );
    const [foil] = topper.balls.filter(({ isFoil }) => isFoil);
    const column = topper.balls.filter(({ isFoil }) => !isFoil);
    expect((foil?.y ?? 0) - (foil?.radius ?? 0)).toBeCloseTo(top({ balls: column }), 6);
    expect(topper.lines.filter(({ what }) => what === "weight")).toEqual([]);
  });

  it("stands columns of several rows side by side", () => {
    const row = { kind: "column", height: 1.2, colour: "Teal" } as const;
    const { balls } = piece(row, { ...row, colour: "Peach" });
    const right = Math.max(
      ...balls.filter(({ colour }) => colour === "Teal").map(({ x, radius }) => x + radius),
    );
    const left = Math.min(
      ...balls.filter(({ colour }) => colour === "Peach").map(({ x, radius }) => x - radius),
    );
    expect(left).toBeCloseTo(right + 0.25, 9);
  });
});

describe("what cannot be drawn", () => {
  it("draws the other parts and names the row", () => {
    const { balls, notes } = piece(
      { kind: "column", height: 1.2, palette: "P" },
      { kind: "arch", width: 3, colour: "Teal" },
    );
    expect(balls.length).toBeGreaterThan(0);
    expect(notes).toEqual([expect.stringContaining("not drawn: pieces row 3: ")]);
  });

  it("keeps balloons whose colour is not known, without one", () => {
    const unknown = piece({ kind: "bouquet", balloons: 3, ribbon: 1, palette: "Nowhere" });
    expect(counted(unknown)).toEqual({ "": 3 });
  });

  it("draws every kind in as many balloons as counted, whatever was typed", () => {
    const kinds = {
      column: { height: 2 },
      arch: { width: 3, height: 2 },
      garland: { length: 3 },
      strand: { length: 3 },
      ball: { width: 1 },
      wall: { width: 2, height: 1.5 },
      ceiling: { length: 4, width: 3 },
      net: { length: 2, width: 1 },
      count: { width: 1, height: 2 },
      bouquet: {},
      foil: {},
      collar: { width: 1, height: 0.3 },
      mix: { length: 3, width: 0.5 },
      "tied ball": {},
      cover: {},
    } as const;
    for (const [kind, cells] of Object.entries(kinds))
      for (const balloons of [1, 7, 60]) {
        const row = { kind, ...cells, balloons, palette: "P", ribbon: 0.5 } as Row<PieceCells>;
        const { balls, notes } = piece(row);
        expect([kind, balloons, balls.length, notes]).toEqual([kind, balloons, balloons, []]);
        for (const { x, y, z } of balls) expect([x, y, z].every(Number.isFinite)).toBe(true);
        const known = { Teal: Math.round(0.6 * balloons), Peach: balloons - Math.round(0.6 * balloons) };
        for (const [colour, count] of Object.entries(known))
          expect(Math.abs((counted({ balls } as PieceDrawing)[colour] ?? 0) - count)).toBeLessThanOrEqual(1);
      }
  });
});
