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
