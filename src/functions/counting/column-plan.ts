import { columnPlan } from "../../core/geometry/clusters";
import { columnPlacements } from "../../core/geometry/clusters-drawing";
import { define } from "../define";
import { balloon, clusterSpacing, perCluster } from "../piece-params";

export const columnPlanRows = define({
  name: "COLUMN_PLAN",
  category: "Counting",
  text: "Building plan of a column, cluster by cluster from the base.",
  asks: ["how to build the column", "height of each cluster", "building plan"],
  params: [
    { name: "height", kind: "length", above: 0, max: 200, text: "Finished height of the column." },
    balloon,
    perCluster,
    clusterSpacing,
  ],
  result: {
    kind: "table",
    text: "One row for each cluster.",
    columns: [
      { name: "row", measure: "count", text: "Cluster, 1 at the base." },
      { name: "height", measure: "m", text: "Height of its centres above the base." },
      { name: "ring", measure: "m", text: "Diameter of the ring through its centres." },
      { name: "balloons", measure: "count", text: "Balloons in it." },
      { name: "status", measure: "text", text: "How it lies." },
    ],
  },
  source: "COUNT_COLUMN; ring s d/sin(pi/n)",
  examples: [
    {
      args: [0.45, 10],
      gives: [
        [1, 0.127, 0.2874, 4, null],
        [2, 0.2979, 0.2874, 4, null],
      ],
      within: 0.0002,
      working: "half a balloon, then a pitch of 0.8409 x 0.8 x 0.254 = 0.1709 m; ring 0.8 x 0.254/sin(45)",
      source: "nested rings of four by hand",
    },
  ],
  failures: [{ args: ["", 10], gives: "#VALUE!", when: "no height is given", says: "height must be given" }],
  compute: (height, size, each, gap) =>
    columnPlan(height, size, each, gap).map((row) => ({
      row: row.row,
      height: row.height,
      ring: row.ringDiameter,
      balloons: row.balloons,
      status: row.row % 2 === 1 ? "ok: straight" : "ok: turned by half a step",
    })),
  draw: columnPlacements,
});
