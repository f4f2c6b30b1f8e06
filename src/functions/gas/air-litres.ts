import { airVolume } from "../../core/gas/fill";
import { define } from "../define";

export const airLitres = define({
  name: "AIR_LITRES",
  category: "Air and helium",
  text: "Air that goes into round latex balloons.",
  asks: ["how much air", "what must the pump move", "volume of a balloon"],
  params: [
    { name: "balloon", kind: "balloon", text: "Inflated size of one balloon, across." },
    { name: "count", kind: "count", text: "How many balloons.", default: 1 },
  ],
  result: { kind: "value", measure: "L", text: "Litres of air." },
  source: "Volume e pi/6 d^3; elongation e is 1.2 up to 12 in, falling to 1 at 24 in (common practice)",
  limits: "Round latex only; for round foil use FOIL_LITRES.",
  examples: [
    {
      args: [11],
      gives: 14.2,
      within: 1.4,
      working: "half a cubic foot is 14.2 L; 1.2 x 3.1416/6 x (0.2794 m)^3 = 13.7 L",
      source: "common practice, no source: an 11 in balloon takes about half a cubic foot",
    },
    {
      args: [24, 10],
      gives: 1186.1,
      within: 0.1,
      working: "a ball of 0.6096 m: 3.1416/6 x 0.6096^3 = 0.11861 m3, ten of them",
      source: "volume of a ball; a 24 in balloon is as long as wide (common practice)",
    },
  ],
  failures: [
    {
      args: [0],
      gives: "#VALUE!",
      when: "the size is 0",
      says: "balloon must be from 1 to 120 in, found 0 in",
    },
    { args: [11, 2.5], gives: "#VALUE!", when: "half a balloon", says: "count must be a whole number" },
  ],
  compute: airVolume,
});
