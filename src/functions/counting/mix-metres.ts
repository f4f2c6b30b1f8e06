import { mixLength } from "../../core/geometry/volumes";
import { define } from "../define";
import { mixPacking, mixSizes, bodyThickness } from "../mix-params";

export const mixMetres = define({
  name: "MIX_METRES",
  category: "Counting",
  text: "Length of a free-form garland that the balloons at hand make.",
  asks: ["how long a garland from these balloons", "use up stock in a garland"],
  params: [
    {
      name: "counts",
      kind: "list",
      of: { kind: "count" },
      blanks: "skip",
      pairedWith: "sizes",
      text: "Balloons of each size.",
    },
    { ...mixSizes, pairedWith: "counts" },
    bodyThickness,
    mixPacking,
  ],
  result: { kind: "value", measure: "m", text: "Length, metres." },
  source: "The inverse of MIX_PLAN",
  examples: [
    {
      args: [[100], ["30 cm"], 0.5],
      gives: 10.286,
      within: 0.001,
      working: "100 x 0.014137 m3 / (0.7 x 3.1416/4 x 0.25 m2)",
      source: "volumes of ball and cylinder by hand",
    },
  ],
  failures: [
    {
      args: [[100, 50], [5], 0.5],
      gives: "#VALUE!",
      when: "a size is missing",
      says: "sizes cell 2 must be given",
    },
  ],
  compute: mixLength,
});
