import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { WEIGHTS, type Problem, type Reach, type Weight } from "../../../src/core/problem";
import { statusOf, stopping } from "../../../src/core/event/status";

const problem = (weight: Weight, what: string, reach: Reach = { of: "none" }): Problem => ({
  weight,
  table: "pieces",
  what,
  todo: "mend it",
  reach,
});

describe("statusOf", () => {
  it("is ok without problems, and with notes only", () => {
    expect(statusOf([])).toBe("ok");
    expect(statusOf([problem("note", "rack is not read")])).toBe("ok");
  });

  it("begins with the worst word: stop, unsafe, no go, check", () => {
    const all = (["check", "no go", "unsafe", "stop"] as const).map((weight) =>
      problem(weight, `a ${weight}`),
    );
    expect(statusOf(all)).toBe("stop: a stop; a unsafe; a no go; a check");
    expect(statusOf(all.slice(0, 3))).toBe("unsafe: a unsafe; a no go; a check");
    expect(statusOf(all.slice(0, 2))).toBe("no go: a no go; a check");
  });

  it("says every sentence once", () => {
    expect(statusOf([problem("stop", "no price"), problem("stop", "no price")])).toBe("stop: no price");
  });

  it("has the same first word and sentences in any order of problems", () => {
    const one = fc.record({ weight: fc.constantFrom(...WEIGHTS), what: fc.constantFrom("a", "b", "c", "d") });
    fc.assert(
      fc.property(fc.array(one, { maxLength: 6 }), (drafts) => {
        const problems = drafts.map(({ weight, what }) => problem(weight, what));
        const read = (status: string): unknown => {
          const [word, rest = ""] = status.split(": ");
          return [word, rest.split("; ").toSorted()];
        };
        expect(read(statusOf(problems))).toEqual(read(statusOf(problems.toReversed())));
      }),
    );
  });
});

describe("stopping", () => {
  const problems = [
    problem("check", "look at it", { of: "job" }),
    problem("stop", "pay must be given", { of: "work" }),
    problem("stop", "a row cannot be read", { of: "job" }),
    problem("stop", "nobody sells it", { of: "item", key: "27940 gold" }),
  ];

  it("is the first stop that reaches the number, and never a check", () => {
    expect(stopping(problems, "job")).toBe("a row cannot be read");
    expect(stopping(problems, "job", "work")).toBe("pay must be given");
  });

  it("is none where only other numbers are reached", () => {
    expect(stopping(problems, "price", "travel")).toBeUndefined();
    expect(stopping([], "job")).toBeUndefined();
  });
});
