import { describe, expect, it } from "vitest";
import { overlooked } from "../../../src/core/event/overlooked";
import { inches, jobOf, type Tables } from "./job-builder";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const said = (tables: Tables): readonly string[] =>
  overlooked(jobOf(tables)).map(({ weight, what }) => `${weight} ${what}`);

describe("overlooked", () => {
  it("has nothing to say about complete jobs", () => {
    expect(said(STAND_BOUQUET)).toEqual([]);
    expect(said(EVENING)).toEqual([]);
  });

  const pieces = [{ name: "Arch", kind: "arch", palette: "Harbour" }] as const;

  it("names a colour that a slip in its palette takes out of the job, and a palette of another job", () => {
    const palettes = [
      { palette: "Harbour", colour: "Navy", share: 2 },
      { palette: "Habrour", colour: "Gold", share: 1 },
      { palette: "Meadow", colour: "Lime" },
      { palette: "Meadow", colour: "Mint" },
    ];
    expect(said({ pieces, palettes })).toEqual([
      'check palettes row 3: palette "Habrour" is used by no piece, so nobody takes its Gold; did you mean "Harbour"',
      'note palettes row 4: palette "Meadow" is used by no piece, so nobody takes its Lime, Mint',
    ]);
  });

  it("takes a palette that only a parked piece or another option has for used, however it is spelled", () => {
    const parked = [{ ...pieces[0], quantity: 0, option: "B", palette: " harbour" }];
    expect(said({ pieces: parked, palettes: [{ palette: "Harbour", colour: "Navy" }] })).toEqual([]);
  });

  it("asks for the value of a tax or a minimum that has a row, not of what is free to be blank", () => {
    const termRows = [{ term: "tax" }, { term: "gust" }, { term: "minimum", value: 0 }] as const;
    expect(said({ pieces, termRows })).toEqual([
      "check terms row 2: tax is blank or 0 and counts as none; type none if it is",
    ]);
    expect(said({ pieces, termRows: [{ term: "tax", doubt: "tax must be a share" }] })).toEqual([]);
  });

  it("asks for a quantity where other pieces have one, in any row of the piece", () => {
    const wall = { name: "Wall", kind: "wall" } as const;
    expect(said({ pieces: [wall, { ...pieces[0] }] })).toEqual([]);
    expect(said({ pieces: [wall, { ...pieces[0], quantity: 2 }] })).toEqual([
      'check pieces row 2: quantity of "Wall" is blank and counts as 1',
    ]);
    expect(said({ pieces: [wall, { ...wall, quantity: 3 }] })).toEqual([]);
    // The same name at another event is another piece.
    expect(
      said({
        pieces: [
          { ...wall, event: "Friday" },
          { ...wall, event: "Sunday", quantity: 3 },
        ],
      }),
    ).toEqual(['check pieces row 2: quantity of "Wall" is blank and counts as 1']);
  });

  it("asks how many popped where a past job says how many were taken: none is the best lesson, a blank is no lesson", () => {
    expect(
      said({
        pieces,
        past_jobs: [
          { job: "1", taken: 100 },
          { job: "2", taken: 100, popped: 0 },
          { job: "3", balloons: 100, hours: 3600 },
          { job: "4", taken: 100, doubt: "popped must be a whole number" },
        ],
      }),
    ).toEqual([
      "check past_jobs row 2: popped is 0 or a blank cell, so the row teaches no breakage; type none if nothing popped",
    ]);
  });

  it("asks what was left of an item at an event of this job", () => {
    const counted = { printed: inches(11), colour: "Navy" };
    expect(
      said({
        pieces: [{ name: "Arch", kind: "arch", event: "Friday" }],
        past_jobs: [
          { job: "1", event: " friday", ...counted },
          { job: "2", event: "Friday", ...counted, left: 3 },
          { job: "3", event: "Last year", ...counted },
          { job: "4", event: "Friday" },
        ],
      }),
    ).toEqual([
      "check past_jobs row 2: left is 0 or a blank cell, so the book goes on as planned; type none if nothing came back",
    ]);
  });
});
