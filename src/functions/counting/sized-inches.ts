import { SIZING_USES, sizedDiameter } from "../../core/geometry/sizing";
import { define } from "../define";

export const sizedInches = define({
  name: "SIZED_INCHES",
  category: "Counting",
  text: "Size to which a balloon of a printed size is inflated for a use.",
  asks: ["inflate 11 inch to what size", "sizing", "which hole of the sizer", "printed and inflated size"],
  params: [
    { name: "printed", kind: "balloon", text: "Size printed on the bag." },
    {
      name: "use",
      kind: "choice",
      options: SIZING_USES,
      default: "clusters",
      text: "What it is inflated for.",
    },
  ],
  result: { kind: "value", measure: "in", text: "Inflated size, inches, in half inches." },
  source: "0.82 of the printed size in clusters and free-form, 1 with helium, 0.8 outdoors (common practice)",
  limits:
    "The ratios are for 5 to 18 in; larger balloons are sized by eye, so type your own. Half inches hide the difference for some sizes: 11 in is 9.02 in clusters and 8.8 outdoors, both 9 on the sizer; fill the outdoor one to its small side.",
  examples: [
    { args: [11], gives: 9, within: 1e-9, working: "0.82 x 11 = 9.02", source: "common practice, no source" },
    {
      args: [11, "helium"],
      gives: 11,
      within: 1e-9,
      working: "1 x 11",
      source: "common practice, no source",
    },
    {
      args: [16, "outdoors"],
      gives: 13,
      within: 1e-9,
      working: "0.8 x 16 = 12.8",
      source: "common practice, no source",
    },
  ],
  failures: [
    { args: [11, "cooking"], gives: "#VALUE!", when: "the use is not known", says: "use must be one of" },
  ],
  compute: sizedDiameter,
});
