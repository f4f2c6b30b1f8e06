import { boxVolume } from "../../core/work/transport";
import { define } from "../define";

const side = (text: string) => ({ kind: "length", above: 0, max: 100, text }) as const;

export const boxCubicMetres = define({
  name: "BOX_CUBIC_METRES",
  category: "Work and transport",
  text: "Van space that rigid pieces take: columns, arches, balls and walls that travel built.",
  asks: ["column in the van", "does the arch fit in the van", "van space of a built piece"],
  params: [
    { name: "width", ...side("Width of the piece over everything.") },
    { name: "height", ...side("Height or length of the piece.") },
    {
      name: "depth",
      ...side("Depth of the piece; left out, it is as deep as wide."),
      optional: true,
    },
    { name: "count", kind: "count", max: 10000, default: 1, text: "How many of them." },
  ],
  result: { kind: "value", measure: "m3", text: "Cubic metres." },
  source: "Width x height x depth of each piece: nothing else fits between its balloons",
  limits: "Upright or lying as it fits; doors and wheel arches are not looked at.",
  examples: [
    {
      args: [0.487, 1.92],
      gives: 0.4554,
      within: 0.0001,
      working: "a 6 ft column of 9 in balloons: 0.487 x 0.487 x 1.92",
      source: "volume of a box",
    },
  ],
  failures: [
    { args: [0, 2], gives: "#VALUE!", when: "the piece has no width", says: "width must be above 0" },
  ],
  compute: boxVolume,
});
