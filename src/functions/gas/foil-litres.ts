import { cautionLine } from "../../core/care/cautions";
import { foilVolume } from "../../core/gas/fill";
import { define } from "../define";

export const foilLitres = define({
  name: "FOIL_LITRES",
  category: "Air and helium",
  text: "Gas in round foil balloons of a flat size.",
  asks: ["how much gas for foil", "volume of a foil balloon", "foil balloon helium"],
  params: [
    { name: "flat_across", kind: "balloon", text: "Diameter of the empty balloon, flat on the table." },
    { name: "count", kind: "count", text: "How many balloons.", default: 1 },
  ],
  result: { kind: "value", measure: "L", text: "Litres." },
  source: "Paulsen, American Mathematical Monthly 101 (1994) 953: V = 0.1523 D^3",
  limits: "Round foil filled taut; letters and figures hold what their packet says.",
  caution: cautionLine("foil"),
  examples: [
    {
      args: [18],
      gives: 14.557,
      within: 0.001,
      working: "0.152315527 x (0.4572 m)^3 = 0.014557 m3",
      source: "Paulsen 1994",
    },
  ],
  failures: [{ args: ["round"], gives: "#VALUE!", when: "the size is a word", says: "flat_across must be" }],
  compute: foilVolume,
});
