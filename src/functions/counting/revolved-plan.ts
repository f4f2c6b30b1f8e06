import { revolvedPlan } from "../../core/geometry/revolved";
import { revolvedPlacements } from "../../core/geometry/revolved-drawing";
import { define } from "../define";
import { balloon, spacing } from "../piece-params";
import { profile } from "../shape-params";

export const revolvedPlanRows = define({
  name: "REVOLVED_PLAN",
  category: "Counting",
  text: "Building plan of a body turned round an axis, ring by ring from the base.",
  asks: ["rings of a vase", "how to build an egg", "balloons in each ring"],
  params: [profile, balloon, spacing(1)],
  result: {
    kind: "table",
    text: "One row for each ring.",
    columns: [
      { name: "row", measure: "count", text: "Ring, 1 at the base." },
      { name: "height", measure: "m", text: "Height of its centres above the base." },
      { name: "ring", measure: "m", text: "Diameter of the ring through its centres." },
      { name: "balloons", measure: "count", text: "Balloons in it." },
      { name: "status", measure: "text", text: "How it lies." },
    ],
  },
  source: "COUNT_REVOLVED; the rows add up to it",
  limits: "Up to 10000 rings.",
  examples: [
    {
      args: [
        [
          ["height", "radius"],
          [0, 0.5],
          [0.254, 0.5],
        ],
        10,
      ],
      gives: [[1, 0.127, 0.746, 9, null]],
      within: 0.001,
      working: "one ring at half a balloon; 2 x (0.5 - 0.127) across; 3.1416 x 0.746/0.254 = 9.2",
      source: "a ring of touching balls by hand",
    },
  ],
  failures: [
    {
      args: [
        [
          ["height", "radius"],
          [0, 1],
        ],
        10,
      ],
      gives: "#VALUE!",
      when: "there is one point only",
      says: "profile must",
    },
  ],
  compute: (points, size, gap) =>
    revolvedPlan(points, size, gap).map((row) => ({
      row: row.row,
      height: row.height,
      ring: row.ringDiameter,
      balloons: row.balloons,
      status: row.balloons === 1 ? "ok: a single balloon" : "ok",
    })),
  draw: revolvedPlacements,
});
