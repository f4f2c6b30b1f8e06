import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PaletteCells } from "../../../src/core/event/cells";
import { keptWorth } from "../../../src/core/event/keep";
import { inches, jobOf, type Row, type Tables } from "./job-builder";
import { costsOf } from "./planned";

/** Gold in two palettes of one job, with what left-overs of it keep. */
const tables = (first?: number, second?: number): Tables => {
  const palette = (name: string, keep?: number): readonly Row<PaletteCells>[] => [
    { palette: name, colour: "Gold", share: 1, ...(keep !== undefined && { keep }) },
    { palette: name, colour: "White", share: 1 },
  ];
  return {
    pieces: ["Warm", "Cold"].map((name) => ({
      name,
      kind: "count",
      printed: inches(11),
      balloons: 10,
      palette: name,
    })),
    palettes: [...palette("Warm", first), ...palette("Cold", second)],
  };
};
const worthOf = (job: Tables, colour = "Gold"): ReturnType<typeof keptWorth> => {
  const need = costsOf(job).needs.find(({ item }) => item.colour === colour);
  if (need === undefined) throw new Error(`no need of ${colour}`);
  return keptWorth(need, jobOf(job), 0.8);
};

describe("keptWorth", () => {
  it("is the usual share where no palette says otherwise", () => {
    expect(worthOf(tables())).toEqual({ worth: 0.8, problems: [] });
    expect(worthOf(tables(0.5), "White")).toEqual({ worth: 0.8, problems: [] });
  });

  it("is what a palette says, none included, without a check where all agree", () => {
    expect(worthOf(tables(0.5))).toEqual({ worth: 0.5, problems: [] });
    expect(worthOf(tables(0, 0))).toEqual({ worth: 0, problems: [] });
  });

  it("is the smallest where palettes differ, with a check", () => {
    const { worth, problems } = worthOf(tables(0.5, 0.25));
    expect(worth).toBe(0.25);
    expect(problems.map(({ weight, what }) => [weight, what])).toEqual([
      ["check", "palettes row 2: keep of Gold differs between palettes, 25 % holds"],
    ]);
  });

  it("does not hear a palette that the item is not used by", () => {
    const job = tables(0.5, 0.25);
    const onlyWarm = { ...job, pieces: (job.pieces ?? []).slice(0, 1) };
    expect(worthOf(onlyWarm)).toEqual({ worth: 0.5, problems: [] });
  });

  it("never depends on the order of palettes", () => {
    const keep = fc.option(fc.constantFrom(0, 0.25, 0.5, 1), { nil: undefined });
    fc.assert(
      fc.property(keep, keep, (first, second) => {
        expect(worthOf(tables(first, second)).worth).toBe(worthOf(tables(second, first)).worth);
      }),
      { numRuns: 20 },
    );
  });
});
