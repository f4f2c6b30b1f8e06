import { revolvedCount } from "../../core/geometry/revolved";
import { revolvedPlacements } from "../../core/geometry/revolved-drawing";
import { define } from "../define";
import { balloon, spacing } from "../piece-params";
import { profile } from "../shape-params";

export const countRevolved = define({
  name: "COUNT_REVOLVED",
  category: "Counting",
  text: "Balloons that cover a body turned round an axis: vase, egg, tree, mushroom.",
  asks: ["vase shape", "tree of balloons", "egg", "lampshade", "any round shape"],
  params: [profile, balloon, spacing(1)],
  result: { kind: "value", measure: "count", text: "Balloons, whole." },
  source:
    "Rings along the side line, rows s d sqrt(3)/2 apart, each ring by the chord between neighbours; what closing a round body takes is known from the best packings on balls (Sloane, Hardin and Smith)",
  limits: "One layer, up to 10000 rings. Flat ends with a radius stay open.",
  examples: [
    {
      args: [
        [
          ["height", "radius"],
          [0, 0.5],
          [2, 0.5],
        ],
        10,
      ],
      gives: 81,
      within: 9,
      working: "an open tube: 9 rings of 2 x 3.1416 x (0.5 - 0.127)/0.254 = 9.2",
      source: "rings of touching balls by hand",
    },
  ],
  failures: [
    {
      args: [
        [
          ["height", "radius"],
          [0, 0.5],
          [0, 0.5],
        ],
        10,
      ],
      gives: "#VALUE!",
      when: "two points are the same",
      says: "profile row",
    },
  ],
  compute: revolvedCount,
  draw: revolvedPlacements,
});
