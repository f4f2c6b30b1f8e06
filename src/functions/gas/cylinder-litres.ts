import { sum } from "../../core/numeric/sums";
import { cylinderVolume } from "../../core/gas/cylinder";
import { define } from "../define";
import {
  altitude,
  bar,
  cylinderCaution,
  cylindersOf,
  cylinderTemperature,
  roomTemperature,
  waterLitres,
} from "../gas-params";

export const cylinderLitres = define({
  name: "CYLINDER_LITRES",
  category: "Air and helium",
  text: "Free helium in a cylinder, or in several together.",
  asks: ["how much gas is in the cylinder", "cylinder contents", "tank volume at 200 bar"],
  params: [waterLitres, bar, cylinderTemperature, roomTemperature, altitude],
  result: {
    kind: "value",
    measure: "L",
    text: "Litres of free gas at sea-level pressure and the room's temperature.",
  },
  source:
    "Real gas: amount by the equation of state of NISTIR 8474 at the cylinder's temperature; the gauge reads above the air",
  caution: cylinderCaution,
  examples: [
    {
      args: [50, 198.98675, 15, 15],
      gives: 9000,
      within: 10,
      working: "200 bar absolute, Z = 1.0970: 50 L x 200/1.01325/1.0970 = 8997 L in a room of 15 C",
      source: "Z of helium at 15 C and 200 bar absolute: 1.09698 (NISTIR 8474 equation of state)",
    },
  ],
  limits: "At the same pressure on the gauge a warm cylinder holds less gas, not more.",
  failures: [
    {
      args: [50, 500],
      gives: "#VALUE!",
      when: "no cylinder has this pressure",
      says: "must be above 0 and at most 300 bar",
    },
  ],
  compute: (waters, pressures, kelvin, room, metres) =>
    sum(
      cylindersOf(waters, pressures).map((cylinder) =>
        cylinderVolume(cylinder, { temperature: kelvin, roomTemperature: room, altitude: metres }),
      ),
    ),
});
