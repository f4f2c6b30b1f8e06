import { describe, expect, it } from "vitest";
import { orderPaper } from "../../../../src/core/event/papers/order";
import { EVENING } from "../sample-jobs";
import { evening, line, planOf } from "./paper-jobs";

describe("order", () => {
  it("goes supplier by supplier, with goods, hire and delivery (bags by hand and by the negative binomial)", () => {
    const rows = orderPaper(evening());
    expect([...new Set(rows.map(({ section }) => section))]).toEqual(["Town", "Depot", "no supplier named"]);
    expect(line(rows, "Depot", "delivery")).toMatchObject({ amount: 7.9, unit: "charge" });
    // 531 White in 11 in: five bags of 100 at the Depot and one of 50 in Town.
    expect(line(rows, "Depot", "11 in White")).toMatchObject({ amount: 5, unit: "bags of 100" });
    expect(line(rows, "Town", "11 in White")).toMatchObject({ amount: 1, unit: "bag of 50" });
    expect(line(rows, "no supplier named", "pole")).toMatchObject({
      amount: 2,
      unit: "pieces",
      note: "to hire, comes back, 1.50 each, 3.00 in all",
    });
  });

  it("needs no terms, and lists last what nobody sells", () => {
    const { pieces = [], price_list: prices = [] } = EVENING;
    const rows = orderPaper(
      planOf({
        pieces,
        palettes: EVENING.palettes ?? [],
        price_list: prices.filter(({ colour }) => colour !== "Gold"),
      }),
    );
    expect(rows.at(-1)).toMatchObject({
      section: "nobody sells",
      line: "18 in Gold foil",
      amount: 43,
      status: "stop: nobody sells 18 in Gold foil, 43 short",
    });
    expect(rows.some(({ line: text }) => /pay|margin/.test(text))).toBe(false);
  });

  it("costs what the purchases cost", () => {
    const rows = orderPaper(evening());
    const bags = rows.filter(({ unit }) => /^bags? of/.test(unit));
    const paid = bags.reduce((sum, { note }) => sum + Number(/, ([\d.]+) in all/.exec(note)?.[1]), 0);
    // 132 + 100 + 100 of 5 in, 531 + 81 + 317 of 11 in, 29 + 22 + 22 of 16 in, 43 foils, by hand from the list.
    expect(paid).toBeCloseTo(15 + 7.5 + 7.5 + 85 + 10 + 17 + 51 + 10 + 27 + 13.5 + 13.5 + 4.8 + 48, 9);
  });
});
