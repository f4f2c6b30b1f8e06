import { ribbonLength } from "../../core/geometry/ribbon";
import { RIBBON_KNOT_METRES } from "../../core/practice";
import { define } from "../define";

export const ribbonMetres = define({
  name: "RIBBON_METRES",
  category: "Ribbon and rolls",
  text: "Ribbon for balloons of which all or a share carry one.",
  asks: ["how much ribbon", "metres of ribbon for balloons", "curling ribbon"],
  params: [
    { name: "count", kind: "count", text: "How many balloons." },
    { name: "each", kind: "length", text: "Length of each ribbon, hanging." },
    { name: "share", kind: "share", default: 1, text: "Share of the balloons that carry a ribbon." },
    {
      name: "knot",
      kind: "length",
      max: 10,
      default: RIBBON_KNOT_METRES.value,
      text: "Extra length for knot and tail.",
    },
  ],
  result: { kind: "value", measure: "m", text: "Ribbon, metres." },
  source: "Balloons with a ribbon, rounded up, times length plus knot (knot by common practice)",
  examples: [
    {
      args: [50, 2],
      gives: 107.5,
      within: 1e-9,
      working: "50 x (2 + 0.15)",
      source: "arithmetic",
    },
    { args: [51, 2, 0.5], gives: 55.9, within: 1e-9, working: "26 x (2 + 0.15)", source: "arithmetic" },
  ],
  failures: [
    { args: [50, 2, 3], gives: "#VALUE!", when: "the share is above 1", says: "share must be from 0 to 1" },
  ],
  compute: ribbonLength,
});
