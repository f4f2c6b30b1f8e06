import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { learnedBreakage, learnedFactor, type RatioEvidence } from "../../../src/core/event/learned";

describe("learnedFactor", () => {
  it("is the trade default without jobs", () => {
    const none = learnedFactor([], 0.3, 0.4, 0.9);
    expect(none).toMatchObject({ jobs: 0, estimate: 1, ownWeight: 0, ownAlone: undefined });
  });

  it("shrinks one job of 240 balloons in 3 h instead of 2 h (by hand, step by step)", () => {
    // y = ln 1.5 = 0.40547; 1/v = 1/(0.09 + 1/240) = 10.6195; P = 6.25 + 10.6195 = 16.8695; m = 4.3058 / P = 0.25524;
    // 1/sqrt P = 0.24347, times 1.6449 = 0.40049.
    const learned = learnedFactor([{ ratio: 1.5, size: 240 }], 0.3, 0.4, 0.9);
    expect(0.5 * learned.estimate).toBeCloseTo(0.6454, 4);
    expect(learned.ownWeight).toBeCloseTo(0.63, 3);
    expect(0.5 * learned.low).toBeCloseTo(0.432, 3);
    expect(0.5 * learned.high).toBeCloseTo(0.963, 3);
    expect(learned.ownAlone).toBeCloseTo(1.5, 12);
  });

  it("is the textbook posterior of the mean of a normal sample with known variance", () => {
    // Published worked example: Gelman et al., Bayesian Data Analysis, 2.5 (equations 2.9 to 2.12), n equal variances:
    // mean = (mu0 / tau0^2 + n ybar / sigma^2) / (1 / tau0^2 + n / sigma^2); equations from memory.
    const [jobSpread, ownSpread, size] = [0.3, 0.4, 1e12];
    const logs = [0.1, -0.2, 0.4, 0.3];
    const n = logs.length;
    const average = logs.reduce((sum, y) => sum + y, 0) / n;
    const precision = 1 / ownSpread ** 2 + n / jobSpread ** 2;
    const mean = (n * average) / jobSpread ** 2 / precision;
    const learned = learnedFactor(
      logs.map((y) => ({ ratio: Math.exp(y), size })),
      jobSpread,
      ownSpread,
      0.9,
    );
    expect(Math.log(learned.estimate)).toBeCloseTo(mean, 9);
    expect(Math.log(learned.high) - Math.log(learned.low)).toBeCloseTo(
      (2 * 1.6448536269514722) / Math.sqrt(precision),
      9,
    );
  });

  it("lies between the default and what the jobs alone say, whatever their order", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            ratio: fc.double({ min: 0.2, max: 5, noNaN: true }),
            size: fc.integer({ min: 1, max: 5000 }),
          }),
          { minLength: 1, maxLength: 12 },
        ),
        (jobs) => {
          const learned = learnedFactor(jobs, 0.3, 0.4, 0.9);
          const own = learned.ownAlone ?? 1;
          expect(learned.estimate).toBeGreaterThanOrEqual(Math.min(1, own) - 1e-12);
          expect(learned.estimate).toBeLessThanOrEqual(Math.max(1, own) + 1e-12);
          expect(learnedFactor(jobs.toReversed(), 0.3, 0.4, 0.9).estimate).toBeCloseTo(learned.estimate, 12);
          const more = learnedFactor([...jobs, { ratio: own, size: 100 }], 0.3, 0.4, 0.9);
          expect(more.ownWeight).toBeGreaterThan(learned.ownWeight);
        },
      ),
    );
  });
});

describe("learnedBreakage", () => {
  it("counts 5 popped of 101 taken as 2.5 of 50.5 (by hand)", () => {
    // Beta(6, 194); effect 1 + 100 x 0.01 = 2; (6 + 2.5) / (200 + 50.5)
    const learned = learnedBreakage([{ taken: 101, popped: 5 }], 0.03, 200, 0.01, 0.9);
    expect(learned.estimate).toBeCloseTo(0.03393, 5);
    expect(learned.ownAlone).toBeCloseTo(5 / 101, 12);
    expect(learned.ownWeight).toBeCloseTo(50.5 / 250.5, 12);
  });

  it("has the closed upper point of Beta(1, 199) (1 - 0.05^(1/199))", () => {
    expect(learnedBreakage([], 0.005, 200, 0.01, 0.9).high).toBeCloseTo(0.01494, 5);
  });

  it("is the textbook Beta-binomial update where balloons fail on their own", () => {
    // Beta(a, b) with k of n gives mean (a + k) / (a + b + n): Gelman et al., Bayesian Data Analysis, 2.4, from memory.
    const learned = learnedBreakage([{ taken: 60, popped: 3 }], 0.1, 50, 0, 0.9);
    expect(learned.estimate).toBeCloseTo((5 + 3) / (50 + 60), 12);
  });
});

/** A repeatable stream of uniform numbers: the multiplier of Park and Miller's minimal standard generator (1988). */
function uniforms(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

function normals(uniform: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

describe("coverage of the 90 % range, 1,000 made-up decorators", () => {
  it("is between 88 and 92 % for pace", () => {
    const uniform = uniforms(20270619);
    const normal = normals(uniform);
    let inside = 0;
    for (let decorator = 0; decorator < 1000; decorator += 1) {
      const own = 0.4 * normal();
      const jobs = Array.from({ length: 1 + Math.floor(uniform() * 8) }, (): RatioEvidence => {
        const size = 20 + Math.floor(uniform() * 600);
        return { ratio: Math.exp(own + Math.sqrt(0.09 + 1 / size) * normal()), size };
      });
      const { low, high } = learnedFactor(jobs, 0.3, 0.4, 0.9);
      if (low <= Math.exp(own) && Math.exp(own) <= high) inside += 1;
    }
    expect(inside / 1000).toBeGreaterThanOrEqual(0.88);
    expect(inside / 1000).toBeLessThanOrEqual(0.92);
  });

  it("is between 88 and 92 % for breakage", () => {
    const uniform = uniforms(31415);
    const normal = normals(uniform);
    // Gamma by Marsaglia and Tsang (2000), so that Beta shares can be drawn.
    const gamma = (shape: number): number => {
      const d = shape - 1 / 3;
      for (;;) {
        const z = normal();
        const v = (1 + z / Math.sqrt(9 * d)) ** 3;
        if (v > 0 && Math.log(uniform()) < 0.5 * z * z + d - d * v + d * Math.log(v)) return d * v;
      }
    };
    const beta = (a: number, b: number): number => {
      const x = gamma(a);
      return x / (x + gamma(b));
    };
    let inside = 0;
    for (let decorator = 0; decorator < 1000; decorator += 1) {
      const own = beta(6, 194);
      const likeness = 0.01;
      const jobs = Array.from({ length: 1 + Math.floor(uniform() * 8) }, () => {
        const taken = 50 + Math.floor(uniform() * 400);
        const scale = 1 / likeness - 1;
        const ofJob = beta(own * scale + 1e-9 + (own * scale < 0.4 ? 0.4 : 0), (1 - own) * scale);
        let popped = 0;
        for (let balloon = 0; balloon < taken; balloon += 1) if (uniform() < ofJob) popped += 1;
        return { taken, popped };
      });
      const { low, high } = learnedBreakage(jobs, 0.03, 200, likeness, 0.9);
      if (low <= own && own <= high) inside += 1;
    }
    expect(inside / 1000).toBeGreaterThanOrEqual(0.88);
    expect(inside / 1000).toBeLessThanOrEqual(0.92);
  });
});
