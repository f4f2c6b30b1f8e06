import { heliumVolume } from "../../core/gas/fill";
import { define } from "../define";
import { altitude, gasLoss, heliumBalloon, heliumCaution } from "../gas-params";

export const heliumLitres = define({
  name: "HELIUM_LITRES",
  category: "Air and helium",
  text: "Helium to order for round latex balloons, as free gas at sea-level pressure.",
  asks: ["how much helium", "litres of gas for a ceiling", "helium to order"],
  params: [
    heliumBalloon,
    { name: "count", kind: "count", text: "How many balloons.", default: 1 },
    gasLoss,
    altitude,
  ],
  result: { kind: "value", measure: "L", text: "Litres of free gas." },
  source: "Volume of AIR_LITRES, squeezed 2.5 % by the rubber (Boyle), plus the loss (common practice)",
  limits: "Round latex only; for round foil use FOIL_LITRES.",
  caution: heliumCaution,
  examples: [
    {
      args: [24, 10],
      gives: 1337.4,
      within: 0.3,
      working: "10 balls of 118.61 L x 1.025 x 1.1",
      source: "volume of a ball and Boyle's law; loss by common practice",
    },
    {
      args: [24, 10, null, 1609],
      gives: 1101,
      within: 1,
      working: "a mile up the air presses with 834.3 hPa: 1337.4 x 834.3/1013.25",
      source: "ISO 2533: 83 434 Pa at 1609 m; Boyle's law",
    },
  ],
  failures: [{ args: [11, 10, 30], gives: "#VALUE!", when: "the loss is typed as 30", says: "type 30%" }],
  compute: heliumVolume,
});
