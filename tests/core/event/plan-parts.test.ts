import { describe, expect, it } from "vitest";
import { plannedPieces, type PlannedPiece } from "../../../src/core/event/plan-parts";
import { jobScope } from "../../../src/core/event/scope";
import { workTable } from "../../../src/core/event/work-table";
import { isWithheld } from "../../../src/core/withheld";
import { inches, jobOf, known, type Tables } from "./job-builder";
import { EVENING, STAND_BOUQUET } from "./sample-jobs";

const planned = (tables: Tables, option = ""): readonly PlannedPiece[] => {
  const job = jobOf(tables);
  const scope = jobScope(job);
  return plannedPieces(
    job,
    scope,
    scope.events.map(({ name }) => [name, option] as const),
    workTable(job),
  );
};

describe("plannedPieces", () => {
  it("K5, K7: hangs 25.74 m of ribbon from the stand bouquet, all of it on the cover", () => {
    const [stand] = planned(STAND_BOUQUET);
    const ribbons = (stand?.parts ?? []).map(({ ribbon }) => known(ribbon));
    [0, 0, 25.74, 0].forEach((expected, place) => {
      expect(ribbons[place]).toBeCloseTo(expected, 2);
    });
  });

  it("G2: fills the evening's foils with 640.5 L of its 3,730.8 L of helium", () => {
    const helium = planned(EVENING).flatMap(({ parts }) => parts.map((part) => known(part.helium) * 1000));
    expect(helium.at(-1)).toBeCloseTo(640.5, 1);
    expect(helium.reduce((sum, litres) => sum + litres, 0)).toBeCloseTo(3730.8, 1);
  });

  it("colours every balloon of every part", () => {
    for (const { parts } of [...planned(STAND_BOUQUET), ...planned(EVENING)])
      for (const { part, colours } of parts)
        expect(colours.colours.reduce((sum, { places }) => sum + places, 0)).toBe(part.each);
  });

  it("builds one option of a piece and what all options share", () => {
    const row = { name: "Arch", kind: "count", printed: inches(11), colour: "Gold" } as const;
    const pieces = [
      { ...row, balloons: 10 },
      { ...row, balloons: 20, option: "A" },
      { ...row, balloons: 40, option: "B" },
    ];
    const counts = (option: string): readonly unknown[] =>
      planned({ pieces }, option).map(({ parts }) => parts.map(({ part }) => part.balloons));
    expect(counts("A")).toEqual([[10, 20]]);
    expect(counts("B")).toEqual([[10, 40]]);
  });

  it("keeps the problems of counting and of colouring together", () => {
    const pieces = [
      { name: "Arch", kind: "column", printed: inches(11), palette: "Rail" },
      { name: "Arch", kind: "count", printed: inches(11), palette: "Rial", balloons: 5 },
    ] as const;
    const palettes = [{ palette: "Rail", colour: "White", share: 1 }];
    const [arch] = planned({ pieces, palettes });
    expect(arch?.problems.map(({ what }) => what)).toEqual([
      'pieces row 2: height must be given for kind "column", found nothing',
      'pieces row 3: palette must be one of the palettes, found "Rial"; did you mean "Rail"',
    ]);
  });

  it("withholds gas and ribbon of a row that cannot be counted, and needs none for a parked one", () => {
    const row = { name: "Arch", kind: "bouquet", printed: inches(11), colour: "Gold", ribbon: 1 } as const;
    const [open] = planned({ pieces: [row] });
    expect([open?.parts[0]?.helium, open?.parts[0]?.ribbon].every(isWithheld)).toBe(true);
    const [parked] = planned({ pieces: [{ ...row, quantity: 0 }] });
    expect([parked?.parts[0]?.helium, parked?.parts[0]?.ribbon]).toEqual([0, 0]);
  });
});
