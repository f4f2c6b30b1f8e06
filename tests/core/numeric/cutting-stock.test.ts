import fc from "fast-check";
import loadHighs from "highs";
import { describe, expect, it } from "vitest";
import { solve } from "yalps";
import { cuttingStock } from "../../../src/core/numeric/cutting-stock";

interface Demand {
  readonly length: number;
  readonly pieces: number;
}

/** Every way to cut one stock, with no piece left that would still fit. */
function patterns(lengths: readonly number[], stock: number): number[][] {
  const found: number[][] = [];
  const go = (at: number, room: number, cuts: readonly number[]): void => {
    const length = lengths[at];
    if (length === undefined) {
      if (lengths.every((one) => one > room)) found.push([...cuts]);
      return;
    }
    for (let cut = Math.floor(room / length); cut >= 0; cut -= 1)
      go(at + 1, room - cut * length, [...cuts, cut]);
  };
  go(0, stock, []);
  return found;
}

const merged = (demands: readonly Demand[]) => {
  const byLength = new Map<number, number>();
  for (const { length, pieces } of demands) byLength.set(length, (byLength.get(length) ?? 0) + pieces);
  return [...byLength].map(([length, pieces]) => ({ length, pieces })).filter(({ pieces }) => pieces > 0);
};

/** Fewest stocks by trying every place for every piece. */
function bruteForce(demands: readonly Demand[], stock: number): number {
  const pieces = demands.flatMap(({ length, pieces: count }) => Array.from({ length: count }, () => length));
  pieces.sort((one, other) => other - one);
  let best = pieces.length;
  const rooms: number[] = [];
  const go = (at: number): void => {
    if (rooms.length >= best) return;
    const piece = pieces[at];
    if (piece === undefined) {
      best = rooms.length;
      return;
    }
    const tried = new Set<number>();
    rooms.forEach((room, index) => {
      if (room < piece || tried.has(room)) return;
      tried.add(room);
      rooms[index] = room - piece;
      go(at + 1);
      rooms[index] = room;
    });
    rooms.push(stock - piece);
    go(at + 1);
    rooms.pop();
  };
  go(0);
  return best;
}

const highs = await loadHighs();

/** Fewest stocks as an integer programme over every pattern, by HiGHS. */
function byHighs(demands: readonly Demand[], stock: number): number {
  const rows = merged(demands);
  const ways = patterns(
    rows.map(({ length }) => length),
    stock,
  );
  const names = ways.map((_, index) => `p${index}`);
  const constraints = rows.map(({ pieces }, row) => {
    const terms = ways.flatMap((way, index) => ((way[row] ?? 0) > 0 ? [`${way[row] ?? 0} p${index}`] : []));
    return `r${row}: ${terms.join(" + ")} >= ${pieces}`;
  });
  const model = [
    `Minimize\n obj: ${names.join(" + ")}`,
    `Subject To\n ${constraints.join("\n ")}`,
    `Generals\n ${names.join(" ")}\nEnd`,
  ].join("\n");
  return Math.round(highs.solve(model, { output_flag: false }).ObjectiveValue);
}

/** The same by YALPS. */
function byYalps(demands: readonly Demand[], stock: number): number {
  const rows = merged(demands);
  const ways = patterns(
    rows.map(({ length }) => length),
    stock,
  );
  const { result } = solve({
    direction: "minimize",
    objective: "stocks",
    constraints: Object.fromEntries(rows.map(({ pieces }, row) => [`r${row}`, { min: pieces }])),
    variables: Object.fromEntries(
      ways.map((way, index) => [
        `p${index}`,
        { stocks: 1, ...Object.fromEntries(way.map((cut, row) => [`r${row}`, cut])) },
      ]),
    ),
    integers: true,
  });
  return Math.round(result);
}

const demand = (least: number, most: number, pieces: number) =>
  fc.record({ length: fc.integer({ min: least, max: most }), pieces: fc.integer({ min: 0, max: pieces }) });

describe("cutting stock", () => {
  it("matches brute force on a few pieces", () => {
    fc.assert(
      fc.property(fc.array(demand(10, 60, 3), { minLength: 1, maxLength: 4 }), (demands) => {
        const { stocks, lowerBound } = cuttingStock(demands, 60);
        expect(stocks).toBe(bruteForce(demands, 60));
        expect(lowerBound).toBe(stocks);
      }),
      { numRuns: 200 },
    );
  });

  it("matches HiGHS on many pieces", () => {
    fc.assert(
      fc.property(fc.array(demand(15, 70, 40), { minLength: 1, maxLength: 8 }), (demands) => {
        fc.pre(demands.some(({ pieces }) => pieces > 0));
        const { stocks, lowerBound } = cuttingStock(demands, 100);
        expect(stocks).toBe(byHighs(demands, 100));
        expect(lowerBound).toBe(stocks);
      }),
      { numRuns: 60 },
    );
  });

  it("matches YALPS on a short list", () => {
    const demands = [
      { length: 45, pieces: 97 },
      { length: 36, pieces: 610 },
      { length: 31, pieces: 395 },
      { length: 14, pieces: 211 },
    ];
    // Worked example of Chvatal, Linear Programming (1983), ch. 13, from memory: 453 rolls of 100.
    expect(byYalps(demands, 100)).toBe(453);
    expect(cuttingStock(demands, 100)).toEqual({ stocks: 453, lowerBound: 453 });
  });

  it("proves that one more stock is needed where material and bound say one fewer", () => {
    // A list whose relaxed plan is below 259/132 rounded up (Fieldhouse 1990, from memory); brute force
    // decides.
    const demands = [
      { length: 44, pieces: 2 },
      { length: 33, pieces: 3 },
      { length: 12, pieces: 6 },
    ];
    expect(cuttingStock(demands, 132).stocks).toBe(bruteForce(demands, 132));
  });

  it("proves lists of 30 lengths, and states its gap where it cannot", () => {
    // A linear congruential list, so that it is the same everywhere (Park & Miller 1988).
    let seed = 7;
    const next = () => (seed = (seed * 16807) % 2147483647) / 2147483647;
    for (let list = 0; list < 24; list += 1) {
      const [least, most, pieces] = list % 2 === 0 ? [50, 600, 20] : [200, 500, 10];
      const demands = Array.from({ length: 30 }, () => ({
        length: Math.round(least + next() * (most - least)),
        pieces: 1 + Math.floor(next() * pieces),
      }));
      const { stocks, lowerBound } = cuttingStock(demands, 1000);
      const material = demands.reduce((sum, { length, pieces }) => sum + length * pieces, 0) / 1000;
      expect(lowerBound).toBeGreaterThanOrEqual(Math.ceil(material));
      expect(stocks - lowerBound).toBeLessThanOrEqual(1);
    }
  });

  it("gives a valid bound and plan beyond the exact search", () => {
    const demands = Array.from({ length: 80 }, (_, index) => ({
      length: 101 + index * 3,
      pieces: 1 + (index % 5),
    }));
    const { stocks, lowerBound } = cuttingStock(demands, 1000);
    expect(lowerBound).toBeLessThanOrEqual(stocks);
    expect(stocks).toBeLessThan(lowerBound * 1.1 + 1);
    const long = cuttingStock(
      Array.from({ length: 30 }, (_, index) => ({ length: 1_000_003 + index * 77_777, pieces: 7 })),
      9_999_991,
    );
    expect(long.lowerBound).toBeLessThanOrEqual(long.stocks);
  });

  it("never needs more for fewer pieces, nor less in two lots than in one", () => {
    const list = fc.array(demand(10, 90, 20), { minLength: 1, maxLength: 5 });
    fc.assert(
      fc.property(list, list, (one, other) => {
        const [a, b, both] = [one, other, [...one, ...other]].map(
          (demands) => cuttingStock(demands, 100).stocks,
        );
        expect((a ?? 0) + (b ?? 0)).toBeGreaterThanOrEqual(both ?? 0);
        expect(both).toBeGreaterThanOrEqual(a ?? 0);
      }),
      { numRuns: 60 },
    );
  });

  it("takes a billion pieces and none", () => {
    expect(cuttingStock([{ length: 3, pieces: 1e9 }], 10)).toEqual({
      stocks: 333333334,
      lowerBound: 333333334,
    });
    expect(cuttingStock([], 10)).toEqual({ stocks: 0, lowerBound: 0 });
    expect(cuttingStock([{ length: 3, pieces: 0 }], 10)).toEqual({ stocks: 0, lowerBound: 0 });
  });
});
