import { archHeight } from "../../core/geometry/arch";
import { define } from "../define";
import { archWidth, curve } from "../piece-params";

export const archHeightMetres = define({
  name: "ARCH_HEIGHT_METRES",
  category: "Counting",
  text: "How high an arch of a given length stands over a given width.",
  asks: ["how high will the arch be", "arch from a fixed length of garland"],
  params: [archWidth, { name: "length", kind: "length", above: 0, text: "Length along the arch." }, curve],
  result: { kind: "value", measure: "m", text: "Height above the feet, metres." },
  source: "The length formulas of ARCH_METRES, solved for the height",
  examples: [
    {
      args: [4, 6.283185307],
      gives: 2,
      within: 1e-6,
      working: "half a circle of radius 2 is 6.2832 long",
      source: "circle",
    },
    {
      args: [3, 7.8, "square"],
      gives: 2.4,
      within: 1e-9,
      working: "(7.8 - 3)/2",
      source: "two legs and a beam",
    },
  ],
  failures: [
    { args: [4, 3], gives: "#VALUE!", when: "the length does not reach across", says: "length must" },
  ],
  compute: archHeight,
});
