import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { patternSplit, spiralPlan } from "../../../src/core/palette/pattern";

describe("patternSplit", () => {
  it("multiplies the pattern by the clusters", () => {
    // 28 clusters of two, one and one: common practice, no source; checked by hand.
    expect(patternSplit(28, [2, 1, 1])).toEqual([56, 28, 28]);
    expect(patternSplit(0, [2, 1, 1])).toEqual([0, 0, 0]);
  });

  it.each([
    [[2, 0.5], "pattern cell 2 must be a whole number of balloons, found 0.5"],
    [[0, 0], "pattern must hold at least one balloon, found none"],
    [[-1], "pattern cell 1 must be a whole number of balloons, found -1"],
  ])("refuses %j", (pattern, sentence) => {
    expect(() => patternSplit(3, pattern)).toThrow(sentence);
  });

  it("refuses what whole numbers cannot hold", () => {
    expect(() => patternSplit(1e9, [1e9])).toThrow("too large");
  });
});

describe("spiralPlan", () => {
  it("moves each colour one place on in every cluster", () => {
    expect(spiralPlan(3, 4, ["white", "blue", "gold", "blue"])).toEqual([
      ["white", "blue", "gold", "blue"],
      ["blue", "white", "blue", "gold"],
      ["gold", "blue", "white", "blue"],
    ]);
  });

  it("repeats few colours round the cluster, stands still at turn 0 and turns back below 0", () => {
    expect(spiralPlan(2, 5, ["a", "b"])).toEqual([
      ["a", "b", "a", "b", "a"],
      ["a", "a", "b", "a", "b"],
    ]);
    expect(spiralPlan(2, 2, ["a", "b"], 0)).toEqual([
      ["a", "b"],
      ["a", "b"],
    ]);
    expect(spiralPlan(2, 3, ["a", "b", "c"], -1)[1]).toEqual(["b", "c", "a"]);
  });

  it("builds every cluster of the same balloons and comes round after a whole turn", () => {
    const colours = fc.array(fc.constantFrom("a", "b", "c"), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(
        fc.integer({ min: 6, max: 9 }),
        colours,
        fc.integer({ min: -9, max: 9 }),
        (places, names, turn) => {
          const plan = spiralPlan(places + 1, places, names, turn);
          for (const row of plan) expect([...row].sort()).toEqual([...(plan[0] ?? [])].sort());
          expect(plan.at(-1)).toEqual(plan[0]);
        },
      ),
    );
  });

  it.each([
    [2, 2, ["a", "b", "c"], 1, "colours must be 1 to 2 colours, as per_cluster has places, found 3"],
    [2, 2, [], 1, "colours must be 1 to 2 colours"],
    [2, 2, ["a"], 0.5, "turn must be a whole number of places, found 0.5"],
    [1e6, 4, ["a"], 1, "clusters must give at most 200000 places, found 4000000"],
  ])("refuses %i x %i of %j turned by %f", (clusters, perCluster, colours, turn, sentence) => {
    expect(() => spiralPlan(clusters, perCluster, colours, turn)).toThrow(sentence);
  });
});
