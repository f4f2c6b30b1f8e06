import { outlineCount } from "../../core/geometry/outline";
import type { Corner } from "../../core/geometry/polygon";
import { outlinePlacements } from "../../core/geometry/outline-drawing";
import { define } from "../define";
import { balloon, spacing } from "../piece-params";
import type { RowOf } from "../param";
import { corners } from "../shape-params";

const cornerOf = ({ x, y, loop, row }: RowOf<(typeof corners)["columns"]>): Corner => ({
  x,
  y,
  row,
  ...(loop !== undefined && { loop }),
});

export const countOutline = define({
  name: "COUNT_OUTLINE",
  category: "Counting",
  text: "Balloons that fill a flat outline: letters, numbers, hearts, logos.",
  asks: ["number frame", "letter frame", "fill a shape", "heart", "mosaic"],
  params: [corners, balloon, spacing(1)],
  result: { kind: "value", measure: "count", text: "Balloons, whole." },
  source:
    "Hexagonal lattice, the best of a fixed set of angles and shifts, centres at least half a balloon inside",
  limits:
    "One layer of one size, up to 100000 balloons, 10000 of them side by side along the outline. Lines that cross are refused.",
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
  compute: (points, size, gap) => outlineCount(points.map(cornerOf), size, gap),
  draw: (points, size, gap) => outlinePlacements(points.map(cornerOf), size, gap),
});
