import { anchorMass } from "../../core/care/anchor";
import { cautionLine } from "../../core/care/cautions";
import { ANCHOR_SAFETY, TAKE_DOWN_GUST } from "../../core/practice";
import { define } from "../define";
import { form, pieceHeight, pieceWidth } from "../wind-params";

export const anchorKilograms = define({
  name: "ANCHOR_KILOGRAMS",
  category: "Care",
  text: "Ballast for the base of a free-standing piece, against tipping and sliding in a gust.",
  asks: [
    "how much weight in the base",
    "sandbags for an arch",
    "column outdoors base weight",
    "will it tip over",
  ],
  params: [
    pieceWidth,
    pieceHeight,
    { name: "base_across", kind: "length", above: 0, max: 20, text: "Narrowest width of the base." },
    { name: "gust", kind: "speed", text: "Strongest gust expected." },
    form,
    {
      name: "safety",
      kind: "ratio",
      min: 1,
      max: 10,
      default: ANCHOR_SAFETY.value,
      zero: "default",
      text: "Safety factor.",
    },
    { name: "lift", kind: "mass", default: 0, text: "Net lift of helium in the piece." },
  ],
  result: { kind: "value", measure: "kg", text: "Kilograms in the base." },
  source:
    "Equilibrium of moments and Coulomb friction on the push of WIND_NEWTONS, times the safety (common practice)",
  limits: `Level, firm ground. Above a gust of ${TAKE_DOWN_GUST.value} m/s there is no answer: take it down.`,
  caution: cautionLine("anchor"),
  examples: [
    {
      args: [0.4, 2, 0.5, 8, "column", 1],
      gives: 15.66,
      within: 0.01,
      working: "38.4 N at 1 m over half a base of 0.25 m: 38.4/(9.80665 x 0.25)",
      source: "equilibrium of moments, M = q Cd A h, m = M/(g b)",
    },
  ],
  failures: [
    {
      args: [0.4, 2, 0.5, 15],
      gives: "#N/A",
      when: "the gust is above the take-down gust",
      says: "do not put up",
    },
    { args: [0.4, 2, 0, 8], gives: "#VALUE!", when: "the base has no width", says: "base_across must" },
  ],
  compute: anchorMass,
});
