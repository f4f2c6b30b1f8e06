import { describe, expect, it } from "vitest";
import { pieceWork, type PieceWork } from "../../../src/core/event/piece-work";
import { workTable } from "../../../src/core/event/work-table";
import { isWithheld } from "../../../src/core/withheld";
import { inches, jobOf, known, minutes, type Tables } from "./job-builder";
import { plannedOf } from "./planned";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const worksOf = (tables: Tables): readonly PieceWork[] =>
  plannedOf(tables).map((piece) => pieceWork(piece, workTable(jobOf(tables))));
const minutesOf = (work: PieceWork | undefined): readonly number[] =>
  [work?.shop, work?.site, work?.rigging, work?.strike, work?.total].map(
    (time) => Math.round((known(time) / 60) * 1000) / 1000,
  );

describe("pieceWork", () => {
  it("W3: the stand bouquet is 72 min of building, 20 of rigging, 76 x 0.12 of strike", () => {
    expect(minutesOf(worksOf(STAND_BOUQUET)[0])).toEqual([0, 72, 20, 9.12, 101.12]);
  });

  it("the evening's pieces take 11.065, 2.237, 4.897 and 6.280 h (worked example of the design)", () => {
    const hours = worksOf(EVENING).map(({ total }) => known(total) / 3600);
    [11.065, 2.237, 4.897, 6.28].forEach((expected, place) => {
      expect(hours[place]).toBeCloseTo(expected, 3);
    });
  });

  it("builds in the shop what is built there, and rigs on site all the same", () => {
    // By hand: 152 balloons x 0.5 min; 2 columns x 20 min; 152 x 0.12 min.
    expect(minutesOf(worksOf(EVENING)[1])).toEqual([76, 0, 40, 18.24, 134.24]);
  });

  it("moves work to the shop where the decorator's table says so, without changing its sum", () => {
    const moved = worksOf({ ...STAND_BOUQUET, work: [{ task: "cover", where: "shop" }] });
    expect(minutesOf(moved[0])).toEqual([45, 27, 20, 9.12, 101.12]);
  });

  it("has no strike where nothing is collected", () => {
    const terms = { ...STAND_BOUQUET.terms, collect: false };
    expect(minutesOf(worksOf({ ...STAND_BOUQUET, terms })[0])).toEqual([0, 72, 20, 0, 92]);
  });

  it("withholds what needs a count that is not known, and its sum", () => {
    const pieces = [
      { name: "Arch", kind: "count", printed: inches(11), colour: "Gold", rigging: minutes(5) },
    ] as const;
    const [work] = worksOf({ pieces });
    expect([work?.site, work?.strike, work?.total].every(isWithheld)).toBe(true);
    expect(work?.rigging).toBe(300);
  });
});
