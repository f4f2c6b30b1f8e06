import { strandCount } from "../../core/geometry/flat";
import { strandPlacements } from "../../core/geometry/flat-drawing";
import { define } from "../define";
import { balloon } from "../piece-params";

export const countStrand = define({
  name: "COUNT_STRAND",
  category: "Counting",
  text: "Single balloons on a line, side by side or with a gap.",
  asks: ["string of balloons", "single line arch", "pearls on a line"],
  params: [
    { name: "length", kind: "length", above: 0, text: "Length of the line." },
    balloon,
    { name: "gap", kind: "length", max: 100, default: 0, text: "Free line between two balloons." },
  ],
  result: { kind: "value", measure: "count", text: "Balloons, as many as fit." },
  source: "(length + gap)/(size + gap), rounded down",
  examples: [
    { args: ["10 ft", 12], gives: 10, working: "120 in / 12 in", source: "arithmetic" },
    { args: ["10 ft", 12, "12 in"], gives: 5, working: "(120 + 12)/(12 + 12) = 5.5", source: "arithmetic" },
  ],
  failures: [
    { args: [0, 12], gives: "#VALUE!", when: "the line has no length", says: "length must be above 0" },
  ],
  compute: strandCount,
  draw: strandPlacements,
});
