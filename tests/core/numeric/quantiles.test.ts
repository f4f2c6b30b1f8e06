import fc from "fast-check";
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { betaChance, betaQuantile, logGamma, normalQuantile } from "../../../src/core/numeric/quantiles";

const { jStat } = jstat as unknown as {
  jStat: {
    ibeta: (x: number, a: number, b: number) => number;
    gammaln: (x: number) => number;
  };
};

describe("logGamma", () => {
  it("is the logarithm of the factorial at whole numbers", () => {
    let logFactorial = 0;
    for (let n = 1; n < 60; n += 1) {
      expect(logGamma(n)).toBeCloseTo(logFactorial, 11);
      logFactorial += Math.log(n);
    }
  });

  it("is half the logarithm of pi at one half (DLMF 5.4.6)", () => {
    expect(logGamma(0.5)).toBeCloseTo(0.5 * Math.log(Math.PI), 13);
  });
});

describe("betaChance", () => {
  it("agrees with a library (jstat)", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        fc.double({ min: 0.2, max: 400, noNaN: true }),
        fc.double({ min: 0.2, max: 400, noNaN: true }),
        (x, a, b) => {
          expect(betaChance(x, a, b)).toBeCloseTo(jStat.ibeta(x, a, b), 7);
        },
      ),
    );
  });

  it("has the closed forms of one parameter equal to 1 (DLMF 8.17.7)", () => {
    expect(betaChance(0.3, 1, 5)).toBeCloseTo(1 - 0.7 ** 5, 14);
    expect(betaChance(0.3, 5, 1)).toBeCloseTo(0.3 ** 5, 14);
    expect([betaChance(0, 2, 3), betaChance(1, 2, 3)]).toEqual([0, 1]);
  });
});

describe("betaQuantile", () => {
  it("is the closed form where the first parameter is 1", () => {
    expect(betaQuantile(0.95, 1, 199)).toBeCloseTo(1 - 0.05 ** (1 / 199), 12);
  });

  it("turns the chance back", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.double({ min: 0.5, max: 300, noNaN: true }),
        fc.double({ min: 0.5, max: 300, noNaN: true }),
        (chance, a, b) => {
          expect(betaChance(betaQuantile(chance, a, b), a, b)).toBeCloseTo(chance, 9);
        },
      ),
    );
  });
});

describe("normalQuantile", () => {
  it("has the tabulated values (NIST/SEMATECH e-Handbook 1.3.6.7.1, and 40-digit values for the tails, from memory)", () => {
    expect(normalQuantile(0.5)).toBeCloseTo(0, 12);
    expect(normalQuantile(0.95)).toBeCloseTo(1.6448536269514722, 10);
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 10);
    expect(normalQuantile(0.995)).toBeCloseTo(2.5758293035489004, 10);
    expect(normalQuantile(0.99999)).toBeCloseTo(4.264890793922825, 7);
    expect(normalQuantile(0.1)).toBeCloseTo(-1.2815515655446004, 10);
  });
});
