import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { WorkCells } from "../../../src/core/event/cells";
import type { TermCells } from "../../../src/core/event/term-cells";
import type { PieceWork } from "../../../src/core/event/piece-work";
import { eventTravel, siteWindow, type EventTravel } from "../../../src/core/event/travel";
import { workTable } from "../../../src/core/event/work-table";
import { isWithheld, withheld, type Known } from "../../../src/core/withheld";
import { jobOf, known, minutes, type Row } from "./job-builder";
import { termsOf } from "./planned";

const HOUR = 3600;
const way = { travel: minutes(30), distance: 20_000, "per km": 0.45 };
const onSite = (hours: number): PieceWork => ({
  shop: 0,
  site: hours * HOUR,
  rigging: 0,
  strike: 0,
  total: hours * HOUR,
});
const travel = (
  terms: Partial<TermCells>,
  {
    trips = 1,
    pieces = [],
    work = [],
  }: { trips?: Known; pieces?: readonly PieceWork[]; work?: readonly Row<WorkCells>[] } = {},
): EventTravel =>
  eventTravel(
    { name: "", terms: termsOf(terms), options: [], chosen: undefined },
    pieces,
    trips,
    workTable(jobOf({ work })),
  );

describe("eventTravel", () => {
  it("W8: drives three people for 6 h, and loads four times 20 min (by hand: 0.5 x 3 x 4; common practice)", () => {
    const found = travel({ ...way, crew: 3 });
    expect(known(found.work) / HOUR).toBeCloseTo(6 + 4 / 3, 9);
    expect(known(found.loading) / HOUR).toBeCloseTo(1 / 3, 9);
  });

  it("costs 80 km at 0.45 (by hand: out and home, twice 20 km each way)", () => {
    const found = travel({ ...way, crew: 3 });
    expect(known(found.distance)).toBeCloseTo(80_000, 9);
    expect(known(found.cost)).toBeCloseTo(36, 9);
  });

  it("drives half of it and loads twice where nothing is collected", () => {
    const found = travel({ ...way, crew: 3, collect: false });
    expect(known(found.work) / HOUR).toBeCloseTo(3 + 2 / 3, 9);
    expect(known(found.distance)).toBeCloseTo(40_000, 9);
  });

  it("saves a round where the crew stays (by hand: 2 x 20 km, 0.5 x 3 x 2 h)", () => {
    const found = travel({ ...way, crew: 3, stay: true });
    expect(known(found.distance)).toBeCloseTo(40_000, 9);
    expect(known(found.work) / HOUR).toBeCloseTo(3 + 4 / 3, 9);
  });

  it("sends one driver for each further trip (by hand: 2 crew + 2 collect crew + 2 x 1 x 2 legs of 0.5 h)", () => {
    const found = travel({ ...way, crew: 3, "collect crew": 2 }, { trips: 2 });
    expect(known(found.work) / HOUR).toBeCloseTo(0.5 * (6 + 4 + 4) + 2 * (4 / 3), 9);
    expect(known(found.distance)).toBeCloseTo(160_000, 9);
  });

  it("takes the decorator's own minutes for loading and for the event", () => {
    const work = [
      { task: "loading", "minutes per piece": minutes(30) },
      { task: "event", "minutes per piece": minutes(90) },
    ];
    const found = travel({ ...way, crew: 1 }, { work });
    expect(found.task).toBe(minutes(90));
    expect(known(found.work) / HOUR).toBeCloseTo(2 + 4 * 0.5 + 1.5, 9);
  });

  it("W12: takes as many people as the time on site asks for (by hand: 11.625 x 1.15 / 4.5 = 2.97)", () => {
    const window = { access: 10 / 24, ready: 14.5 / 24 };
    const found = travel({ ...way, ...window }, { pieces: [onSite(11.2917)] });
    expect([found.people, found.crew]).toEqual([3, 3]);
    expect(found.problems.map(({ weight, what }) => [weight, what])).toEqual([
      ["check", "crew is not given, 3 people are taken, who drive 6 h in all"],
    ]);
    const typed = travel({ ...way, ...window, crew: 2 }, { pieces: [onSite(11.2917)] });
    expect([typed.people, typed.crew, typed.problems]).toEqual([3, 2, []]);
  });

  it("takes one person where nothing says more", () => {
    const found = travel(way);
    expect([found.people, found.crew]).toEqual([1, 1]);
    expect(found.problems[0]?.what).toBe("crew is not given, one person is taken, who drive 2 h in all");
  });

  it("withholds only what a missing term takes away", () => {
    const silent = travel({ crew: 1, travel: minutes(30), distance: 20_000 });
    expect(isWithheld(silent.cost) && silent.cost.sentence).toBe(
      "per km must be given in terms; type none if driving costs nothing",
    );
    expect(isWithheld(silent.work)).toBe(false);
    const lost = travel({ crew: 1, distance: 20_000, "per km": 0.45 });
    expect(isWithheld(lost.work) && lost.work.sentence).toBe(
      "travel must be given in terms; type none if there is no way to go",
    );
    expect(known(lost.cost)).toBeCloseTo(36, 9);
  });

  it("withholds all of it where the trips are not known", () => {
    const found = travel({ ...way, crew: 1 }, { trips: withheld("height must be given") });
    expect([found.work, found.loading, found.distance, found.cost].every(isWithheld)).toBe(true);
  });

  it("never costs less for a longer way, more trips or more people", () => {
    const crew = fc.integer({ min: 1, max: 8 });
    fc.assert(
      fc.property(
        crew,
        fc.integer({ min: 1, max: 6 }),
        fc.boolean(),
        fc.boolean(),
        (people, trips, collect, stay) => {
          const at = (more: Partial<TermCells>, loads = trips): readonly number[] => {
            const found = travel({ ...way, crew: people, collect, stay, ...more }, { trips: loads });
            return [known(found.work), known(found.cost)];
          };
          const usual = at({});
          for (const more of [
            at({ travel: minutes(40) }),
            at({ distance: 21_000 }),
            at({ crew: people + 1 }),
            at({}, trips + 1),
          ])
            more.forEach((amount, place) => {
              expect(amount).toBeGreaterThanOrEqual(usual[place] ?? 0);
            });
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe("siteWindow", () => {
  it.each([
    ["two times of a day", { access: 10 / 24, ready: 14.5 / 24 }, 4.5],
    ["a night", { access: 22 / 24, ready: 6 / 24 }, 8],
    ["two days", { access: 46000.5, ready: 46001.5 }, 24],
    ["a time beside a date", { access: 10 / 24, ready: 46000.75 }, 8],
  ] as const)("is the hours of %s", (_, terms, hours) => {
    expect((siteWindow(termsOf(terms)) ?? 0) / HOUR).toBeCloseTo(hours, 6);
  });

  it("is not known without both", () => {
    expect(siteWindow(termsOf({ access: 0.5 }))).toBeUndefined();
    expect(siteWindow(termsOf({ ready: 0.5 }))).toBeUndefined();
  });
});
