import { countFromCylinders } from "../../core/gas/cylinder";
import { define } from "../define";
import {
  altitude,
  bar,
  cylinderCaution,
  cylindersOf,
  cylinderTemperature,
  gasLoss,
  heliumBalloon,
  leftBar,
  roomTemperature,
  waterLitres,
} from "../gas-params";

export const countFromOneCylinder = define({
  name: "COUNT_FROM_CYLINDER",
  category: "Air and helium",
  text: "Balloons that a helium cylinder, or several, fill.",
  asks: [
    "how many balloons from one tank",
    "balloons per cylinder",
    "disposable cylinder",
    "is one bottle enough",
  ],
  params: [waterLitres, bar, heliumBalloon, leftBar, gasLoss, cylinderTemperature, roomTemperature, altitude],
  result: { kind: "value", measure: "count", text: "Balloons, whole." },
  source: "Usable contents of the cylinder divided by HELIUM_LITRES of one balloon, rounded down",
  caution: cylinderCaution,
  examples: [
    {
      args: [50, 200, 36],
      gives: 19,
      working: "usable about 8.8 m3; one 36 in balloon takes 400.3 L x 1.025 x 1.1 = 451 L",
      source: "50 L at 200 bar absolute hold 9.00 m3 (Z by NISTIR 8474); volume of a ball",
    },
    {
      args: [13.4, 18, 9],
      gives: 30,
      within: 2,
      working:
        "a disposable cylinder is emptied: 13.4 L x 18 bar is about 240 L; a 9 in balloon takes 8.46 L",
      source: "common practice, no source: such a cylinder is sold for about 30 balloons of 9 in",
    },
  ],
  failures: [
    { args: [50, 200, 0], gives: "#VALUE!", when: "the balloon has no size", says: "balloon must be from 1" },
  ],
  compute: (waters, pressures, size, left, loss, kelvin, room, metres) =>
    countFromCylinders(cylindersOf(waters, pressures), size, left, loss, {
      temperature: kelvin,
      roomTemperature: room,
      altitude: metres,
    }),
});
