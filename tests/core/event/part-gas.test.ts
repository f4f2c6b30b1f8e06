import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  balloonVolume,
  partAir,
  partHelium,
  partLift,
  partTether,
  roundFoil,
} from "../../../src/core/event/part-gas";
import { inches } from "./job-builder";
import { partOfRow, termsOf } from "./planned";

const LITRE = 0.001;
const GRAM = 0.001;
const foil = { kind: "foil", printed: inches(18) } as const;
const bouquet = { kind: "bouquet", balloons: 5 } as const;

describe("balloonVolume", () => {
  it("G1: a foil of 18 in holds 14.5567 L (Amer. Math. Monthly 101, 1994: 0.152315527 D^3)", () => {
    expect(balloonVolume(partOfRow(foil)) / LITRE).toBeCloseTo(14.5567, 3);
  });

  it("a 260 is a cylinder 2 in across and 60 in long (by hand: pi/4 x 0.0508^2 x 1.524 m3)", () => {
    const part = partOfRow({ kind: "count", type: "long", code: 260, balloons: 1 });
    expect(balloonVolume(part) / LITRE).toBeCloseTo(3.0889, 3);
  });

  it("Z4: a latex balloon of 11 in holds 13.7044 L (common practice, no source)", () => {
    expect(balloonVolume(partOfRow(bouquet)) / LITRE).toBeCloseTo(13.7044, 2);
  });

  it("is what the packet says, whatever the shape would give", () => {
    expect(balloonVolume(partOfRow({ ...foil, "litres each": 16 * LITRE }))).toBe(16 * LITRE);
  });

  it("G7: a sleeve holds none", () => {
    expect(balloonVolume(partOfRow({ kind: "sleeve", printed: inches(60), height: 1.8 }))).toBe(0);
  });
});

describe("partAir", () => {
  it("pumps air into every balloon of every piece, and none where there is helium", () => {
    const typed = { "litres each": 10 * LITRE, balloons: 12, quantity: 3 };
    expect(partAir(partOfRow({ kind: "count", ...typed }))).toBeCloseTo(0.36, 12);
    expect(partAir(partOfRow({ kind: "bouquet", ...typed }))).toBe(0);
  });
});

describe("partHelium", () => {
  it("G2: orders 640.5 L for 40 foils of 18 in (by hand: 582.27 x 1.1)", () => {
    expect(partHelium(partOfRow({ ...foil, quantity: 40 }), termsOf()) / LITRE).toBeCloseTo(640.5, 1);
  });

  it("Z4: orders 14.047 L for one of 11 in without loss (by hand: 13.7044 x 1.025 overpressure)", () => {
    const part = partOfRow({ kind: "bouquet", balloons: 1 });
    expect(partHelium(part, termsOf({ "gas loss": 0 })) / LITRE).toBeCloseTo(14.047, 2);
  });

  it("takes what a packet says as free gas already", () => {
    const part = partOfRow({ kind: "bouquet", balloons: 10, "litres each": 15 * LITRE });
    expect(partHelium(part, termsOf({ "gas loss": 0 })) / LITRE).toBeCloseTo(150, 9);
  });

  it("is never less for more balloons or more loss, and never more at height", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 200 }),
        fc.integer({ min: 0, max: 50 }),
        fc.integer({ min: 0, max: 3000 }),
        (balloons, loss, altitude) => {
          const at = (count: number, share: number, height: number): number =>
            partHelium(
              partOfRow({ kind: "bouquet", balloons: count }),
              termsOf({ "gas loss": share / 100, altitude: height }),
            );
          const usual = at(balloons, loss, 0);
          expect(at(balloons + 1, loss, 0)).toBeGreaterThan(usual);
          expect(at(balloons, loss + 1, 0)).toBeGreaterThan(usual);
          expect(at(balloons, loss, altitude)).toBeLessThanOrEqual(usual + 1e-12);
        },
      ),
      { numRuns: 15 },
    );
  });

  it("is none for air", () => {
    expect(partHelium(partOfRow({ kind: "column", height: 2 }), termsOf())).toBe(0);
  });
});

describe("partLift", () => {
  it("G4: lifts one foil of 18 in by 5.13 g (by hand: 14.5567 L x 1.02885 g - 9.85 g, film from memory)", () => {
    expect(partLift(partOfRow(foil), 0, termsOf()) / GRAM).toBeCloseTo(5.13, 2);
  });

  it("carries the rubber of a second balloon inside", () => {
    const part = partOfRow({ ...bouquet, "grams each": 3 * GRAM });
    const lost = partLift(part, 0, termsOf()) - partLift(part, 5, termsOf());
    expect(lost).toBeCloseTo(5 * 3 * GRAM, 12);
  });

  it("lies below 0 where a balloon does not float, and asks for the weight of a long one", () => {
    expect(partLift(partOfRow({ ...bouquet, "grams each": 0.05 }), 0, termsOf())).toBeLessThan(0);
    const long = partOfRow({ kind: "bouquet", type: "long", code: 260, balloons: 1 });
    expect(() => partLift(long, 0, termsOf())).toThrow(
      "pieces row 2: grams each must be given for a long balloon with helium, found nothing",
    );
  });
});

describe("partTether", () => {
  it("G5: holds five latex of 11 in and a foil of 18 in with 89.4 g (by hand: 1.5 x (5 x 10.90 + 5.13))", () => {
    const both = partTether(partOfRow(bouquet), 0, termsOf()) + partTether(partOfRow(foil), 0, termsOf());
    expect(both / GRAM).toBeCloseTo(89.4, 1);
  });

  it("is none for air, and none for what lies loose against a ceiling", () => {
    expect(partTether(partOfRow({ kind: "column", height: 2 }), 0, termsOf())).toBe(0);
    expect(partTether(partOfRow({ kind: "ceiling", width: 3, length: 3 }), 0, termsOf())).toBe(0);
  });

  it("is never below 0, though a balloon may not float", () => {
    expect(partTether(partOfRow({ ...bouquet, "grams each": 0.05 }), 0, termsOf())).toBe(0);
  });

  it("needs a gust outdoors, and more weight the stronger it is", () => {
    const part = partOfRow({ ...bouquet, where: "outdoors", inflated: inches(11) });
    expect(() => partTether(part, 0, termsOf())).toThrow("gust must be given in terms");
    const calm = partTether(partOfRow(bouquet), 0, termsOf());
    const [breeze, wind] = [3, 6].map((gust) => partTether(part, 0, termsOf({ gust })));
    expect(breeze).toBeGreaterThan(calm);
    expect(wind).toBeGreaterThan(breeze ?? 0);
  });
});

describe("roundFoil", () => {
  it("asks for the packet of a foil with helium, and of nothing else", () => {
    expect(roundFoil(partOfRow(foil)).map(({ what }) => what)).toEqual([
      "pieces row 2: foil is taken as round, type litres each and grams each from its packet",
    ]);
    for (const row of [
      { ...foil, "litres each": 16 * LITRE },
      { ...foil, gas: "air" },
      { ...foil, quantity: 0 },
      bouquet,
    ] as const)
      expect(roundFoil(partOfRow(row))).toEqual([]);
  });
});
