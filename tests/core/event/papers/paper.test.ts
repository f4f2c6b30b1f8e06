import { describe, expect, it } from "vitest";
import { CalcError } from "../../../../src/core/calc-error";
import {
  eventOf,
  metresText,
  moneyText,
  packText,
  paperLine,
  problemLines,
} from "../../../../src/core/event/papers/paper";
import type { Problem, Weight } from "../../../../src/core/problem";
import { inches, type Tables } from "../job-builder";
import { STAND_BOUQUET } from "../sample-jobs";
import { planOf } from "./paper-jobs";

describe("eventOf", () => {
  const two: Tables = {
    ...STAND_BOUQUET,
    pieces: (["Friday", "Sunday"] as const).map((event) => ({
      name: "Arch",
      kind: "count",
      printed: inches(11),
      colour: "Gold",
      balloons: 10,
      event,
    })),
  };

  it("needs the name where there are several events", () => {
    const plan = planOf(two);
    expect(eventOf(plan, "friday").event.name).toBe("Friday");
    expect(() => eventOf(plan, "")).toThrow('event must be one of "Friday", "Sunday", found nothing');
    expect(() => eventOf(plan, "Monday")).toThrow(CalcError);
  });
});

describe("packText", () => {
  it.each([
    [{ unit: "piece", pack: 1 }, 1, "piece"],
    [{ unit: "piece", pack: 1 }, 2, "pieces"],
    [{ unit: "m", pack: 25 }, 1, "pack of 25 m"],
    [{ unit: "piece", pack: 100 }, 3, "packs of 100 pieces"],
  ] as const)("%o, %s is %s", (good, packs, text) => {
    expect(packText(good, packs)).toBe(text);
  });
});

describe("problemLines", () => {
  const problem = (weight: Weight, what: string): Problem => ({
    weight,
    table: "pieces",
    what,
    todo: `mend ${what}`,
    reach: { of: "job" },
  });

  it("opens a paper with what stops it, worst first and each once, without checks and notes", () => {
    const rows = problemLines([
      problem("no go", "the door"),
      problem("check", "a name"),
      problem("stop", "a row"),
      problem("note", "a rack"),
      problem("unsafe", "the wind"),
      problem("stop", "a row"),
    ]);
    expect(rows).toEqual([
      { ...paperLine("problems", "a row", "", "", "mend a row"), status: "stop: a row" },
      { ...paperLine("problems", "the wind", "", "", "mend the wind"), status: "unsafe: the wind" },
      { ...paperLine("problems", "the door", "", "", "mend the door"), status: "no go: the door" },
    ]);
  });
});

describe("moneyText and metresText", () => {
  it("write money with two decimals and metres without idle zeros", () => {
    expect([moneyText(3), moneyText(0.5), moneyText(95.23)]).toEqual(["3.00", "0.50", "95.23"]);
    expect([metresText(2), metresText(0.2286), metresText(1.8288)]).toEqual(["2 m", "0.23 m", "1.83 m"]);
  });
});
