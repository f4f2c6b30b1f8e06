import { columnAcross } from "../../core/geometry/clusters";
import { define } from "../define";
import { balloon, clusterSpacing, perCluster } from "../piece-params";

export const columnAcrossMetres = define({
  name: "COLUMN_ACROSS_METRES",
  category: "Counting",
  text: "How thick a column, arch or garland of clusters becomes.",
  asks: ["how wide is a column", "thickness of an arch", "diameter of a quad garland"],
  params: [balloon, perCluster, clusterSpacing],
  result: { kind: "value", measure: "m", text: "Thickness over everything, metres." },
  source: "Ring of touching balls: s d/sin(pi/n) + d",
  examples: [
    {
      args: [9],
      gives: 0.487,
      within: 0.0005,
      working: "0.8 x 9/sin(45) + 9 = 19.18 in",
      source: "geometry of a square of balls",
    },
  ],
  failures: [{ args: [""], gives: "#VALUE!", when: "no size is given", says: "balloon must be given" }],
  compute: columnAcross,
});
