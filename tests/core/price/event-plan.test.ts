import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PaletteRow } from "../../../src/core/palette/needs";
import { PIECE_KINDS } from "../../../src/core/event/cells";
import type { PieceKind, PieceRow } from "../../../src/core/palette/piece-count";
import { type EventTables, piecePlan, swapPlan } from "../../../src/core/price/event-plan";
import type { PriceRow } from "../../../src/core/stock/price-list";
import { fromSi, toSi } from "../../../src/core/units";
import type { Known } from "../../../src/core/withheld";
import { asRead, known } from "../as-read";

const inches = (value: number): number => toSi(value, "in");

const palettes: readonly PaletteRow[] = [
  { row: 2, palette: "P", colour: "Navy", share: 2 },
  { row: 3, palette: "P", colour: "White", share: 1 },
];
const price = (row: number, size: number, colour: string, bag: number, amount: number): PriceRow => ({
  row,
  supplier: "Town",
  printed: inches(size),
  colour,
  bag,
  price: amount,
});
const prices: readonly PriceRow[] = [
  price(2, 11, "Navy", 50, 9.9),
  price(3, 11, "White", 50, 8.9),
  price(4, 16, "Navy", 25, 13.5),
  price(5, 16, "White", 25, 12.9),
];
const piece = (row: number, name: string, given: Partial<PieceRow>): PieceRow => ({
  row,
  name,
  kind: "count",
  quantity: 1,
  printed: inches(11),
  palette: "P",
  ...given,
});
const tables = (pieces: readonly PieceRow[]): EventTables => ({
  pieces: asRead(pieces, "pieces"),
  palettes: asRead(palettes, "palettes"),
  prices: asRead(prices, "price_list"),
  stock: [],
  delivery: [],
  spares: { breakage: 0, confidence: 0.95 },
});
const cents = (value: Known | undefined): number => Math.round(known(value) * 100);

describe("piecePlan", () => {
  it("shares bags by what each piece takes, by hand", () => {
    const plan = piecePlan(
      tables([piece(2, "Small", { balloons: 30 }), piece(3, "Large", { balloons: 60 })]),
    );
    // 60 navy need two bags at 9.90, 30 white one at 8.90: 28.70, shared 1 : 2.
    expect(plan.map((row) => cents(row.cost))).toEqual([957, 1913]);
    // Common practice, no source: 120 in clusters per person-hour, half an hour of rigging each.
    expect(plan.map((row) => fromSi(known(row.work), "h"))).toEqual([0.75, 1]);
  });

  it("takes half a minute more for each balloon that is stuffed into another", () => {
    const layered = palettes.map((row) => (row.colour === "Navy" ? { ...row, inside: "White" } : row));
    const one = { ...tables([piece(2, "Small", { balloons: 30 })]), palettes: asRead(layered, "palettes") };
    const [plan] = piecePlan(one);
    // 20 of 30 are navy with a white one inside. Common practice, no source: 120 clusters an hour, 0.5 minutes, rigging.
    expect(plan?.balloons).toBe(50);
    expect(fromSi(known(plan?.work), "min")).toBeCloseTo(30 / 2 + 20 * 0.5 + 30, 9);
  });

  it("takes rows of one name as one piece that is rigged once", () => {
    const [only, ...more] = piecePlan(
      tables([piece(2, "Tree", { balloons: 12 }), piece(3, " tree", { balloons: 48 })]),
    );
    expect(more).toEqual([]);
    expect(only?.balloons).toBe(60);
    expect(fromSi(known(only?.work), "h")).toBeCloseTo(60 / 120 + 0.5, 12);
  });

  it("builds and fills every one of several equal pieces, and rigs each", () => {
    const [one] = piecePlan(tables([piece(2, "Post", { balloons: 24 })]));
    const [three] = piecePlan(tables([piece(2, " Post ", { balloons: 24, quantity: 3 })]));
    expect(three?.name).toBe("Post");
    expect(three?.balloons).toBe(72);
    expect(three?.work).toBeCloseTo(3 * known(one?.work), 9);
    expect(three?.air).toBeCloseTo(3 * known(one?.air), 9);
  });

  it("names colours that cannot be had and loses no row", () => {
    const plan = piecePlan(tables([piece(2, "Odd", { balloons: 6, printed: inches(36) })]));
    expect(plan).toHaveLength(1);
    const what = "nobody sells 36 in Navy, 4 short";
    expect(plan[0]).toMatchObject({ balloons: 6, cost: { error: "#N/A", sentence: what } });
    expect(plan[0]?.status).toBe(`stop: ${what}; nobody sells 36 in White, 2 short`);
  });

  it("counts helium for ceilings and air for everything else", () => {
    const [ceiling, column] = piecePlan(
      tables([
        piece(2, "Ceiling", { kind: "ceiling", length: 5, width: 4 }),
        piece(3, "Column", { kind: "column", height: 2 }),
      ]),
    );
    expect(ceiling?.air).toBe(0);
    expect(ceiling?.helium).toBeGreaterThan(0);
    expect(column?.helium).toBe(0);
    expect(column?.air).toBeGreaterThan(0);
  });

  it("adds up to the same cost whatever the pieces are called", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 200 }), { minLength: 1, maxLength: 6 }), (counts) => {
        const apart = piecePlan(
          tables(counts.map((balloons, index) => piece(index + 2, `P${index}`, { balloons }))),
        );
        const together = piecePlan(
          tables(counts.map((balloons, index) => piece(index + 2, "All", { balloons }))),
        );
        const total = apart.reduce((sum, row) => sum + cents(row.cost), 0);
        expect(total).toBe(cents(together[0]?.cost));
      }),
      { numRuns: 40 },
    );
  });

  it("knows every kind of piece", () => {
    const dimensions = { width: 1, height: 2, length: 3, balloons: 10, share: 1 };
    for (const kind of PIECE_KINDS as readonly PieceKind[]) {
      const [row] = piecePlan(tables([piece(2, kind, { kind, ...dimensions })]));
      expect(row?.balloons, kind).toBeGreaterThan(0);
    }
  });
});

describe("swapPlan", () => {
  const pieces = [piece(2, "Line", { kind: "strand", length: inches(176), inflated: inches(11) })];

  it("replaces a printed size and lets the inflated size follow", () => {
    const [asItIs, swapped] = swapPlan(tables(pieces), [{ row: 1, from: inches(11), to: inches(16) }]);
    // 176 in / 11 in = 16 and 176 in / 16 in = 11.
    expect(asItIs?.balloons).toBe(16);
    expect(swapped?.balloons).toBe(11);
    expect(swapped?.status).toBe("ok");
  });

  it("sizes a swapped balloon by its use where no inflated size was typed", () => {
    const typed = tables([piece(2, "Line", { kind: "strand", length: 5 })]);
    const direct = tables([piece(2, "Line", { kind: "strand", length: 5, printed: inches(16) })]);
    const swap = { row: 1, from: inches(11), to: inches(16) };
    expect(swapPlan(typed, [swap])[1]?.balloons).toBe(swapPlan(direct, [])[0]?.balloons);
  });

  it("says what cannot be had, and takes a size as used where any piece has it", () => {
    const mixed = tables([
      piece(2, "Door", { balloons: 6 }),
      piece(3, "Big", { balloons: 3, printed: inches(36) }),
    ]);
    const [asItIs, swapped] = swapPlan(mixed, [{ row: 1, from: inches(36), to: inches(16) }]);
    expect(asItIs?.cost).toMatchObject({ error: "#N/A" });
    expect(asItIs?.balloons).toBe(9);
    expect(asItIs?.status).toBe("stop: nobody sells 36 in Navy, 2 short; nobody sells 36 in White, 1 short");
    expect(swapped?.status).toBe("ok");
  });

  it("says where no piece has the size, and then changes nothing", () => {
    const [asItIs, swapped] = swapPlan(tables(pieces), [{ row: 1, from: inches(5), to: inches(16) }]);
    expect(swapped).toMatchObject({
      status: "check: no piece has this size",
      cost: asItIs?.cost,
      balloons: 16,
    });
  });
});
