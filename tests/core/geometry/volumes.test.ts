import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mixLength, mixPlan, netCount, netPlan } from "../../../src/core/geometry/volumes";

const INCH = 0.0254;
const FOOT = 0.3048;
const size = fc.double({ min: 0.05, max: 0.5, noNaN: true });
const packing = fc.double({ min: 0.2, max: 0.8, noNaN: true });

describe("COUNT_NET and NET_PLAN", () => {
  it("fills a cylinder", () => {
    // By hand: pi/4 x 0.6^2 x 3 = 0.848 m3, half of it over pi/6 x 0.25^3 = 0.00818 m3.
    expect(netCount(3, 0.6, 0.25, 0.5)).toBe(51);
    // Published limits of random packings: loose 0.55 (Jerkins et al. 2008), close 0.64 (Berryman 1983).
    expect(netCount(3, 0.6, 0.25, 0.55)).toBe(57);
    expect(netCount(3, 0.6, 0.25, 0.64)).toBe(66);
    // As wide or as long as a balloon: a cylinder of 3/2 its ball to each balloon's length, half of it filled.
    expect(netCount(1, 0.25, 0.25, 0.5)).toBe(3);
    expect(netCount(0.25, 0.5, 0.25, 0.5)).toBe(3);
    expect(netPlan(3, 0.25, 0.25, 0.5).width).toBeCloseTo(0.5, 12);
  });

  it("hangs half full: a net cut 14 x 25 ft takes about 500 of 9 in", () => {
    // Common practice, no source.
    const count = netCount(25 * FOOT, (14 * FOOT) / Math.PI, 9 * INCH);
    expect(count).toBeGreaterThan(450);
    expect(count).toBeLessThan(550);
    // Half of a random packing (published: 0.55 to 0.64) of the balls' own.
    expect(netPlan(500, 9 * INCH, 25 * FOOT).girth / FOOT).toBeCloseTo(14, 0);
  });

  it("cuts a net that holds the balloons", () => {
    fc.assert(
      fc.property(fc.integer({ min: 50, max: 100_000 }), size, packing, (count, d, share) => {
        const { volume, width, girth } = netPlan(count, d, 2 * d, share);
        expect(netCount(2 * d, width, d, share)).toBe(count);
        expect(girth / width).toBeCloseTo(Math.PI, 12);
        expect((volume * share) / ((Math.PI / 6) * d ** 3)).toBeCloseTo(count, 6);
      }),
    );
  });

  it("refuses nets thinner than a balloon", () => {
    expect(() => netCount(3, 0.2, 0.25)).toThrow("balloon must fit into the net, found 0.25 m");
    expect(() => netPlan(3, 0.25, 20, 0.5)).toThrow(
      "length must be from one balloon to 1 m, so that the balloons fit into the net, found 20 m",
    );
    expect(() => netPlan(0, 0.25, 2)).toThrow("count must be a whole number from 1");
    expect(() => netCount(3, 1, 0.25, 0)).toThrow("packing must be more than 0, up to 1, found 0");
  });
});

describe("MIX_PLAN and MIX_METRES", () => {
  const sizes = [4.5 * INCH, 9 * INCH, 14 * INCH];

  it("uses 10 to 12 balloons to the foot at 0.55 m", () => {
    // Common practice, no source: mixes of mostly small balloons.
    const plan = mixPlan(10 * FOOT, 0.55, sizes, [0.6, 0.3, 0.1]);
    const total = plan.reduce((sum, row) => sum + row.balloons, 0);
    expect(total).toBeGreaterThanOrEqual(100);
    expect(total).toBeLessThanOrEqual(120);
  });

  it("fills a body as thick as its balloons", () => {
    // Packing 0.7 of a cylinder that has 3/2 of a ball's volume to each balloon's length: 6 x 1.5 x 0.7 = 6.3.
    expect(mixPlan(3, 0.5, [0.5], [1])).toEqual([{ size: 0.5, balloons: 6 }]);
    expect(mixPlan(3, 0.5, [0.5], [1e9])).toEqual([{ size: 0.5, balloons: 6 }]);
  });

  it("has the volume of the body times the packing, shares by number, and gives its length back", () => {
    const share = fc.double({ min: 0.05, max: 1, noNaN: true });
    const metres = fc.double({ min: 1, max: 50, noNaN: true });
    fc.assert(
      fc.property(
        metres,
        fc.array(fc.tuple(size, share), { minLength: 1, maxLength: 8 }),
        packing,
        (length, rows, fill) => {
          const [across, shares] = [rows.map(([d]) => d), rows.map(([, part]) => part)];
          const plan = mixPlan(length, 0.6, across, shares, fill);
          const counts = plan.map((row) => row.balloons);
          const total = counts.reduce((sum, count) => sum + count, 0);
          fc.pre(total > 0);
          const whole = shares.reduce((sum, part) => sum + part, 0);
          counts.forEach((count, index) => {
            expect(Math.abs(count - (total * (shares[index] ?? 0)) / whole)).toBeLessThan(1);
          });
          const largest = Math.max(...across);
          const slack = ((rows.length + 1) * (Math.PI / 6) * largest ** 3) / (fill * (Math.PI / 4) * 0.36);
          expect(Math.abs(mixLength(counts, across, 0.6, fill) - length)).toBeLessThan(slack);
        },
      ),
    );
  });

  it("never falls when the garland grows, and scales", () => {
    const metres = fc.double({ min: 0.5, max: 50, noNaN: true });
    const total = (length: number, times = 1) =>
      mixPlan(
        length * times,
        0.55 * times,
        sizes.map((d) => d * times),
        [3, 2, 1],
      ).reduce((sum, row) => sum + row.balloons, 0);
    fc.assert(
      fc.property(metres, metres, (one, other) => {
        expect(total(Math.max(one, other))).toBeGreaterThanOrEqual(total(Math.min(one, other)));
        expect(total(one, 2)).toBe(total(one));
        expect(Math.abs(total(one) + total(other) - total(one + other))).toBeLessThanOrEqual(1);
      }),
    );
  });

  it("names the row that is wrong", () => {
    expect(() => mixPlan(3, 0.5, [0.2, 0.6], [1, 1])).toThrow(
      "sizes row 2: size must be at most the thickness of 0.5 m, found 0.6 m",
    );
    expect(() => mixPlan(3, 0.5, [0.2, 0.3], [1])).toThrow(
      "shares must have as many rows as sizes, 2, found 1",
    );
    expect(() => mixPlan(3, 0.5, [0.2, 0.3], [1, -1])).toThrow("shares row 2 must be 0 or more, found -1");
    expect(() => mixPlan(3, 0.5, [0.2, 0.3], [2e9, 1])).toThrow(
      "shares row 1 must be 0 or more, found 2000000000",
    );
    expect(() => mixPlan(3, 0.5, [0.2, 0.3], [0, 0])).toThrow("shares must be above 0 in at least one row");
    expect(() => mixPlan(3, 0.5, [], [])).toThrow("sizes must have at least one row");
    expect(() => mixLength([1, 2], [0.2, 0], 0.5)).toThrow(
      "sizes row 2: size must be more than 0 m, found 0",
    );
  });
});
