import { patternSplit } from "../../core/palette/pattern";
import { define } from "../define";

export const patternSplitCounts = define({
  name: "PATTERN_SPLIT",
  category: "Palette",
  text: "Balloons of each colour for clusters that all repeat one pattern.",
  asks: ["colours of a spiral column", "two white one blue one gold in each cluster", "pattern"],
  params: [
    { name: "clusters", kind: "count", text: "Clusters that repeat the pattern." },
    {
      name: "pattern",
      kind: "list",
      of: { kind: "count", max: 1000 },
      blanks: "keep",
      text: "Balloons of each colour in one cluster.",
    },
  ],
  result: {
    kind: "list",
    measure: "count",
    like: "pattern",
    text: "Balloons of each colour, lying as the pattern does.",
  },
  source: "Clusters times pattern: whole clusters take whole patterns, not percentages",
  examples: [
    { args: [28, [2, 1, 1]], gives: [[56, 28, 28]], working: "28 x 2, 28 x 1, 28 x 1", source: "arithmetic" },
  ],
  failures: [
    {
      args: [28, [1.5, 2.5]],
      gives: "#VALUE!",
      when: "half a balloon in the pattern",
      says: "pattern cell 1 must be a whole number",
    },
  ],
  compute: patternSplit,
});
