import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { spread, spreadOnSphere, type Spot } from "../../../src/core/geometry/spread";

const distance = (one: Spot, other: Spot): number =>
  Math.hypot(one.x - other.x, one.y - other.y, one.z - other.z);

function nearest(spots: readonly Spot[]): number {
  return Math.min(
    ...spots.flatMap((spot, index) => spots.slice(index + 1).map((other) => distance(spot, other))),
  );
}

describe("spreadOnSphere", () => {
  it.each([
    // Best known smallest angles: Sloane, Hardin and Smith, Tables of Spherical Codes.
    [12, 63.4349488],
    [24, 43.6907671],
    [50, 29.7529564],
  ])("comes near the best known packing of %i points", (count, degrees) => {
    const best = 2 * Math.sin((degrees * Math.PI) / 360);
    const spots = spreadOnSphere(count, 1, best);
    expect(spots).toHaveLength(count);
    for (const spot of spots) expect(Math.hypot(spot.x, spot.y, spot.z)).toBeCloseTo(1, 9);
    expect(nearest(spots)).toBeGreaterThan(0.9 * best);
  });

  it("gives the same places every time, and none for none", () => {
    expect(spreadOnSphere(30, 1, 0.5)).toEqual(spreadOnSphere(30, 1, 0.5));
    expect(spreadOnSphere(0, 1, 0.5)).toEqual([]);
  });
});

it("pushes two overlapping balls apart along their line, the smaller one further", () => {
  const spots: Spot[] = [
    { x: 0, y: 0, z: 0, radius: 2 },
    { x: 1, y: 0, z: 0, radius: 1 },
  ];
  spread(spots, 1, () => undefined);
  const [large, small] = spots;
  if (large === undefined || small === undefined) throw new Error("a ball is missing");
  expect(distance(large, small)).toBeCloseTo(3, 6);
  expect(small.x - 1).toBeGreaterThan(-large.x);
  expect(large.y).toBe(0);
});

describe("pushing balls apart", () => {
  const stay = (): void => undefined;
  const at = (x: number, y: number, z: number, radius: number): Spot => ({ x, y, z, radius });

  it("ends at the spacing in whatever direction they lie, whatever their size", () => {
    const part = fc.double({ min: -1, max: 1, noNaN: true });
    const size = fc.double({ min: 0.1, max: 5, noNaN: true });
    fc.assert(
      fc.property(
        part,
        part,
        part,
        size,
        size,
        fc.double({ min: 0.6, max: 3, noNaN: true }),
        (x, y, z, r, s, ratio) => {
          const length = Math.hypot(x, y, z);
          fc.pre(length > 0.05);
          const start = (0.7 * ratio * (r + s)) / length;
          const spots = [at(1, 2, 3, r), at(1 + start * x, 2 + start * y, 3 + start * z, s)] as const;
          // The larger a ball, the less it gives way: the mean weighted by radius stays where it is.
          const middle = () =>
            (["x", "y", "z"] as const).map((axis) => r * spots[0][axis] + s * spots[1][axis]);
          const before = middle();
          spread(spots, ratio, stay);
          expect(distance(...spots) / (ratio * (r + s))).toBeCloseTo(1, 9);
          middle().forEach((value, axis) => {
            expect(Math.abs(value - (before[axis] ?? NaN))).toBeLessThan(1e-9 * (r + s) * (r + s));
          });
        },
      ),
    );
  });

  it("leaves balls where they are that keep their distance", () => {
    const spots = [at(0, 0, 0, 1), at(2, 0, 0, 1), at(0, 2.5, 0, 1), at(0, 0, 3, 1)];
    const before = spots.map((spot) => ({ ...spot }));
    spread(spots, 1, stay);
    expect(spots).toEqual(before);
  });

  it("ends once all are apart, and not before those that have met are", () => {
    let kept = 0;
    const spots = [at(0, 0, 0, 1), at(2, 0, 0, 1), at(0, 2.5, 0, 1)];
    spread(spots, 1, () => (kept += 1));
    // One step shows it.
    expect(kept).toBe(3);
    // A pair apart after one step is looked at again when neighbours are searched anew, after twenty.
    kept = 0;
    spread([at(0, 0, 0, 1), at(1, 0, 0, 1)], 1, () => (kept += 1));
    expect(kept).toBe(2 * 21);
  });

  it("leaves two balls at one place there, which have no direction to go", () => {
    const spots = [at(1, 1, 1, 1), at(1, 1, 1, 1)];
    spread(spots, 1, stay);
    expect(spots).toEqual([at(1, 1, 1, 1), at(1, 1, 1, 1)]);
  });

  it("notices balls that come together while they are moved", () => {
    // A row of ten pressed into each other, with an eleventh well beyond them in the way.
    for (const axis of ["x", "y", "z"] as const) {
      const spots = Array.from({ length: 10 }, (_, index) => ({ ...at(0, 0, 0, 1), [axis]: index * 0.2 }));
      const beyond = { ...at(0, 0, 0, 1), [axis]: 8 };
      spread([...spots, beyond], 1, stay);
      expect(nearest([...spots, beyond])).toBeGreaterThan(1.9);
    }
  });

  it("keeps each ball where it may be", () => {
    const spots = Array.from({ length: 12 }, (_, index) => at(0.1 * index, 0.07 * index, 0, 1));
    spread(spots, 1, (spot) => {
      spot.x = Math.max(-3, Math.min(3, spot.x));
      spot.z = 0;
    });
    for (const { x, z } of spots) {
      expect(Math.abs(x)).toBeLessThanOrEqual(3);
      expect(z).toBe(0);
    }
  });
});
