import { describe, expect, it } from "vitest";
import { withoutDominated } from "../../../src/core/buying/dominance";
import { Incumbent } from "../../../src/core/buying/incumbent";
import { PurchaseProblem } from "../../../src/core/buying/purchase-problem";
import { StepBudget } from "../../../src/core/buying/step-budget";

const offers = [{ supplier: 0, pieces: 10, price: 300 }];
const terms = [{ charge: 5, minimum: 0, freeFrom: 2000 }];
const incumbent = new Incumbent(new PurchaseProblem([{ need: 10, offers }], terms, new StepBudget(1e6)));
const active = [{ supplier: 0, threshold: 2000, charge: 0 }];

describe("withoutDominated", () => {
  const entries = [
    { goods: [600], paid: 1300 },
    { goods: [0], paid: 1000 },
    { goods: [700], paid: 1650 },
    { goods: [300], paid: 1300 },
  ];

  it("leaves out what a top-up of another makes for no more", () => {
    // From (0, 1000) bags of 3.00 make (300, 1300) and (900, 1900): the first is no dearer than what it ousts, the second is
    // dearer than (700, 1650). (600, 1300) needs 6.00 for it, and ousts nothing but costs less than (300, 1300) for more.
    expect(withoutDominated(entries, active, incumbent, () => true)).toEqual([
      { goods: [0], paid: 1000 },
      { goods: [600], paid: 1300 },
    ]);
  });

  it("keeps all where it may not go on", () => {
    expect(withoutDominated(entries, active, incumbent, () => false)).toBe(entries);
    expect(withoutDominated([], active, incumbent, () => false)).toEqual([]);
  });
});
