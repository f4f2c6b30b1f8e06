import { outlineCount } from "../../core/geometry/outline";
import { define } from "../define";
import { balloon, spacing } from "../piece-params";
import { corners } from "../shape-params";

export const countOutline = define({
  name: "COUNT_OUTLINE",
  category: "Counting",
  text: "Balloons that fill a flat outline: letters, numbers, hearts, logos.",
  asks: ["number frame", "letter frame", "fill a shape", "heart", "mosaic"],
  params: [corners, balloon, spacing(1)],
  result: { kind: "value", measure: "count", text: "Balloons, whole." },
  source:
    "Hexagonal lattice, the best of a fixed set of angles and shifts, centres at least half a balloon inside",
  limits: "One layer of one size. Lines that cross are refused.",
  examples: [
    {
      args: [
        [
          [0, 0],
          [1, 0],
          [1, 1],
          [0, 1],
        ],
        "10 cm",
      ],
      gives: 105,
      within: 5,
      working: "rows 8.66 cm apart: 11 rows of 10 and 9 by turns make 105",
      source: "hexagonal rows in a square by hand",
    },
  ],
  failures: [
    {
      args: [
        [
          [0, 0],
          [1, 1],
          [1, 0],
          [0, 1],
        ],
        "10 cm",
      ],
      gives: "#VALUE!",
      when: "the outline crosses itself",
      says: "corners row",
    },
  ],
  compute: (points, size, gap) =>
    outlineCount(
      points.map(({ x, y, loop }) => ({ x, y, ...(loop !== undefined && { loop }) })),
      size,
      gap,
    ),
});
