import { netPlan } from "../../core/geometry/volumes";
import { NET_PACKING } from "../../core/practice";
import { define } from "../define";
import { balloon } from "../piece-params";

export const netPlanRow = define({
  name: "NET_PLAN",
  category: "Counting",
  text: "Net to cut for a drop of so many balloons.",
  asks: ["what net to cut", "size of a drop net"],
  params: [
    { name: "count", kind: "count", min: 1, max: 1000000, text: "Balloons in the net." },
    balloon,
    { name: "length", kind: "length", above: 0, max: 100, text: "Length of the net." },
    {
      name: "packing",
      kind: "share",
      min: 0.2,
      max: 0.74,
      default: NET_PACKING.value,
      text: "Share of the tube that is balloon, each taken as a ball: half full of loose balls.",
    },
  ],
  result: {
    kind: "table",
    text: "One row.",
    columns: [
      { name: "volume", measure: "m3", text: "Space in the net closed to a tube." },
      { name: "width", measure: "m", text: "Width of that tube." },
      { name: "girth", measure: "m", text: "Once round it: the width to cut." },
      { name: "status", measure: "text", text: "What to look at." },
    ],
  },
  source: "Cylinder of the volume of the balloons over the packing; a net hangs half full (common practice)",
  examples: [
    {
      args: [100, "30 cm", 6, 0.5],
      gives: [[2.827, 0.7746, 2.4335, null]],
      within: 0.001,
      working: "100 x 0.014137 / 0.5 = 2.827 m3; width sqrt(4 x 2.827/(6 x 3.1416)); girth 3.1416 x width",
      source: "volumes of cylinder and ball by hand",
    },
  ],
  failures: [
    { args: [0, 11, 6], gives: "#VALUE!", when: "there is no balloon", says: "count must be from 1" },
  ],
  compute: (count, size, length, packing) => {
    const plan = netPlan(count, size, length, packing);
    return [[plan.volume, plan.width, plan.girth, "add a hem at both ends and a pull line"]];
  },
});
