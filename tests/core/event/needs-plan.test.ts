import { describe, expect, it } from "vitest";
import { freshPlan } from "../../../src/core/event/job-plan";
import { needsPlan, withTerms, type NeedsPlanRow } from "../../../src/core/event/needs-plan";
import type { PieceCells } from "../../../src/core/event/cells";
import type { Job } from "../../../src/core/event/job";
import { fromSi } from "../../../src/core/units";
import { isWithheld } from "../../../src/core/withheld";
import { inches, jobOf, known, type Row, type Tables } from "./job-builder";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const needsOf = (job: Job): readonly NeedsPlanRow[] => needsPlan(freshPlan(job));
const rowsOf = (tables: Tables): readonly (readonly unknown[])[] =>
  needsOf(jobOf(tables)).map((row) => [
    row.type,
    Math.round(fromSi(known(row.printed), "in")),
    row.colour,
    row.count,
    row["with spares"],
  ]);
const count = (balloons: number, more: Row<PieceCells> = {}): Row<PieceCells> => ({
  name: "X",
  kind: "count",
  printed: inches(11),
  colour: "Gold",
  balloons,
  ...more,
});

describe("needsPlan", () => {
  it("K12: takes the stand bouquet apart by colour", () => {
    // Largest remainder of 45 over 30, 30, 25, 15, and of 18 over 2, 1; spares by negative binomial at 3 % and 95 %.
    expect(rowsOf(STAND_BOUQUET)).toEqual([
      ["latex", 5, "Blush", 12, 14],
      ["latex", 5, "Peach", 6, 7],
      ["latex", 12, "Burgundy", 12, 14],
      ["latex", 12, "Blush", 14, 16],
      ["latex", 12, "Rose", 13, 15],
      ["latex", 12, "Peach", 11, 12],
      ["latex", 12, "Coral", 7, 8],
      ["long", 60, "White", 1, 1],
    ]);
  });

  it("S1 to S3, S5: takes spares of each row's own breakage, pooled over the item", () => {
    const take = (...pieces: readonly Row<PieceCells>[]): unknown => rowsOf({ pieces })[0]?.[4];
    // By hand: 0.90 < 0.95, 0.99 with a second; 0.97 x 0.9 = 0.873, one failure 0.1135 more; negative binomial, published.
    expect(take(count(1, { breakage: 0.1 }))).toBe(2);
    expect(take(count(1), count(1, { breakage: 0.1 }))).toBe(3);
    expect(take(count(100))).toBe(106);
    expect(take(count(20))).toBe(22);
    expect(take(count(100, { breakage: 0 }))).toBe(100);
  });

  it("pools white 11 in of an evening in and out of doors: 90 at 10 % and 410 at 3 %, take 531", () => {
    const white = needsOf(jobOf(EVENING)).filter(
      ({ colour, printed }) => colour === "White" && printed === inches(11),
    );
    const total = (column: "count" | "with spares"): number =>
      white.reduce((sum, row) => sum + known(row[column]), 0);
    expect(total("count")).toBe(500);
    expect(total("with spares")).toBe(531);
    // 9 in of the garland, the wall and the columns, 11 in of the bouquets: gas follows the inflated size.
    expect(white.map(({ inflated }) => Math.round(fromSi(known(inflated), "in")))).toEqual([9, 11]);
  });

  it("splits whole patterns over clusters, and says where a typed count breaks them", () => {
    const palettes = [
      { palette: "Door", colour: "Navy", pattern: 3 },
      { palette: "Door", colour: "White", pattern: 1 },
    ];
    const column = { name: "D", kind: "column" as const, height: 1.8, printed: inches(11), palette: "Door" };
    expect(rowsOf({ pieces: [column], palettes }).map((row) => row[3])).toEqual([33, 11]);
    const odd = needsOf(jobOf({ pieces: [{ ...column, balloons: 46 }], palettes }));
    expect(odd.map((row) => row.count)).toEqual([35, 11]);
    expect(odd[0]?.status).toContain("pieces row 2: a pattern needs whole clusters, split by ratio");
  });

  it("keeps foil, latex and long balloons of one colour apart", () => {
    const pieces = [
      count(5, { printed: inches(18) }),
      count(5, { printed: inches(18), kind: "foil" }),
      count(5, { type: "long", code: 260, printed: inches(60) }),
      count(5, { type: "long", code: 160, printed: inches(60) }),
    ];
    expect(rowsOf({ pieces }).map((row) => row[0])).toEqual(["latex", "foil", "long", "long"]);
  });

  it("closes with a row for each row of pieces that cannot be counted", () => {
    const plan = needsOf(jobOf({ pieces: [count(5), { ...count(5), doubt: "printed must be a size" }] }));
    expect(plan).toHaveLength(2);
    expect(plan[1]?.status).toBe("stop: pieces row 3: printed must be a size");
    expect(isWithheld(plan[1]?.count)).toBe(true);
  });

  it("names an unknown palette and percents that miss 100", () => {
    const pieces = [count(5, { colour: undefined as never, palette: "Doar" })];
    const palettes = [{ palette: "Door", colour: "Navy", share: 1 }];
    expect(needsOf(jobOf({ pieces, palettes }))[0]?.status).toBe(
      'stop: pieces row 2: palette must be one of the palettes, found "Doar"; did you mean "Door"',
    );
  });

  it("takes breakage, confidence and option as arguments", () => {
    const pieces = [count(100), count(50, { option: "B" })];
    const plan = (terms: Parameters<typeof withTerms>[1]): readonly unknown[] =>
      needsOf(withTerms(jobOf({ pieces }), terms)).map((row) => [row.count, row["with spares"]]);
    expect(plan({ option: "B", breakage: 0 })).toEqual([[150, 150]]);
    // Negative binomial, published: 100 at 3 % and 99 % needs 108.
    expect(
      needsOf(withTerms(jobOf({ pieces: [count(100)] }), { confidence: 0.99 }))[0]?.["with spares"],
    ).toBe(108);
    expect(() => plan({})).toThrow('option must be chosen in terms, one of "B"');
  });
});
