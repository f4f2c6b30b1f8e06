import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Refusal } from "../../../../src/core/calc-error";
import { offerPaper } from "../../../../src/core/event/papers/offer";
import { inches, type Tables } from "../job-builder";
import { EVENING, STAND_BOUQUET } from "../sample-jobs";
import { evening, stand } from "./paper-jobs";

/** The evening without a price for one colour. */
const noGold: Tables = {
  price_list: (EVENING.price_list ?? []).filter(({ colour }) => colour !== "Gold"),
};

describe("offer", () => {
  it("adds up to the cent (by hand: 588.67 + 142.74 + 286.44 + 805.20 + 318.78, tax 20 %, half ahead)", () => {
    expect(offerPaper(evening(), "").map((row) => [row.line, row.amount, row.unit, row.note])).toEqual([
      ["Railing garland", 588.67, "", ""],
      ["Door columns", 142.74, "2 at 71.37", ""],
      ["Logo wall", 286.44, "", ""],
      ["Table bouquets", 805.2, "40 at 20.13", ""],
      ["travel and loading", 318.78, "", ""],
      ["subtotal", 2141.83, "", ""],
      ["tax", 428.37, "", "20 %"],
      ["total", 2570.2, "", ""],
      ["deposit", 1285.1, "", "50 %"],
      ["balance", 1285.1, "", ""],
    ]);
  });

  it("shows no cost, hours or margin", () => {
    const text = JSON.stringify(offerPaper(evening(), ""));
    expect(text).not.toMatch(/1177\.91|31\.8|cost|hour|margin/i);
  });

  it("is refused as one cell while a colour is missing, naming it", () => {
    const refused = (): unknown => offerPaper(evening(noGold), "");
    expect(refused).toThrow(Refusal);
    expect(refused).toThrow(/problems? stops? the offer, the first: nobody sells 18 in Gold foil, 43 short/);
  });

  it("is refused while somebody could be hurt, but not for a clock that does not hold", () => {
    const terms = { ...EVENING.terms, "room m3": 40 };
    expect(() => offerPaper(evening({ terms }), "")).toThrow(
      "1 problem stops the offer, the first: the helium, all leaked, would leave 19.0 % of oxygen",
    );
    expect(offerPaper(evening({ terms: { ...EVENING.terms, access: 14 / 24 } }), "").length).toBe(10);
  });

  it("gives each option its own section and total", () => {
    const pieces = [
      { name: "Arch", kind: "count", printed: inches(11), colour: "Gold", balloons: 10, option: "A" },
      { name: "Arch", kind: "count", printed: inches(11), colour: "Gold", balloons: 20, option: "B" },
    ] as const;
    const plan = stand({
      pieces,
      price_list: [{ supplier: "Town", printed: inches(11), colour: "Gold", bag: 50, price: 12.5 }],
      goods: [],
    });
    const totals = offerPaper(plan, "").filter((row) => row.line === "total");
    expect(totals.map(({ section }) => section)).toEqual(["offer A", "offer B"]);
    expect(Number(totals[1]?.amount)).toBeGreaterThan(Number(totals[0]?.amount));
  });
});

describe("offerPaper by any margin", () => {
  it("adds up from its lines to its balance", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 90 }),
        fc.integer({ min: 0, max: 30 }),
        fc.integer({ min: 0, max: 100 }),
        (margin, tax, deposit) => {
          const terms = {
            ...STAND_BOUQUET.terms,
            margin: margin / 100,
            tax: tax / 100,
            deposit: deposit / 100,
          };
          const rows = offerPaper(stand({ terms }), "");
          const cents = (...names: readonly string[]): number =>
            rows
              .filter(({ line }) => names.includes(line))
              .reduce((sum, { amount }) => sum + Math.round(Number(amount) * 100), 0);
          expect(cents("Stand bouquet", "travel and loading")).toBe(cents("subtotal"));
          expect(cents("subtotal", "tax")).toBe(cents("total"));
          if (deposit > 0) expect(cents("deposit", "balance")).toBe(cents("total"));
        },
      ),
      { numRuns: 25 },
    );
  });
});
