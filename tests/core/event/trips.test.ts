import { describe, expect, it } from "vitest";
import { goodsAmounts, goodsUse } from "../../../src/core/event/goods-amounts";
import type { GoodsCells, VehicleCells } from "../../../src/core/event/cells";
import { eventTrips, type EventTrips } from "../../../src/core/event/trips";
import { isWithheld } from "../../../src/core/withheld";
import { feet, inches, jobOf, type Row, type Tables } from "./job-builder";
import { plannedOf } from "./planned";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const trips = (tables: Tables): EventTrips => {
  const job = jobOf(tables);
  const pieces = plannedOf(tables);
  const [first] = pieces;
  if (first === undefined) throw new Error("no piece");
  const none = new Map(pieces.map(({ event }) => [event.name, 0]));
  return eventTrips(job, first.event, pieces, goodsAmounts(goodsUse(job, pieces), none));
};
const said = ({ problems }: EventTrips): readonly string[] =>
  problems.map(({ weight, what }) => `${weight}: ${what}`);
const car = (more: Row<VehicleCells> = {}): Row<VehicleCells> => ({ vehicle: "car", m3: 5, ...more });
/** The stand bouquet ready built: a box of 1.109 x 1.109 x 2.383 m. */
const built: Tables = {
  ...STAND_BOUQUET,
  pieces: (STAND_BOUQUET.pieces ?? []).map((row) => ({ ...row, built: "shop" })),
  goods: [],
};
const columns = (quantity: number): Tables => ({
  pieces: [
    {
      name: "Door",
      kind: "column",
      printed: inches(11),
      colour: "White",
      height: 3,
      quantity,
      built: "shop",
    },
  ],
});

describe("eventTrips", () => {
  it("T5: takes the garland and two columns in one van (by hand: 9.01 + 1.42 = 10.44 of 11 m3)", () => {
    const { trips: count, loading } = trips({ ...EVENING, vehicles: [{ vehicle: "van", m3: 11 }] });
    expect(count).toBe(1);
    expect(loading?.trips[0]?.used).toBeCloseTo(10.44, 2);
  });

  it("takes one trip without vehicles, with a check", () => {
    const found = trips(columns(40));
    expect(found).toMatchObject({ trips: 1, loading: undefined });
    expect(said(found)).toEqual(["check: no vehicles are given, one trip is taken"]);
  });

  it("drives as often as it takes (by hand: columns of 0.712 m3, two in a car of 1.5 m3)", () => {
    const count = (quantity: number): unknown =>
      trips({ ...columns(quantity), vehicles: [car({ m3: 1.5 })] }).trips;
    expect([1, 2, 3, 4, 5].map(count)).toEqual([1, 1, 2, 2, 3]);
  });

  it("T2: names what does not pass a door of 1.0 x 0.8 m, and takes a trip for it all the same", () => {
    const door = trips({ ...built, vehicles: [car({ "door width": 1, "door height": 0.8 })] });
    expect(door.trips).toBe(1);
    expect(said(door)).toEqual(["no go: 0.109 m and 0.309 m too wide for the door"]);
    expect(door.problems[0]).toMatchObject({ table: "pieces", row: 2 });
  });

  it("says nothing of a door that is wide enough", () => {
    expect(said(trips({ ...built, vehicles: [car({ "door width": 1.2, "door height": 1.2 })] }))).toEqual([]);
  });

  it("does not count a vehicle whose row cannot be read", () => {
    const found = trips({ ...built, vehicles: [car({ doubt: "m3 must be a volume" })] });
    expect(found).toMatchObject({ trips: 1, loading: undefined });
  });

  it("loads goods by the room of their packs, and names those that say none", () => {
    const goods: readonly Row<GoodsCells>[] = [
      { item: "panel", per: "piece", amount: 4, price: 1, "m3 each": 0.5 },
      { item: "sign", per: "event", price: 1, "m3 each": 0 },
      { item: "ties", per: "piece", price: 1 },
    ];
    const found = trips({ ...columns(1), goods, vehicles: [car()] });
    const panels = found.loading?.trips[0]?.loads.find(({ name }) => name === "panel");
    expect(panels?.m3).toBeCloseTo(2, 12);
    expect(panels?.count).toBe(4);
    expect(said(found)).toEqual(["check: load without: ties"]);
  });

  it("withholds the trips where a load is not known", () => {
    const pieces = [
      { name: "Door", kind: "column", printed: inches(11), colour: "White", built: "shop" },
    ] as const;
    expect(isWithheld(trips({ pieces, vehicles: [car()] }).trips)).toBe(true);
  });

  it("takes one trip for what is inflated on site and needs no room", () => {
    const found = trips({ ...STAND_BOUQUET, goods: [], vehicles: [car({ m3: 0.1, length: feet(1) })] });
    expect([found.trips, said(found)]).toEqual([1, []]);
  });
});
