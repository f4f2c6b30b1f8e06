import { sleeveCount } from "../../core/geometry/ribbon";
import { SLEEVE_INCHES, SLEEVE_STRETCH } from "../../core/practice";
import { define } from "../define";

export const countSleeves = define({
  name: "COUNT_SLEEVES",
  category: "Counting",
  text: "Long modelling balloons that cover a pole.",
  asks: ["cover a pole", "sleeve a stand", "hide the pole with long balloons"],
  params: [
    { name: "pole", kind: "length", above: 0, text: "Length of pole to cover." },
    {
      name: "sleeve",
      kind: "length",
      unit: "in",
      above: 0,
      max: 400,
      default: SLEEVE_INCHES.value,
      text: "Length of one modelling balloon, uninflated.",
    },
    {
      name: "stretch",
      kind: "ratio",
      min: 0.5,
      max: 3,
      default: SLEEVE_STRETCH.value,
      text: "Length it covers as a ratio to its own.",
    },
    { name: "tie", kind: "length", default: 0, max: 1, text: "Length lost at each tie or overlap." },
  ],
  result: { kind: "value", measure: "count", text: "Modelling balloons, whole." },
  source: "Common practice: one fully relaxed 60 in balloon covers up to 6 ft of pole",
  limits: "Each balloon may come a centimetre short, so that 6 ft, 183 cm and 1.83 are one sleeve.",
  examples: [
    {
      args: ["6 ft"],
      gives: 1,
      working: "60 in x 1.2 = 72 in = 6 ft",
      source: "common practice, no source",
    },
    {
      args: ["183 cm"],
      gives: 1,
      working: "six feet, 182.9 cm, as a metric tape shows them",
      source: "international foot: 0.3048 m",
    },
    {
      args: [2],
      gives: 2,
      working: "2 m is more than 72 in = 1.829 m",
      source: "common practice, no source",
    },
  ],
  failures: [
    {
      args: [2, 60, 1.2, "1 km"],
      gives: "#VALUE!",
      when: "the tie is longer than the balloon",
      says: "tie must",
    },
  ],
  compute: sleeveCount,
});
