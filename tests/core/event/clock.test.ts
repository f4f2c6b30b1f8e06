import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  backwards,
  drivenDistance,
  drivingWork,
  peopleNeeded,
  stages,
  type ClockInput,
} from "../../../src/core/event/clock";

const HOUR = 3600;
/** 19 June 2027 as Excel counts days. */
const DATE = 46557;
const at = (hours: number, minutes: number): number => DATE + (hours + minutes / 60) / 24;
const minutesApart = (one: number | undefined, other: number): number => ((one ?? 0) - other) * 24 * 60;

/** A corporate evening: shop 10.7 person-hours, site 11.2917, of which rigging counts as building here. */
const evening: ClockInput = {
  shop: 10.7 * HOUR,
  building: 11.2917 * HOUR,
  rigging: 0,
  strike: 2.488 * HOUR,
  loading: 20 * 60,
  travel: 30 * 60,
  trips: 1,
  crew: 3,
  collectCrew: 3,
  collect: true,
  stay: false,
  buffer: 0.15,
  ready: at(14, 30),
  end: at(23, 0),
  dayStart: 8 / 24,
  dayEnd: 18 / 24,
};

describe("stages", () => {
  const list = stages(evening);
  const start = (name: string): number | undefined => list.find(({ stage }) => stage === name)?.start;

  it("starts on site at 10:10 (by hand: 11.2917 x 1.15 / 3 = 4 h 20 min before 14:30)", () => {
    expect(minutesApart(start("site building"), at(10, 10))).toBeCloseTo(0.3, 0);
  });

  it("unloads at 10:03, leaves at 9:33, loads at 9:25 (by hand: 20 x 1.15 / 3 = 7.7 min each, 30 min of road)", () => {
    expect(Math.abs(minutesApart(start("unloading"), at(10, 3)))).toBeLessThan(0.6);
    expect(Math.abs(minutesApart(start("driving"), at(9, 33)))).toBeLessThan(0.6);
    expect(Math.abs(minutesApart(start("loading"), at(9, 25)))).toBeLessThan(0.6);
  });

  it("begins in the shop at 15:19 the day before (by hand: 4.1017 h, of which 1.416 h fit after 8:00)", () => {
    expect(Math.abs(minutesApart(start("shop"), at(15, 19) - 1))).toBeLessThan(0.6);
  });

  it("strikes when the event ends and brings everything back", () => {
    expect(list.slice(7).map(({ stage }) => stage)).toEqual([
      "strike",
      "loading back",
      "driving back",
      "unloading back",
    ]);
    expect(start("strike")).toBe(evening.end);
    // 2.488 x 1.15 / 3 h = 57.2 min
    expect(minutesApart(start("loading back"), at(23, 57))).toBeCloseTo(0.2, 0);
  });

  it("has work and no hours where the hours are not known, and nothing to collect where nothing is", () => {
    const undated = stages({ ...evening, ready: undefined, end: undefined, collect: false });
    expect(undated).toHaveLength(7);
    expect(undated.every((stage) => stage.start === undefined)).toBe(true);
    expect(undated[0]?.work).toBe(evening.shop);
  });
});

describe("drivingWork and drivenDistance", () => {
  const three = { travel: 0.5 * HOUR, trips: 1, crew: 3, collectCrew: 3, collect: true, stay: false };
  const hours = (input: typeof three): number => {
    const { delivery, collection } = drivingWork(input);
    return (delivery + collection) / HOUR;
  };

  it("is 6 person-hours for three people who come back to collect (by hand: 0.5 x 3 x 4)", () => {
    expect(hours(three)).toBe(6);
  });

  it("is half of that where they stay or nothing is collected, and one driver for each further trip", () => {
    expect(hours({ ...three, stay: true })).toBe(3);
    expect(hours({ ...three, collect: false })).toBe(3);
    expect(hours({ ...three, trips: 3 })).toBe(6 + 0.5 * 2 * 2 * 2);
  });

  it("counts kilometres by rounds (by hand)", () => {
    expect(drivenDistance(20000, 1, true, false)).toBe(80000);
    expect(drivenDistance(20000, 1, true, true)).toBe(40000);
    expect(drivenDistance(20000, 2, false, false)).toBe(80000);
  });
});

describe("peopleNeeded", () => {
  it("is 3 for 11.625 person-hours in 4.5 h (by hand: 2.97)", () => {
    expect(peopleNeeded(11.625 * HOUR, 4.5 * HOUR, 0.15)).toBe(3);
  });

  it("refuses a window that is none", () => {
    expect(() => peopleNeeded(HOUR, 0, 0.15)).toThrow("ready must lie after access");
  });
});

describe("backwards", () => {
  /** Walks back minute by minute and counts the minutes in which the shop is open. */
  function byMinutes(end: number, minutes: number, open: number, close: number): number {
    let left = minutes;
    let minute = Math.round(end * 1440);
    while (left > 0) {
      minute -= 1;
      const ofDay = minute % 1440;
      if (ofDay >= open && ofDay < close) left -= 1;
    }
    return minute;
  }

  it("is what counting minutes gives, over any number of days", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 1439 }),
        fc.integer({ min: 1, max: 6000 }),
        fc.integer({ min: 0, max: 720 }),
        fc.integer({ min: 60, max: 700 }),
        (minute, duration, open, length) => {
          const end = DATE + minute / 1440;
          const { start } = backwards(end, duration * 60, open / 1440, (open + length) / 1440);
          expect(Math.round(start * 1440)).toBe(byMinutes(end, duration, open, open + length));
        },
      ),
    );
  });

  it("takes no time for no work and refuses a day that ends before it begins", () => {
    expect(backwards(DATE, 0, 0.3, 0.8)).toEqual({ start: DATE, end: DATE });
    expect(() => backwards(DATE, 60, 0.8, 0.3)).toThrow("day end must lie after day start");
  });
});
