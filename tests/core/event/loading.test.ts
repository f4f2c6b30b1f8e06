import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { loadTrips, misfit, type Load, type LoadSpace } from "../../../src/core/event/loading";

const van: LoadSpace = { vehicle: "van", m3: 11 };

describe("misfit", () => {
  const car: LoadSpace = { vehicle: "car", m3: 3, doorWidth: 1, doorHeight: 0.8, length: 2.5 };

  it("says by how much a covered ball misses a door (by hand: 1.109 - 1.0, 1.109 - 0.8)", () => {
    expect(misfit([1.109, 1.109, 2.383], car)).toBe("0.109 m and 0.309 m too wide for the door");
  });

  it("turns a box either way round at the opening, but does not tilt it", () => {
    expect(misfit([0.7, 0.95, 2], car)).toBeUndefined();
    expect(misfit([0.95, 0.7, 2], car)).toBeUndefined();
    expect(misfit([0.7, 0.7, 2.75], car)).toBe("too long by 0.25 m");
    expect(misfit([0.7, 0.7, 9], { vehicle: "van", m3: 11 })).toBeUndefined();
  });

  it("knows a load space that is narrower than its door", () => {
    expect(misfit([0.9, 0.7, 1], { ...car, width: 0.6, height: 1.2 })).toBe(
      "0.1 m too wide for the load space",
    );
  });
});

describe("loadTrips", () => {
  it("puts a garland and two columns into one van (by hand: 9.0123 + 2 x 0.4872^2 x 3 = 10.44 m3)", () => {
    const column: Load = { name: "Door columns", m3: 0.4872 ** 2 * 3, count: 2, box: [0.4872, 0.4872, 3] };
    const { trips, tooLarge } = loadTrips([column, { name: "Garland", m3: 9.0123, count: 1 }], [van]);
    expect(trips).toHaveLength(1);
    expect(trips[0]?.used).toBeCloseTo(10.44, 2);
    expect(tooLarge.size).toBe(0);
  });

  it("divides a loose load that is larger than the van, and names a rigid one", () => {
    expect(loadTrips([{ name: "Garland", m3: 25, count: 1 }], [van]).trips.map(({ used }) => used)).toEqual([
      11, 11, 3,
    ]);
    const arch = loadTrips([{ name: "Arch", m3: 12, count: 1, box: [2, 2, 3] }], [van]);
    expect(arch.tooLarge.get("Arch")).toBe("larger than the load space of 11 m3");
    expect(arch.trips).toHaveLength(1);
  });

  it("takes the vehicle whose door is wide enough", () => {
    const car: LoadSpace = { vehicle: "car", m3: 11, doorWidth: 0.5, doorHeight: 0.5 };
    const { trips, tooLarge } = loadTrips(
      [{ name: "Ball", m3: 1, count: 1, box: [1, 1, 1] }],
      [car, { ...van, doorWidth: 1.2, doorHeight: 1.2 }],
    );
    expect(tooLarge.size).toBe(0);
    expect(trips.map(({ vehicle }) => vehicle)).toEqual(["van"]);
  });

  it("refuses vehicles in which the loads would never end", () => {
    const tiny = [{ vehicle: "toy", m3: 4.7e-216 }];
    expect(() => loadTrips([{ name: "Arch", m3: 3, count: 1 }], tiny)).toThrow(
      "vehicles must carry 3 m3 in at most 100000 trips, found 4.7e-216 m3 in the largest",
    );
  });

  it("refuses a vehicle without room", () => {
    expect(() => loadTrips([], [{ vehicle: "van", m3: 0 }])).toThrow(
      'vehicles: m3 of "van" must be above 0 m3, found 0',
    );
  });

  /** Fewest bins by trying every place for every load. */
  function fewest(sizes: readonly number[], room: number): number {
    let best = sizes.length;
    const rooms: number[] = [];
    const place = (index: number): void => {
      if (rooms.length >= best) return;
      const size = sizes[index];
      if (size === undefined) {
        best = rooms.length;
        return;
      }
      for (let bin = 0; bin < rooms.length; bin += 1) {
        const left = rooms[bin] ?? 0;
        if (left < size - 1e-9) continue;
        rooms[bin] = left - size;
        place(index + 1);
        rooms[bin] = left;
      }
      rooms.push(room - size);
      place(index + 1);
      rooms.pop();
    };
    place(0);
    return best;
  }

  it("needs at most 11/9 of the fewest trips + 6/9 (brute force), loses nothing and overfills nothing", () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ m3: fc.integer({ min: 1, max: 100 }), count: fc.integer({ min: 1, max: 3 }) }), {
          minLength: 1,
          maxLength: 4,
        }),
        (sizes) => {
          const loads = sizes.map(({ m3, count }, index) => ({ name: `${index}`, m3: m3 / 10, count }));
          const { trips } = loadTrips(loads, [{ vehicle: "van", m3: 10 }]);
          const all = sizes.flatMap(({ m3, count }) => Array.from({ length: count }, () => m3 / 10));
          expect(trips.length).toBeLessThanOrEqual((11 / 9) * fewest(all, 10) + 6 / 9 + 1e-9);
          for (const { used, m3 } of trips) expect(used).toBeLessThanOrEqual(m3 + 1e-6);
          for (const load of loads) {
            const carried = trips.flatMap((trip) => trip.loads.filter(({ name }) => name === load.name));
            expect(carried.reduce((sum, { count }) => sum + count, 0)).toBe(load.count);
            expect(carried.reduce((sum, { m3 }) => sum + m3, 0)).toBeCloseTo(load.count * load.m3, 9);
          }
        },
      ),
    );
  });

  it("takes ten thousand pieces in one go", () => {
    const { trips } = loadTrips([{ name: "Bouquets", m3: 0.1, count: 10000 }], [van]);
    expect(trips).toHaveLength(91);
  });
});
