import { rollCount } from "../../core/geometry/rolls";
import { define } from "../define";
import { roll, rollEach, rollPieces } from "../roll-params";

export const countRolls = define({
  name: "COUNT_ROLLS",
  category: "Ribbon and rolls",
  text: "Rolls of ribbon, line or pole when pieces cannot be joined.",
  asks: ["how many rolls of ribbon", "cut from rolls", "poles of a fixed length"],
  params: [rollPieces, rollEach, roll],
  result: { kind: "value", measure: "count", text: "Rolls, whole." },
  source:
    "One-dimensional cutting stock, exact up to 30 different lengths; ROLL_PLAN says where it could not be proved",
  examples: [
    {
      args: [[7], [3], 10],
      gives: 3,
      working: "three pieces of 3 m from a roll of 10 m: 7/3, rounded up",
      source: "counted by hand",
    },
    {
      args: [[2, 2, 2], [6, 3, 1], 10],
      gives: 2,
      working: "6 + 3 + 1 = 10, twice",
      source: "counted by hand",
    },
  ],
  failures: [
    { args: [[1], [12], 10], gives: "#VALUE!", when: "a piece is longer than a roll", says: "each" },
  ],
  compute: (pieces, each, length) => rollCount(pieces, each, length).rolls,
});
