import { ballAcross } from "../../core/geometry/ball";
import { ballPlacements } from "../../core/geometry/ball-drawing";
import { TIED_BALL_SPACING } from "../../core/practice";
import { define } from "../define";
import { balloon, spacing } from "../piece-params";
import { standCaution } from "../wind-params";

export const ballMetres = define({
  name: "BALL_METRES",
  category: "Counting",
  text: "Finished size of a ball of balloons tied at one centre.",
  asks: ["how big is a ball of twelve", "size of a tied cluster ball", "diameter of a balloon ball"],
  params: [
    { name: "count", kind: "count", min: 1, max: 100000, text: "Balloons tied together." },
    balloon,
    spacing(TIED_BALL_SPACING.value),
  ],
  result: { kind: "value", measure: "m", text: "Diameter over everything, metres." },
  source:
    "Best known packings of points on a sphere (Sloane, Hardin and Smith); spacing 0.85 because tied necks pull in (common practice), 1 is the largest it can be",
  limits: "At spacing 1 the balloons only touch, which is an upper bound for a tied ball.",
  caution: standCaution,
  examples: [
    {
      args: [12, 10, 1],
      gives: 0.737,
      within: 0.0005,
      working: "icosahedron: edge 10 in, radius 0.9511 x 10 = 9.51 in; 2 x 9.51 + 10 = 29.02 in",
      source: "icosahedron: circumradius is 0.9511 of the edge",
    },
    {
      args: [12, 10],
      gives: 0.6647,
      within: 0.0003,
      working: "0.85 x 19.02 + 10 = 26.17 in",
      source: "icosahedron, pulled in by common practice",
    },
  ],
  failures: [{ args: [0, 10], gives: "#VALUE!", when: "there is no balloon", says: "count must be from 1" }],
  compute: ballAcross,
  draw: ballPlacements,
});
