import { archLength } from "../../core/geometry/arch";
import { define } from "../define";
import { heightOfArch, archWidth, curve, measured } from "../piece-params";

export const archMetres = define({
  name: "ARCH_METRES",
  category: "Counting",
  text: "Length along an arch from foot to foot.",
  asks: ["how long is the arch", "length of line for an arch", "pole length of an arch"],
  params: [
    archWidth,
    heightOfArch,
    curve,
    measured,
    {
      name: "across",
      kind: "length",
      default: 0,
      text: "Thickness of the garland, needed when measured inside or outside; COLUMN_ACROSS_METRES gives it.",
    },
  ],
  result: { kind: "value", measure: "m", text: "Length along the centre line, metres." },
  source:
    "Half ellipse by the complete elliptic integral, parabola, catenary and circular segment by their formulas, square as two legs and a beam",
  examples: [
    {
      args: [4, 2],
      gives: 6.283185307,
      within: 1e-8,
      working: "half a circle of radius 2: 3.14159 x 2",
      source: "circle",
    },
    {
      args: [10, 2, "parabola"],
      gives: 10.982300838,
      within: 1e-8,
      working: "0.5 sqrt(100 + 64) + 100/16 asinh(0.8)",
      source: "handbook formula of the parabolic arc",
    },
    {
      args: [3, 2.4, "square"],
      gives: 7.8,
      within: 1e-9,
      working: "2 x 2.4 + 3",
      source: "two legs and a beam",
    },
  ],
  failures: [
    {
      args: [3, 2, "gothic"],
      gives: "#VALUE!",
      when: "the curve is not known",
      says: "curve must be one of",
    },
  ],
  compute: archLength,
});
