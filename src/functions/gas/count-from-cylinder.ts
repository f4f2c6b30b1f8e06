import { countFromCylinder } from "../../core/gas/cylinder";
import { define } from "../define";
import {
  bar,
  cylinderCaution,
  cylinderTemperature,
  gasLoss,
  heliumBalloon,
  leftBar,
  waterLitres,
} from "../gas-params";

export const countFromOneCylinder = define({
  name: "COUNT_FROM_CYLINDER",
  category: "Air and helium",
  text: "Balloons that one helium cylinder fills.",
  asks: ["how many balloons from one tank", "balloons per cylinder", "is one bottle enough"],
  params: [waterLitres, bar, heliumBalloon, leftBar, gasLoss, cylinderTemperature],
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
  ],
  failures: [
    { args: [50, 200, 0], gives: "#VALUE!", when: "the balloon has no size", says: "balloon must be from 1" },
  ],
  compute: countFromCylinder,
});
