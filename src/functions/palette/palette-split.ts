import { paletteSplit } from "../../core/palette/palette-split";
import { define } from "../define";

export const paletteSplitCounts = define({
  name: "PALETTE_SPLIT",
  category: "Palette",
  text: "Whole balloons for each colour that add up to the total exactly.",
  asks: ["split into colours", "how many of each colour", "colour percentages", "palette"],
  params: [
    { name: "total", kind: "count", text: "Balloons in all." },
    {
      name: "shares",
      kind: "list",
      of: { kind: "weight" },
      blanks: "keep",
      text: "Share of each colour: percent, shares or ratios such as 2, 1, 1.",
    },
    {
      name: "method",
      kind: "choice",
      options: ["largest remainder", "even rounding"],
      default: "largest remainder",
      text: "How whole numbers are made.",
    },
  ],
  result: {
    kind: "list",
    measure: "count",
    like: "shares",
    text: "Balloons of each colour, lying as the shares do.",
  },
  source: "Apportionment: largest remainder (Hamilton) or even rounding (Webster)",
  examples: [
    {
      args: [100, [50, 30, 20]],
      gives: [[50, 30, 20]],
      working: "whole already",
      source: "arithmetic",
    },
    {
      args: [10, [1, 1, 1]],
      gives: [[4, 3, 3]],
      working: "3.33 each; the first gets the one that is over",
      source: "largest remainder by hand",
    },
  ],
  failures: [
    {
      args: [100, [50, 30, 15]],
      gives: "#VALUE!",
      when: "percents miss 100 by more than two",
      says: "shares must add up to 100%",
    },
    { args: [2.5, [1, 1]], gives: "#VALUE!", when: "half a balloon", says: "total must be a whole number" },
  ],
  compute: paletteSplit,
});
