import { ceilingCount } from "../../core/geometry/flat";
import { ceilingPlacements } from "../../core/geometry/flat-drawing";
import { CEILING_FULL_LOOK } from "../../core/practice";
import { define } from "../define";
import { heliumCaution } from "../gas-params";
import { balloon } from "../piece-params";

export const countCeiling = define({
  name: "COUNT_CEILING",
  category: "Counting",
  text: "Loose helium balloons against a ceiling.",
  asks: ["how many for the ceiling", "fill the ceiling with helium balloons", "loose ceiling"],
  params: [
    { name: "length", kind: "length", above: 0, text: "One side of the ceiling." },
    { name: "width", kind: "length", above: 0, text: "The other side." },
    balloon,
    {
      name: "covered",
      kind: "share",
      above: 0,
      default: CEILING_FULL_LOOK.value,
      text: "Look: 80% is full, 40% scattered.",
    },
  ],
  result: { kind: "value", measure: "count", text: "Balloons, whole." },
  source: "Random packing of discs, 0.82 (Berryman 1983), times the look",
  caution: heliumCaution,
  examples: [
    {
      args: ["20 ft", "30 ft", 11],
      gives: 596,
      within: 2,
      working: "0.82 x 0.8 x 600 sq ft / 0.66 sq ft each",
      source: "common practice, no source: one 11 in balloon to the square foot, about 600",
    },
  ],
  failures: [{ args: [6, 9, 11, 80], gives: "#VALUE!", when: "the look is typed as 80", says: "type 80%" }],
  compute: ceilingCount,
  draw: ceilingPlacements,
});
