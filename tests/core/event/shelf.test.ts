import { expect, it } from "vitest";
import { shelfOf } from "../../../src/core/event/shelf";
import { inches, jobOf } from "./job-builder";
import { needsOf } from "./planned";

const pieces = [{ name: "X", kind: "count" as const, printed: inches(11), colour: "Navy", balloons: 20 }];
const navy = { printed: inches(11), colour: " navy" };

it("adds up rows of an item with their worth, and stops only items that a bad row may be", () => {
  const stock = [
    { ...navy, count: 10, "value each": 0.1 },
    { ...navy, count: 5 },
    { printed: inches(11), doubt: "colour must be given" },
    { printed: inches(16), doubt: "colour must be given" },
  ];
  const shelf = shelfOf(jobOf({ stock }), needsOf({ pieces }));
  expect([...shelf.held.values()]).toEqual([{ count: 15, worth: { typed: 1, unpriced: 5 } }]);
  expect(shelf.problems.map(({ weight, what }) => `${weight}: ${what}`)).toEqual([
    "stop: stock row 4: colour must be given",
    "note: stock row 5: colour must be given",
  ]);
});
