import { countToLift } from "../../core/gas/lift";
import { define } from "../define";
import {
  altitude,
  heliumBalloon,
  heliumCaution,
  humidity,
  purity,
  rubberGrams,
  temperature,
} from "../gas-params";

export const countToLiftBalloons = define({
  name: "COUNT_TO_LIFT",
  category: "Air and helium",
  text: "Helium balloons that carry a load.",
  asks: ["how many balloons lift a banner", "carry a weight", "float a sign"],
  params: [
    { name: "load", kind: "mass", above: 0, max: 20000, text: "What is to be carried, ribbon included." },
    heliumBalloon,
    rubberGrams,
    temperature,
    altitude,
    purity,
    humidity,
  ],
  result: { kind: "value", measure: "count", text: "Balloons, whole." },
  source: "Load divided by the net lift of LIFT_GRAMS, rounded up",
  limits: "Things only: never people or animals. It just floats; add some for a lively pull.",
  caution: heliumCaution,
  examples: [
    {
      args: ["1 kg", 36, 20],
      gives: 3,
      working: "one lifts about 391 g; 1000/391 = 2.6",
      source: "CIPM-2007 and helium density, as in LIFT_GRAMS",
    },
  ],
  failures: [{ args: [100, 3], gives: "#N/A", when: "the balloon does not lift its own rubber" }],
  compute: (load, size, rubber, kelvin, metres, share, relative) =>
    countToLift(load, size, rubber, {
      temperature: kelvin,
      altitude: metres,
      purity: share,
      humidity: relative,
    }),
});
