import { sphereCount } from "../../core/geometry/ball";
import { spherePlacements } from "../../core/geometry/ball-drawing";
import { define } from "../define";
import { balloon, covered, spacing } from "../piece-params";

export const countSphere = define({
  name: "COUNT_SPHERE",
  category: "Counting",
  text: "Balloons in one layer on a ball or dome of a finished size.",
  asks: ["how many balloons for a ball", "balloons to cover a sphere", "dome", "globe", "topiary ball"],
  params: [
    {
      name: "across",
      kind: "length",
      above: 0,
      text: "Finished diameter of the ball, outside of the balloons.",
    },
    balloon,
    spacing(1),
    covered,
  ],
  result: { kind: "value", measure: "count", text: "Balloons, whole." },
  source:
    "Best known packings of points on a sphere up to 60 (Sloane, Hardin and Smith, Tables of Spherical Codes), above that a continuation under the Fejes Toth bound",
  limits: "One layer. Balloons hidden inside a filled ball are not counted.",
  examples: [
    {
      args: ["29.1 in", 10],
      gives: 12,
      working:
        "centres on a radius of 9.55 in; twelve points can be 63.43 degrees apart, ten-inch balloons need 63.1",
      source: "icosahedron: twelve touching 10 in balloons make a ball of 29.0 in",
    },
    {
      args: ["29.1 in", 10, 1, 0.5],
      gives: 6,
      working: "half of the twelve",
      source: "icosahedron, upper half",
    },
  ],
  failures: [
    { args: [0.1, 10], gives: "#VALUE!", when: "the ball is smaller than one balloon", says: "across must" },
    {
      args: [1, 10, 2],
      gives: "#VALUE!",
      when: "the spacing is no ratio",
      says: "spacing must be from 0.6 to 1.2",
    },
  ],
  compute: sphereCount,
  draw: spherePlacements,
});
