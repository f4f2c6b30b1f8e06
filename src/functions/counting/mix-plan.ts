import { mixPlan } from "../../core/geometry/volumes";
import { mixPlacements } from "../../core/geometry/volumes-drawing";
import { define } from "../define";
import { mixPacking, mixSizes, bodyThickness } from "../mix-params";

export const mixPlanRows = define({
  name: "MIX_PLAN",
  category: "Counting",
  text: "Balloons of each size for a free-form garland of mixed sizes.",
  asks: ["organic garland", "free-form garland", "mixed sizes", "how many of each size"],
  params: [
    { name: "length", kind: "length", above: 0, text: "Length of the garland." },
    bodyThickness,
    { ...mixSizes, pairedWith: "shares" },
    {
      name: "shares",
      kind: "list",
      of: { kind: "weight" },
      blanks: "skip",
      pairedWith: "sizes",
      text: "Share of each size by number, beside it: 5, 4, 1 or percents.",
    },
    mixPacking,
  ],
  result: {
    kind: "table",
    text: "One row for each size.",
    columns: [
      { name: "inflated", measure: "in", text: "Inflated size." },
      { name: "balloons", measure: "count", text: "Balloons of it." },
      { name: "status", measure: "text", text: "What to look at." },
    ],
  },
  source:
    "Volume of the body times packing = volume of the balloons; whole numbers by largest remainder (packing by common practice)",
  limits: "Inflated sizes, not printed ones.",
  examples: [
    {
      args: ["10 ft", 0.55, [4.5, 9, 14], [5, 4, 1]],
      gives: [
        [4.5, 55, null],
        [9, 44, null],
        [14, 11, null],
      ],
      within: 12,
      working: "0.7 x 0.724 m3 over a mean balloon of 4.7 L is about 110, in 5 : 4 : 1",
      source: "common practice, no source: 10 to 12 balloons to the foot at this thickness",
    },
  ],
  failures: [
    {
      args: [3, 0.2, [5, 14], [1, 1]],
      gives: "#VALUE!",
      when: "a balloon is thicker than the garland",
      says: "sizes",
    },
  ],
  compute: (length, thick, sizes, shares, packing) =>
    mixPlan(length, thick, sizes, shares, packing).map((row) => ({
      inflated: row.size,
      balloons: row.balloons,
      status: row.balloons === 0 ? "check: none of this size fits the shares" : "ok",
    })),
  draw: mixPlacements,
});
