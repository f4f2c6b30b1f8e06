import { garlandCount } from "../../core/geometry/clusters";
import { garlandPlacements } from "../../core/geometry/clusters-drawing";
import { define } from "../define";
import { balloon, clusterSpacing, perCluster } from "../piece-params";

export const countGarland = define({
  name: "COUNT_GARLAND",
  category: "Counting",
  text: "Balloons for a garland of clusters along a line, in whole clusters.",
  asks: ["how many balloons for a garland", "quads along a rope", "swag"],
  params: [
    { name: "length", kind: "length", above: 0, text: "Length along the garland." },
    balloon,
    perCluster,
    clusterSpacing,
  ],
  result: { kind: "value", measure: "count", text: "Balloons, whole clusters." },
  source: "Touching balls in rings, each ring nested half a step round into the next",
  limits: "Clusters of one size; for a free-form garland of mixed sizes use MIX_PLAN.",
  examples: [
    {
      args: ["10 ft", 9],
      gives: 80,
      working: "3.048 m / 0.1538 m = 19.8, 20 clusters of 4",
      source: "common practice, no source: two clusters of four to the foot",
    },
  ],
  failures: [
    { args: [2, 0.5], gives: "#VALUE!", when: "the size is below one inch", says: "balloon must be from 1" },
  ],
  compute: garlandCount,
  draw: garlandPlacements,
});
