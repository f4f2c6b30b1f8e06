import { ANCHOR_SAFETY } from "../core/practice";
import type { Param } from "./param";
import { centre, form, pieceHeight, pieceWidth, frameThickness } from "./wind-params";

/** Parameters of the functions that size ballast, each said once. */
export const anchorParams = [
  pieceWidth,
  pieceHeight,
  { name: "base_across", kind: "length", above: 0, max: 20, text: "Narrowest width of the base." },
  {
    name: "gust",
    kind: "speed",
    text: 'Strongest gust expected; "4 bft" is read as 7.9 m/s, a mean that gusts exceed.',
  },
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
  frameThickness,
  centre,
] as const satisfies readonly Param[];
