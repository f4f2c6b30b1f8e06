import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  BEST_ANGLES,
  bestAngle,
  countOnSphere,
  mostPoints,
  mostPointsAllowed,
  smoothOnSphere,
} from "../../../src/core/geometry/spherical-codes";

const degrees = (angle: number) => (angle * 180) / Math.PI;
const radians = (angle: number) => (angle * Math.PI) / 180;

// Chords of the best known packings of 61 to 130 points on the unit sphere, Sloane, Hardin & Smith, Tables of
// Spherical Codes, as stored in github.com/anatoliy-kuznetsov/thomson-tammes, tammes_putative_optima.py at
// 08110170.
const BEST_CHORDS = [
  0.464739834725, 0.461526054431, 0.45817860949, 0.45389829779, 0.451089549968, 0.449008290762,
  0.444526201472, 0.44077903488, 0.438562409151, 0.435791150252, 0.432673695771, 0.431626492919,
  0.425272550223, 0.423006800529, 0.420972909472, 0.418011642467, 0.415845296803, 0.414645779168,
  0.409401979929, 0.408190247912, 0.404679642023, 0.402063645571, 0.400155264814, 0.399620572101,
  0.394958159436, 0.39316503476, 0.390979289887, 0.389630817842, 0.387040756232, 0.384256467178,
  0.382505358394, 0.382090523229, 0.378368782865, 0.376883372754, 0.374669194862, 0.373401463817,
  0.371343858514, 0.370836914901, 0.366804135253, 0.365006496097, 0.363247113773, 0.361994231273,
  0.359978546381, 0.358576684241, 0.356554350742, 0.354846404242, 0.353503035266, 0.352527960938,
  0.349862585619, 0.349209705265, 0.346995161817, 0.345427924425, 0.343954505546, 0.342912683833,
  0.340831638892, 0.339555542037, 0.338033148926, 0.336795532353, 0.335701332573, 0.335671544353,
  0.332431423047, 0.331300760365, 0.330205192735, 0.329301822502, 0.327423567666, 0.326334843956,
  0.324758669887, 0.323809991063, 0.322578482188, 0.321663460374,
];
const KNOWN = BEST_CHORDS.map((chord, index) => ({ points: 61 + index, angle: 2 * Math.asin(chord / 2) }));

describe("table of spherical codes", () => {
  // Angles that have closed forms: regular tetrahedron, octahedron, square antiprism, icosahedron, and 9
  // points (Schuette & van der Waerden 1951); cosines of 7, 8, 10 points from H. Cohn, Table of spherical
  // codes, hdl.handle.net/1721.1/142661; 13 and 14 points from Musin & Tarasov 2012 and 2015; 15 points from
  // the root of 13u^5 - u^4 + 6u^3 + 2u^2 - 3u - 1.
  it.each([
    [4, degrees(Math.acos(-1 / 3))],
    [5, 90],
    [6, 90],
    [7, degrees(Math.acos(0.21013831273060307))],
    [8, degrees(Math.acos(0.2612038749637414))],
    [9, degrees(Math.acos(1 / 3))],
    [10, degrees(Math.acos(0.40439432521625074))],
    [11, degrees(Math.acos(1 / Math.sqrt(5)))],
    [12, degrees(Math.acos(1 / Math.sqrt(5)))],
    [13, 57.1367031],
    [14, degrees(0.971634742886224)],
    [15, 53.65785013],
    [30, degrees(0.6736467551690225)],
  ])("has the published angle of %i points", (points, angle) => {
    expect(Math.abs(degrees(bestAngle(points)) - angle)).toBeLessThan(1.1e-7);
  });

  it("is exact below the table", () => {
    expect(degrees(bestAngle(2))).toBe(180);
    expect(degrees(bestAngle(3))).toBeCloseTo(120, 12);
    expect(mostPoints(radians(170))).toBe(2);
    expect(mostPoints(radians(180))).toBe(2);
    expect(mostPoints(radians(120))).toBe(3);
    expect(mostPoints(radians(109.6))).toBe(3);
  });

  it("covers 4 to 60 points and never opens up", () => {
    expect(BEST_ANGLES).toHaveLength(57);
    BEST_ANGLES.slice(1).forEach((angle, index) => {
      expect(angle).toBeLessThanOrEqual(BEST_ANGLES[index] ?? 0);
    });
  });

  it("counts the largest number that has the angle", () => {
    expect(mostPoints(radians(90))).toBe(6);
    expect(mostPoints(Math.acos(1 / Math.sqrt(5)))).toBe(12);
    expect(mostPoints(radians(60))).toBe(12); // the kissing number, Schuette & van der Waerden 1953
    expect(mostPoints(radians(43.7))).toBe(23);
  });
});

describe("Fejes Toth bound", () => {
  // Chord bound sqrt(4 - 1/sin^2(w)), w = N pi/(6(N - 2)), evaluated apart from the code under test.
  it.each([
    [3, 120],
    [4, 109.47122],
    [6, 90],
    [12, 63.43495],
    [13, 60.91975],
    [20, 49.01603],
    [24, 44.715],
    [40, 34.58702],
    [60, 28.21939],
  ])("allows %i points at %f degrees", (points, angle) => {
    expect(Math.abs(mostPointsAllowed(radians(angle)) / points - 1)).toBeLessThan(1e-6);
  });

  it("is its own formula turned round", () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 1_000_000 }), (points) => {
        const w = (points * Math.PI) / (6 * (points - 2));
        const angle = 2 * Math.asin(Math.sqrt(Math.max(0, 4 - 1 / Math.sin(w) ** 2)) / 2);
        expect(Math.abs(mostPointsAllowed(angle) / points - 1)).toBeLessThan(1e-8 + 1e-12 * points);
      }),
    );
  });

  it("is never passed by the counts", () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: (2 * Math.PI) / 3, noNaN: true }), (angle) => {
        expect(mostPoints(angle)).toBeLessThanOrEqual(mostPointsAllowed(angle) + 1e-6);
      }),
    );
  });
});

describe("continuation above 60 points", () => {
  it("begins where the table ends", () => {
    const last = bestAngle(60);
    expect(mostPoints(last)).toBe(60);
    expect(mostPoints(last * (1 - 1e-9))).toBe(60);
    expect(mostPoints(last * 1.001)).toBe(59);
  });

  it("counts as many as every best known packing of 61 to 130 points or one fewer, two fewer once", () => {
    const errors = KNOWN.map(({ points, angle }) => mostPoints(angle * (1 - 1e-12)) - points);
    errors.forEach((error) => {
      expect(error).toBeGreaterThanOrEqual(-2);
      expect(error).toBeLessThanOrEqual(0);
    });
    // At exactly the angle of a packing the smooth count may be just below it: the whole number is then one
    // less.
    expect(errors.filter((error) => error === -2)).toHaveLength(1);
  });

  it("has angles within 0.8 % of the best known ones", () => {
    const errors = KNOWN.map(({ points, angle }) => bestAngle(points) / angle - 1);
    expect(Math.max(...errors.map(Math.abs))).toBeLessThan(0.008);
    expect(Math.abs(errors.reduce((sum, error) => sum + error, 0) / errors.length)).toBeLessThan(0.0005);
  });

  it("tends to the flat hexagonal pattern", () => {
    // N = 8 pi/sqrt 3 (R/(s d))^2, with the chord s d/R of the angle.
    const share = (angle: number) =>
      mostPoints(angle) / (((8 * Math.PI) / Math.sqrt(3)) * (1 / (2 * Math.sin(angle / 2))) ** 2);
    expect(share(0.1)).toBeGreaterThan(0.96);
    expect(share(0.01)).toBeGreaterThan(0.996);
    expect(share(0.001)).toBeGreaterThan(0.9996);
    expect(share(0.001)).toBeLessThan(1);
  });

  it("never counts fewer than a golden spiral places", () => {
    // Explicit points: equal-area heights, golden angle; their smallest chord measured here.
    for (const points of [150, 400, 1000]) {
      const spiral = Array.from({ length: points }, (_, index) => {
        const y = 1 - (2 * index + 1) / points;
        const turn = index * Math.PI * (3 - Math.sqrt(5));
        const radius = Math.sqrt(1 - y * y);
        return [radius * Math.cos(turn), y, radius * Math.sin(turn)] as const;
      });
      let least = 4;
      spiral.forEach(([x, y, z], index) => {
        for (const [a, b, c] of spiral.slice(index + 1))
          least = Math.min(least, Math.hypot(x - a, y - b, z - c));
      });
      expect(mostPoints(2 * Math.asin(least / 2))).toBeGreaterThan(points);
    }
  });

  it("never falls as the angle shrinks, and gives its own points back", () => {
    const angle = fc.double({ min: 1e-4, max: 2, noNaN: true });
    fc.assert(
      fc.property(angle, angle, (one, other) => {
        expect(mostPoints(Math.min(one, other))).toBeGreaterThanOrEqual(mostPoints(Math.max(one, other)));
      }),
    );
    fc.assert(
      fc.property(fc.integer({ min: 61, max: 100_000_000 }), (points) => {
        expect(mostPoints(bestAngle(points))).toBe(points);
      }),
    );
  });
});

describe("balloons on a sphere", () => {
  it("are the known solids where they touch", () => {
    // Circumscribed radii over the edge: octahedron 1/sqrt 2, icosahedron sqrt(10 + 2 sqrt 5)/4.
    expect(countOnSphere(Math.SQRT1_2, 1)).toBe(6);
    expect(countOnSphere(Math.sqrt(10 + 2 * Math.sqrt(5)) / 4, 1)).toBe(12);
    expect(countOnSphere(0.49, 1)).toBe(1);
    expect(smoothOnSphere(0.49, 1)).toBe(1);
    expect(smoothOnSphere(Math.SQRT1_2 * (1 + 1e-9), 1)).toBeCloseTo(6, 6);
  });

  it("rise smoothly from one known count to the next", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.51, max: 20, noNaN: true }), (radius) => {
        const smooth = smoothOnSphere(radius, 1);
        const count = countOnSphere(radius, 1);
        expect(smooth).toBeGreaterThanOrEqual(count - 1e-6);
        expect(smooth).toBeLessThanOrEqual(count + 2);
        expect(smoothOnSphere(radius * 1.0001, 1)).toBeGreaterThanOrEqual(smooth - 1e-6);
        expect(smoothOnSphere(radius * 1.0001, 1) - smooth).toBeLessThan(0.002 * smooth + 0.2);
      }),
    );
  });
});
