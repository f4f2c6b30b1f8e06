import { columnCount } from "../../core/geometry/clusters";
import { columnPlacements } from "../../core/geometry/clusters-drawing";
import { define } from "../define";
import { balloon, clusterSpacing, perCluster, tallNote } from "../piece-params";

export const countColumn = define({
  name: "COUNT_COLUMN",
  category: "Counting",
  text: "Balloons for a column of stacked clusters, in whole clusters.",
  asks: ["how many balloons for a column", "pillar", "tower of quads", "six foot column"],
  params: [
    { name: "height", kind: "length", above: 0, text: "Finished height of the column." },
    balloon,
    perCluster,
    clusterSpacing,
  ],
  result: { kind: "value", measure: "count", text: "Balloons, whole clusters." },
  source:
    "Touching balls in rings, each ring nested half a step round into the next; the last quarter of a cluster is not built (common practice)",
  limits: tallNote,
  examples: [
    {
      args: [1.8, 10],
      gives: 40,
      working:
        "pitch 0.8409 x 0.8 x 0.254 = 0.171 m; (1.8 - 0.254)/0.171 = 9.05, less 0.25 rounds up to 9; 10 clusters of 4",
      source: "common practice, no source: nobody builds a cluster for the last millimetres",
    },
    {
      args: ["6 ft", 9],
      gives: 48,
      working: "pitch 0.1538 m; (1.829 - 0.229)/0.1538 = 10.4, less 0.25 rounds up to 11; 12 clusters of 4",
      source: "common practice, no source: two clusters of four to the foot",
    },
  ],
  failures: [
    { args: [-1, 10], gives: "#VALUE!", when: "height is negative", says: "height must be above 0" },
    {
      args: [1.8, 10, 1],
      gives: "#VALUE!",
      when: "a cluster has one balloon",
      says: "per_cluster must be from 2",
    },
  ],
  compute: columnCount,
  draw: columnPlacements,
});
