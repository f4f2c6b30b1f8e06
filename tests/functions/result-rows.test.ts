import { describe, expect, it } from "vitest";
import { withheld } from "../../src/core/withheld";
import { statedRow } from "../../src/functions/result-rows";

const missing = withheld("pay must be given in terms");
const stated = (status: string, ...cells: readonly (number | typeof missing)[]): unknown =>
  statedRow({ ...Object.fromEntries(cells.map((cell, at) => [`c${at}`, cell])), status })["status"];

describe("the status of a row", () => {
  it("stops where a number is withheld, and says why before what it said", () => {
    expect(stated("ok", 1, missing)).toBe("stop: pay must be given in terms");
    expect(stated("", missing)).toBe("stop: pay must be given in terms");
    expect(stated("ok: 3 from the shelf", missing)).toBe(
      "stop: pay must be given in terms; 3 from the shelf",
    );
    expect(stated("ok; COST_PLAN answers better", missing)).toBe(
      "stop: pay must be given in terms; COST_PLAN answers better",
    );
    expect(stated("no go: too wide", missing, missing)).toBe("stop: pay must be given in terms; too wide");
  });

  it("says every reason once, and nothing twice", () => {
    expect(stated("check: look", missing, withheld("margin must be given"), missing)).toBe(
      "stop: pay must be given in terms; margin must be given; look",
    );
    const told = "check: without a gust, pay must be given in terms";
    expect(stated(told, missing)).toBe(told);
  });

  it("stays as it is where every number is known, or where there is no status", () => {
    expect(stated("check: look", 1)).toBe("check: look");
    expect(statedRow({ weight: "stop", c: missing })).toEqual({ weight: "stop", c: missing });
  });
});
