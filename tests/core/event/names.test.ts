import { describe, expect, it } from "vitest";
import type { NameCells } from "../../../src/core/event/cells";
import { respelledNames, slippedNames, withNames } from "../../../src/core/event/names";
import { nameKey } from "../../../src/core/palette/names";
import { inches, jobOf, type Row, type Tables } from "./job-builder";

const tables = (names: readonly Row<NameCells>[], listed: string): Tables => ({
  pieces: [{ name: "Arch", kind: "count", printed: inches(11), colour: "Navy", balloons: 10 }],
  palettes: [{ palette: "Sky", colour: "Light Blue", inside: "Navy", share: 1 }],
  price_list: [{ supplier: "Town", printed: inches(11), colour: listed, bag: 50, price: 10 }],
  names,
});

describe("withNames", () => {
  it("N3: reads midnight as Navy where the user's table says so, with one check", () => {
    const job = withNames(jobOf(tables([{ written: "Midnight", means: "Navy" }], "midnight")));
    expect(nameKey(job.price_list[0]?.cells.colour ?? "")).toBe("navy");
    expect(job.problems.map(({ weight, what }) => [weight, what])).toEqual([
      ["check", 'names row 2: "Midnight" is taken for "Navy"'],
    ]);
  });

  it("keeps every other cell, the names of pieces included", () => {
    const before = jobOf(tables([{ written: "Arch", means: "Gate" }], "Navy"));
    const after = withNames(before);
    expect(after.pieces).toEqual(before.pieces);
    expect(after.problems).toEqual([]);
  });

  it("takes nothing from a doubtful row, and leaves a job without names as it is", () => {
    const doubtful = jobOf(
      tables([{ written: "Midnight", means: "Navy", doubt: "means must be text" }], "midnight"),
    );
    expect(withNames(doubtful)).toBe(doubtful);
    const bare = jobOf({});
    expect(withNames(bare)).toBe(bare);
  });
});

describe("respelledNames", () => {
  it("N1: says once that Lt. Blue is taken for Light Blue (abbreviations common practice, no source)", () => {
    const job = jobOf({
      ...tables([], "Lt. Blue"),
      stock: [{ printed: inches(11), colour: "Lt. Blue", count: 5 }],
    });
    expect(respelledNames(job).map(({ weight, table, what }) => [weight, table, what])).toEqual([
      ["check", "price_list", 'price_list row 2: "Lt. Blue" is taken for "Light Blue"'],
    ]);
  });

  it("says nothing of spaces and case, or of a colour that the job does not use", () => {
    expect(respelledNames(jobOf(tables([], " light  BLUE")))).toEqual([]);
    expect(respelledNames(jobOf(tables([], "Dk. Red")))).toEqual([]);
  });
});

describe("slippedNames", () => {
  const whats = (listed: string): readonly string[] =>
    slippedNames(jobOf(tables([], listed))).map(({ weight, what }) => `${weight}: ${what}`);

  it("names a colour of a price list that nobody buys because of a letter", () => {
    expect(whats("Light Bleu")).toEqual([
      'check: price_list row 2: "Light Bleu" is no colour of the job; did you mean "Light Blue"',
    ]);
  });

  it("says nothing of colours of the job however they are written, nor of other colours", () => {
    for (const listed of ["LIGHT blue", "Lt. Blue", "Navy", "Gold"]) expect(whats(listed)).toEqual([]);
  });

  it("looks at the shelf too, and says each spelling once", () => {
    const stock = [5, 11].map((size) => ({ printed: inches(size), colour: "Nayv", count: 3 }));
    const found = slippedNames(jobOf({ ...tables([], "Navy"), stock }));
    expect(found.map(({ table, row, todo }) => [table, row, todo])).toEqual([
      ["stock", 2, 'write "Navy" if it is the same'],
    ]);
  });
});
