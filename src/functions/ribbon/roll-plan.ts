import { rollCount } from "../../core/geometry/rolls";
import { define } from "../define";
import { roll, rollEach, rollPieces } from "../roll-params";

export const rollPlanRow = define({
  name: "ROLL_PLAN",
  category: "Ribbon and rolls",
  text: "Rolls to buy with the fewest that any cutting could do with, and the metres left over.",
  asks: ["rolls and offcuts", "is the number of rolls the least"],
  params: [rollPieces, rollEach, roll],
  result: {
    kind: "table",
    text: "One row.",
    columns: [
      { name: "rolls", measure: "count", text: "Rolls to buy." },
      { name: "at least", measure: "count", text: "No cutting does with fewer." },
      { name: "used", measure: "m", text: "Length of all pieces." },
      { name: "left", measure: "m", text: "Length left on the rolls." },
      { name: "status", measure: "text", text: "Whether the number is proved to be the least." },
    ],
  },
  source: "One-dimensional cutting stock, exact up to 30 different lengths",
  examples: [
    {
      args: [[2, 2, 2], [6, 3, 1], 10],
      gives: [[2, 2, 20, 0, "ok: the least"]],
      within: 1e-9,
      working: "6 + 3 + 1 = 10, twice",
      source: "counted by hand",
    },
  ],
  failures: [
    {
      args: [[1, 2], [3], 10],
      gives: "#VALUE!",
      when: "a length is missing",
      says: "each cell 2 must be given",
    },
  ],
  compute: (pieces, each, length) => {
    const { rolls, lowerBound } = rollCount(pieces, each, length);
    const used = pieces.reduce((sum, count, index) => sum + count * (each[index] ?? 0), 0);
    const gap = rolls - lowerBound;
    const status = gap === 0 ? "ok: the least" : `check: at most ${gap} more than the least`;
    return [{ rolls, "at least": lowerBound, used, left: rolls * length - used, status }];
  },
});
