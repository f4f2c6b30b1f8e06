import { columnHeight } from "../../core/geometry/clusters";
import { define } from "../define";
import { balloon, clusterSpacing, perCluster } from "../piece-params";

export const columnMetres = define({
  name: "COLUMN_METRES",
  category: "Counting",
  text: "Finished height of a column of so many clusters.",
  asks: ["how tall is a column of twelve clusters", "column height"],
  params: [
    { name: "clusters", kind: "count", min: 1, max: 100000, text: "Clusters in the stack." },
    balloon,
    perCluster,
    clusterSpacing,
  ],
  result: { kind: "value", measure: "m", text: "Height, metres." },
  source: "Touching balls in rings, each ring nested half a step round into the next",
  examples: [
    {
      args: [12, 9],
      gives: 1.92,
      within: 0.0005,
      working: "11 x 0.15377 m + 0.2286 m",
      source: "pitch of nested rings of four: 0.8409 of the spacing, by hand",
    },
  ],
  failures: [
    { args: [0, 9], gives: "#VALUE!", when: "there is no cluster", says: "clusters must be from 1" },
  ],
  compute: columnHeight,
});
