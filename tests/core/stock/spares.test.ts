import fc from "fast-check";
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { countWithSpares, expectedUse, mixedSpares } from "../../../src/core/stock/spares";

const { jStat } = jstat as unknown as {
  jStat: {
    negbin: { cdf: (failures: number, successes: number, chance: number) => number };
    ibeta: (x: number, a: number, b: number) => number;
  };
};

function byLibrary(count: number, breakage: number, confidence: number): number {
  let failures = 0;
  while (jStat.negbin.cdf(failures, count, 1 - breakage) < confidence - 1e-9) failures += 1;
  return count + failures;
}

/**
 * The quantile from the definition: P(m + 1) / P(m) = breakage (m + count) / (m + 1), so all chances follow from one, and
 * their sum is 1. Sums start at the far ends, where terms are smallest.
 */
function bySums(count: number, breakage: number, confidence: number): number {
  const mode = Math.max(0, Math.floor((breakage * (count - 1)) / (1 - breakage)));
  const below: number[] = [];
  for (let m = mode, term = 1; m > 0 && term > 1e-40; m -= 1)
    below.push((term *= m / (breakage * (m - 1 + count))));
  const above = [1];
  for (let m = mode, term = 1; term > 1e-40; m += 1) above.push((term *= (breakage * (m + count)) / (m + 1)));
  const total = [...above, ...below].sort((a, b) => a - b).reduce((sum, term) => sum + term, 0);
  const all = [...below.toReversed(), ...above];
  let tail = 0;
  let failures = mode + above.length - 1;
  for (let at = all.length - 1; at >= 0; at -= 1, failures -= 1) {
    tail += all[at] ?? 0;
    // Symmetric cases hit the confidence exactly, but for rounding.
    if (tail / total > (1 - confidence) * (1 + 1e-9)) return count + failures;
  }
  return count;
}

describe("countWithSpares", () => {
  // Negative binomial quantile: three general-purpose statistics libraries agree on these.
  it.each([
    [10, 0.02, 11, 12],
    [10, 0.03, 11, 12],
    [10, 0.05, 12, 13],
    [20, 0.02, 22, 22],
    [20, 0.03, 22, 23],
    [20, 0.05, 23, 24],
    [50, 0.02, 53, 54],
    [50, 0.03, 54, 55],
    [50, 0.05, 56, 57],
    [100, 0.02, 105, 106],
    [100, 0.03, 106, 108],
    [100, 0.05, 109, 111],
    [200, 0.02, 208, 210],
    [200, 0.03, 211, 213],
    [200, 0.05, 216, 219],
    [500, 0.02, 516, 518],
    [500, 0.03, 522, 525],
    [500, 0.05, 535, 539],
  ])("%i at %f needs %i for 0.95 and %i for 0.99", (count, breakage, usual, sure) => {
    expect(countWithSpares(count, breakage, 0.95)).toBe(usual);
    expect(countWithSpares(count, breakage, 0.99)).toBe(sure);
  });

  it("gives Wilks' numbers", () => {
    // S. S. Wilks, Ann. Math. Stat. 12 (1941) 91: samples with k beyond the 5 % quantile at 95 %.
    expect([1, 2, 3, 4, 5].map((k) => countWithSpares(k, 0.95, 0.95))).toEqual([59, 93, 124, 153, 181]);
    expect(countWithSpares(1, 0.95, 0.99)).toBe(90);
  });

  it("equals the library in a grid of cells", () => {
    for (const count of [1, 2, 3, 5, 8, 20, 50, 120])
      for (const breakage of [0.005, 0.02, 0.03, 0.1, 0.25, 0.5, 0.8])
        for (const confidence of [0.5, 0.8, 0.9, 0.95, 0.99, 0.999, 0.9999])
          expect([count, breakage, confidence, countWithSpares(count, breakage, confidence)]).toEqual([
            count,
            breakage,
            confidence,
            byLibrary(count, breakage, confidence),
          ]);
  });

  it("is the smallest that reaches the confidence, up to a million", () => {
    // P(at least k good of n) is the regularised incomplete beta I_{1-f}(k, n-k+1); here by a normal tail with continuity
    // correction and skewness (Cornish-Fisher), good to a few pieces in a million.
    for (const [count, breakage, confidence, z] of [
      [1e6, 0.03, 0.95, 1.6448536269514722],
      [1e6, 0.1, 0.99, 2.3263478740408408],
      [1e6, 0.03, 0.9999, 3.719016485455709],
      [1e5, 0.5, 0.9999, 3.719016485455709],
    ] as const) {
      const deviation = Math.sqrt(count * breakage) / (1 - breakage);
      const skewness = (1 + breakage) / Math.sqrt(count * breakage);
      const expected =
        count + (count * breakage) / (1 - breakage) + deviation * (z + (skewness * (z * z - 1)) / 6);
      expect(Math.abs(countWithSpares(count, breakage, confidence) - expected)).toBeLessThan(2);
    }
  });

  it("equals a sum of every chance, from tens to a million and for the rarest of losses", () => {
    for (const count of [9, 60, 300, 2000, 40_000, 1_000_000])
      for (const breakage of [0.0004, 0.01, 0.03, 0.1, 0.5, 0.9])
        for (const confidence of [0.5, 0.9, 0.95, 0.99, 0.99989, 0.99991, 0.999999, 1 - 1e-9])
          expect([count, breakage, confidence, countWithSpares(count, breakage, confidence)]).toEqual([
            count,
            breakage,
            confidence,
            bySums(count, breakage, confidence),
          ]);
  });

  it("settles probabilities that hit the confidence exactly", () => {
    // One coin: 1/2, 3/4, 7/8 are exact.
    expect([0.5, 0.75, 0.875].map((confidence) => countWithSpares(1, 0.5, confidence))).toEqual([1, 2, 3]);
    expect(countWithSpares(1, 0.05, 0.95)).toBe(1);
  });

  it("never falls with count, breakage or confidence", () => {
    const share = fc.double({ min: 0, max: 0.9, noNaN: true });
    const sure = fc.double({ min: 0.5, max: 0.94, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e6 }), share, sure, (count, breakage, confidence) => {
        const taken = countWithSpares(count, breakage, confidence);
        expect(taken).toBeGreaterThanOrEqual(count);
        expect(countWithSpares(count + 1, breakage, confidence)).toBeGreaterThan(taken);
        expect(countWithSpares(count, Math.min(0.9, breakage * 1.1), confidence)).toBeGreaterThanOrEqual(
          taken,
        );
        expect(countWithSpares(count, breakage, confidence + 0.05)).toBeGreaterThanOrEqual(taken);
      }),
    );
  });

  it("needs no spare for losses that are rarer than the risk, however rare", () => {
    // At least one of n fails with a chance of n times that of one, about: 5e-100 and 2e-12 lie below 1e-9, 1e-8 does not.
    expect(countWithSpares(5, 1e-100, 1 - 1e-9)).toBe(5);
    expect(countWithSpares(2, 1e-12, 1 - 1e-9)).toBe(2);
    expect(countWithSpares(1, 1e-8, 1 - 1e-9)).toBe(2);
  });

  it("leaves a count alone where nothing breaks or nothing is needed", () => {
    expect(countWithSpares(100, 0, 0.95)).toBe(100);
    expect(countWithSpares(0, 0.5, 0.95)).toBe(0);
  });

  it.each([
    [10, 0.03, 1, "confidence must be from 0.5 to below 1, found 1; type 95% or 0.95"],
    [10, 0.03, 0.05, "confidence must be from 0.5 to below 1, found 0.05; type 95% or 0.95"],
    [10, 1, 0.95, "no number of balloons is enough when all of them break"],
    [1e9, 0.9999, 0.95, "count and breakage together are too large"],
  ])("refuses %f, %f, %f", (count, breakage, confidence, sentence) => {
    expect(() => countWithSpares(count, breakage, confidence)).toThrow(sentence);
  });

  it("pools before it adds spares: five colours of 20 need 22 each", () => {
    expect(countWithSpares(20)).toBe(22);
  });
});

/** Chances of 0, 1, 2, ... failures before `count` good ones, as many as matter, from P(m + 1) / P(m). */
function chancesOf(count: number, breakage: number): number[] {
  const logs = [count * Math.log1p(-breakage)];
  const mean = (count * breakage) / (1 - breakage);
  for (let m = 0; m < mean || (logs.at(-1) ?? 0) > -60; m += 1)
    logs.push((logs.at(-1) ?? 0) + Math.log((breakage * (m + count)) / (m + 1)));
  return logs.map((log) => Math.exp(log));
}

/** The quantile of a sum by its definition: every chance of one group times every chance of the next. */
function byConvolution(groups: readonly (readonly [number, number])[], confidence: number): number {
  const all = groups
    .map(([count, breakage]) => chancesOf(count, breakage))
    .reduce((a, b) => {
      const both = new Array<number>(a.length + b.length - 1).fill(0);
      a.forEach((x, i) => b.forEach((y, j) => (both[i + j] = (both[i + j] ?? 0) + x * y)));
      return both;
    });
  let failures = all.length;
  for (let tail = 0; failures > 0 && tail <= (1 - confidence) * (1 + 1e-9); failures -= 1)
    tail += all[failures - 1] ?? 0;
  return groups.reduce((total, [count]) => total + count, failures);
}

describe("mixedSpares", () => {
  const spares = (groups: readonly (readonly [number, number])[], confidence?: number) =>
    mixedSpares(
      groups.map(([count, breakage]) => ({ count, breakage })),
      confidence,
    );

  it("gives the worked examples", () => {
    // By hand: 0.90 < 0.95 <= 0.90 + 0.09; 0.97 x 0.9 = 0.873, and one failure 0.873 x 0.13 = 0.1135 more.
    expect(spares([[1, 0.1]], 0.95)).toBe(2);
    expect(
      spares(
        [
          [1, 0.03],
          [1, 0.1],
        ],
        0.95,
      ),
    ).toBe(3);
    // Negative binomial quantiles, as above.
    expect(spares([[100, 0.03]], 0.95)).toBe(106);
    expect(spares([[20, 0.03]], 0.95)).toBe(22);
    expect(spares([[186, 0.03]], 0.95)).toBe(196);
  });

  it("pools an event indoors and outdoors", () => {
    // 90 at 10 % and 410 at 3 % of one item: mean 10 + 12.68 = 22.68, variance 11.11 + 13.07, skewness by cumulants; normal
    // quantile with Cornish-Fisher 22.68 + 4.917 x (1.645 + 0.236 x 0.284) = 31.1.
    expect(
      spares([
        [90, 0.1],
        [410, 0.03],
      ]),
    ).toBe(531);
  });

  it("takes a confidence as it is typed, however close to 1", () => {
    // One good one of balloons that break one in ten: 0.1^k is the chance that k of them all break.
    for (let digits = 1; digits <= 8; digits += 1) {
      const typed = Number(`0.${"9".repeat(digits)}`);
      expect(spares([[1, 0.1]], typed)).toBe(digits);
    }
  });

  it("equals the convolution of every chance", () => {
    const group = fc.tuple(
      fc.integer({ min: 0, max: 60 }),
      fc.constantFrom(0, 0.001, 0.02, 0.03, 0.1, 0.4, 0.9),
    );
    fc.assert(
      fc.property(
        fc.array(group, { minLength: 1, maxLength: 4 }),
        // No sums of products of these breakages come this close to a risk: a tie is decided by rounding.
        fc.constantFrom(0.53, 0.81, 0.9507, 0.99903, 1 - 1.07e-7),
        (groups, confidence) => {
          expect(spares(groups, confidence)).toBe(byConvolution(groups, confidence));
        },
      ),
      { numRuns: 300 },
    );
  });

  it("equals the convolution where it starts far above none", () => {
    const groups = [
      [60_000, 0.03],
      [20_000, 0.1],
    ] as const;
    for (const confidence of [0.5, 0.95, 0.9999])
      expect(spares(groups, confidence)).toBe(byConvolution(groups, confidence));
  });

  it("equals one group where the breakages all but agree", () => {
    for (const count of [5, 4000, 300_000, 3_000_000])
      for (const breakage of [0.03, 0.5, 0.9])
        for (const confidence of [0.6, 0.95, 1 - 1e-8]) {
          const halves = [
            [count, breakage],
            [count, breakage * (1 + 1e-13)],
          ] as const;
          expect([count, breakage, spares(halves, confidence)]).toEqual([
            count,
            breakage,
            countWithSpares(2 * count, breakage, confidence),
          ]);
        }
  });

  it("is one group's number for one group, however it is cut and ordered, and lies between the ends", () => {
    const count = fc.integer({ min: 0, max: 5000 });
    const share = fc.double({ min: 0, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(count, count, share, share, (a, b, low, high) => {
        expect(
          spares([
            [a, low],
            [b, low],
          ]),
        ).toBe(countWithSpares(a + b, low));
        const mixed = spares([
          [a, low],
          [b, high],
        ]);
        expect(
          spares([
            [b, high],
            [a, low],
          ]),
        ).toBe(mixed);
        expect(mixed).toBeGreaterThanOrEqual(countWithSpares(a + b, Math.min(low, high)));
        expect(mixed).toBeLessThanOrEqual(countWithSpares(a + b, Math.max(low, high)));
      }),
    );
  });

  it("needs nothing for nothing and no spare where nothing breaks", () => {
    expect(spares([])).toBe(0);
    expect(
      spares([
        [0, 1],
        [7, 0],
      ]),
    ).toBe(7);
  });

  it.each([
    [[[1, 1]], 0.95, "no number of balloons is enough when all of them break"],
    [[[1, 0.1]], 1, "confidence must be from 0.5 to below 1, found 1; type 95% or 0.95"],
    [
      [
        [1e9, 0.9999],
        [1, 0.1],
      ],
      0.95,
      "count and breakage together are too large",
    ],
  ] as const)("refuses %j at %f", (groups, confidence, sentence) => {
    expect(() => spares(groups, confidence)).toThrow(sentence);
  });
});

describe("expectedUse", () => {
  it("is the mean of the negative binomial", () => {
    expect(expectedUse([{ count: 100, breakage: 0.03 }])).toBeCloseTo(103.0928, 4);
    // 12 / 0.97 + 9 / 0.9, by hand.
    expect(
      expectedUse([
        { count: 12, breakage: 0.03 },
        { count: 9, breakage: 0.1 },
        { count: 0, breakage: 1 },
      ]),
    ).toBeCloseTo(12.37113 + 10, 5);
  });

  it("refuses what never ends", () => {
    expect(() => expectedUse([{ count: 1, breakage: 1 }])).toThrow("all of them break");
  });
});
