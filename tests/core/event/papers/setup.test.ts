import { describe, expect, it } from "vitest";
import { momentText, setupPaper, UNRANKED } from "../../../../src/core/event/papers/setup";
import { venuePaper } from "../../../../src/core/event/papers/venue";
import { isWithheld } from "../../../../src/core/withheld";
import { inches, type Tables } from "../job-builder";
import { EVENING, STAND_BOUQUET } from "../sample-jobs";
import { evening, line, stand } from "./paper-jobs";

describe("setup", () => {
  it("says colours by cluster, sizes to set and the order of work", () => {
    const rows = setupPaper(evening(), "");
    expect(line(rows, "shop: Door columns", "clusters")).toMatchObject({
      amount: 38,
      note: "19 in one, each 2 Navy + 2 White",
    });
    const sections = [...new Set(rows.map(({ section }) => section))];
    expect(sections).toEqual([
      "clock",
      "shop: Door columns",
      "shop: Railing garland",
      "site: Logo wall",
      "site: Table bouquets",
      "care",
    ]);
    expect(line(rows, "clock", "site building")?.amount).toBe("10:10");
    // 1.5 x (5 x 10.90 + 5.13) g, rounded up
    expect(line(rows, "site: Table bouquets", "weight")).toMatchObject({ amount: 90, unit: "g" });
  });

  it("has every number that a helper needs: each part's balloons by colour, its size, its ribbons", () => {
    for (const plan of [evening(), stand()]) {
      const rows = setupPaper(plan, "");
      for (const { piece, parts } of plan.costsOf(plan.chosen).pieces) {
        for (const { part, colours } of parts) {
          const section = rows.filter((row) => row.section === `${part.built}: ${piece.name}`);
          const count = Number(part.quantity);
          // By the size on the bag, such as "11 in Navy": two parts of one colour may come out of two bags.
          const bag = `${Math.round(Number(part.cells.printed) / 0.0254)} in`;
          for (const { colour, places } of colours.colours)
            expect(
              section.some(
                ({ line: words, amount }) =>
                  words.startsWith(`${bag} ${colour}`) && amount === places * count,
              ),
            ).toBe(true);
          const size = part.inflated;
          if (typeof size === "number")
            expect(section.some(({ amount }) => Math.abs(Number(amount) - size / 0.0254) < 0.005)).toBe(true);
        }
      }
    }
    expect(line(setupPaper(stand(), ""), "site: Stand bouquet", "ribbons")).toMatchObject({
      amount: 22,
      note: "gathered 0.65 m below the finished ball, 25.74 m in all with knots",
    });
  });

  it("says which bag a colour comes out of, and the spares of the whole evening (11 in White: 531 taken, 500 needed)", () => {
    const rows = setupPaper(evening(), "");
    const whites = rows.filter(({ line: words }) => words === "11 in White");
    expect(whites.map(({ amount }) => Number(amount)).reduce((sum, count) => sum + count)).toBe(500);
    for (const { note } of whites) expect(note).toMatch(/31 spare in all$/);
    expect(rows.map(({ line: words }) => words)).toContain("18 in Gold foil");
  });

  it("tells the size for the shop where the venue is warmer (Charles's law: 288.15 / 308.15 of the volume)", () => {
    const pieces = (EVENING.pieces ?? []).map((row) => ({ ...row, built: "shop" as const }));
    const rows = setupPaper(
      evening({
        pieces,
        terms: { ...EVENING.terms, "fill temperature": 288.15, temperature: 308.15 },
      }),
      "",
    );
    const set = line(rows, "shop: Door columns", "sizer to set");
    expect(Number(set?.amount)).toBeLessThan(9);
    // Latex shape changes little over half an inch, so nearly the cube root of the volumes' ratio.
    expect(Number(set?.amount)).toBeCloseTo(9 * Math.cbrt(288.15 / 308.15), 1);
    expect(set?.note).toBe("9 in at the venue");
  });

  it("withholds ballast outdoors until gust and base are given (by hand: moments about the edge of the foot)", () => {
    const column: Tables["pieces"] = [
      {
        name: "Post",
        kind: "column",
        printed: inches(11),
        inflated: inches(9),
        colour: "White",
        height: 2,
        where: "outdoors",
      },
    ];
    const before = setupPaper(stand({ pieces: column }), "");
    const row = line(before, "site: Post", "ballast");
    expect(isWithheld(row?.amount)).toBe(true);
    expect(row?.status).toBe('stop: "Post" stands outdoors: gust must be given in terms');
    const after = setupPaper(
      stand({
        pieces: column.map((piece) => ({ ...piece, base: 0.5 })),
        terms: { ...STAND_BOUQUET.terms, gust: 8 },
      }),
      "",
    );
    // 1.25/2 x 8^2 = 40 Pa on 0.4872 x 2 m with 1.2: push 46.8 N at 1 m; 2 x 46.8 / (9.80665 x 0.5) = 19.07 kg, x 1.5
    expect(line(after, "site: Post", "ballast in the foot")?.note).toBe("for gusts of 8 m/s, an estimate");
    expect(Number(line(after, "site: Post", "ballast")?.amount)).toBeCloseTo(28.7, 0);
  });

  it("says of an arch what both feet hold together and what each of them does", () => {
    const arch: Tables["pieces"] = [
      {
        name: "Gate",
        kind: "arch",
        printed: inches(11),
        inflated: inches(9),
        colour: "White",
        width: 5,
        height: 2.8,
        where: "outdoors",
        base: 0.6,
      },
    ];
    const rows = setupPaper(stand({ pieces: arch, terms: { ...STAND_BOUQUET.terms, gust: 8 } }), "");
    // 8.333 m x 0.4872 m, 40 Pa x 1.2: 194.9 N at 1.749 m; 2 x 194.9 x 1.749 / (9.80665 x 0.6) x 1.5 = 173.8 kg
    expect(line(rows, "site: Gate", "ballast")).toMatchObject({
      line: "ballast of one, in both feet together",
      amount: 173.8,
      note: "86.9 kg in each foot, for gusts of 8 m/s, an estimate",
    });
  });

  it("opens with a gust in which nothing may stand and with hours that cannot be, and so does the paper for the venue", () => {
    const plan = evening({ terms: { ...EVENING.terms, gust: 12, ready: 0.5 } });
    for (const rows of [setupPaper(plan, ""), venuePaper(plan, "")]) {
      const statuses = rows.filter(({ section }) => section === "problems").map(({ status }) => status);
      // By hand: 11.2917 x 1.15 / 3 + 0.1278 h before noon is 7:33, 2 h 27 min before access at 10:00.
      expect(statuses).toEqual([
        "unsafe: do not put up balloons in a gust of 12 m/s, or take them down: the limit is 10 m/s",
        "no go: work on site starts 2 h 27 min before access at 10:00",
      ]);
    }
  });

  it("has a place in the order of work for every kind", () => {
    expect(UNRANKED).toEqual([]);
  });

  it("says the cautions that fit, and once that local rules come first", () => {
    const care = setupPaper(evening(), "").filter(({ section }) => section === "care");
    expect(new Set(care.map(({ note }) => note))).toEqual(
      new Set(["ladder", "helium", "cylinders", "foil", "outdoor", "electric", ""]),
    );
    expect(care.filter(({ line: text }) => text.includes("Local codes")).length).toBe(1);
    expect(setupPaper(stand(), "").some(({ note }) => note === "helium")).toBe(false);
  });
});

describe("dateText", () => {
  it.each([
    [46557.5, "2027-06-19 12:00"],
    [45351, "2024-02-29 00:00"],
    [46557.9999, "2027-06-20 00:00"],
  ])("%s is %s (Excel's own dates)", (serial, text) => {
    expect(momentText(serial)).toBe(text);
  });
});
