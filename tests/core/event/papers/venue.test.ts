import { describe, expect, it } from "vitest";
import { venuePaper } from "../../../../src/core/event/papers/venue";
import { EVENING } from "../sample-jobs";
import { evening, line } from "./paper-jobs";

describe("venue", () => {
  it("says when, where, how heavy and how much gas", () => {
    const rows = venuePaper(evening({ terms: { ...EVENING.terms, "room m3": 600 } }), "");
    expect(line(rows, "times", "access")?.amount).toBe("10:00");
    expect(line(rows, "times", "clear by")).toMatchObject({ amount: "", note: "not agreed yet" });
    expect(line(rows, "pieces", "Logo wall")?.note).toBe("4 m x 0.23 m on the floor, 2.4 m high");
    expect(line(rows, "helium", "helium")).toMatchObject({ amount: 3731, unit: "L" });
    // 20.95 % x exp(-3.731 / 600) = 20.82 %
    expect(line(rows, "helium", "oxygen")).toMatchObject({ amount: 20.82, status: "ok" });
    expect(rows.filter(({ section }) => section === "care").map(({ note }) => note)).toEqual(
      expect.arrayContaining(["latex", "children", "exits"]),
    );
  });

  it("is unsafe where the gas would leave too little oxygen (29 CFR 1910.134: 19.5 %)", () => {
    const rows = venuePaper(evening({ terms: { ...EVENING.terms, "room m3": 40 } }), "");
    expect(line(rows, "helium", "oxygen")?.status).toMatch(/^unsafe: below 19\.5 %/);
  });
});
