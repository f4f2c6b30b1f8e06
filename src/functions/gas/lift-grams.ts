import { netLift } from "../../core/gas/lift";
import { define } from "../define";
import {
  altitude,
  balloonType,
  heliumBalloon,
  heliumCaution,
  humidity,
  purity,
  rubberGrams,
  temperature,
} from "../gas-params";

export const liftGrams = define({
  name: "LIFT_GRAMS",
  category: "Air and helium",
  text: "What one helium balloon lifts beyond its own weight.",
  asks: ["how much does a balloon lift", "can it carry a ribbon", "net lift"],
  params: [heliumBalloon, rubberGrams, temperature, altitude, purity, humidity, balloonType],
  result: { kind: "value", measure: "g", text: "Grams; negative where it does not float." },
  source:
    "Moist air by CIPM-2007, helium by a virial equation, 2.5 % overpressure; volume of AIR_LITRES less the rubber",
  limits:
    "Round latex or round foil; foil film of 30 g/m2 (common practice) unless its weight is given. Ribbon and clips are not taken off.",
  caution: heliumCaution,
  examples: [
    {
      args: [36, 20],
      gives: 391.4,
      within: 4,
      working: "400.3 L x (1.1993 - 1.025 x 0.1663) g/L - 20 g",
      source: "CIPM-2007 moist air at 20 C, 50 %: 1.1993 kg/m3; helium 0.1663 kg/m3 (NISTIR 8474)",
    },
    {
      args: [18, null, null, null, null, null, "foil"],
      gives: 5.13,
      within: 0.01,
      working: "14.557 L x 1.0289 g/L - 2 x 0.1642 m2 x 30 g/m2 = 14.977 - 9.850",
      source: "volume by Paulsen 1994; film from memory",
    },
  ],
  failures: [
    {
      args: [11, 0, 200],
      gives: "#VALUE!",
      when: "the temperature is no air's",
      says: "temperature must be",
    },
  ],
  compute: (size, rubber, kelvin, metres, share, relative, type) =>
    netLift(size, rubber, { temperature: kelvin, altitude: metres, purity: share, humidity: relative }, type),
});
