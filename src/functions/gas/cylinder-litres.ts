import { cylinderVolume } from "../../core/gas/cylinder";
import { define } from "../define";
import { bar, cylinderCaution, cylinderTemperature, waterLitres } from "../gas-params";

export const cylinderLitres = define({
  name: "CYLINDER_LITRES",
  category: "Air and helium",
  text: "Free helium in a cylinder.",
  asks: ["how much gas is in the cylinder", "cylinder contents", "tank volume at 200 bar"],
  params: [waterLitres, bar, cylinderTemperature],
  result: { kind: "value", measure: "L", text: "Litres of free gas at room pressure." },
  source: "Real gas: virial equation of helium against NISTIR 8474; the gauge reads above the air",
  caution: cylinderCaution,
  examples: [
    {
      args: [50, 198.98675],
      gives: 9000,
      within: 10,
      working: "200 bar absolute, Z = 1.0970: 50 L x 200/1.01325/1.0970 = 8997 L at 15 C",
      source: "Z of helium at 15 C and 200 bar absolute: 1.09698 (NISTIR 8474 equation of state)",
    },
  ],
  failures: [
    {
      args: [50, 500],
      gives: "#VALUE!",
      when: "no cylinder has this pressure",
      says: "bar must be above 0 and at most 300 bar",
    },
  ],
  compute: cylinderVolume,
});
