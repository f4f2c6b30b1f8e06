import { countCylinders } from "../../core/gas/cylinder";
import { define } from "../define";
import { bar, cylinderCaution, cylinderTemperature, leftBar, waterLitres } from "../gas-params";

export const countCylindersToHire = define({
  name: "COUNT_CYLINDERS",
  category: "Air and helium",
  text: "Helium cylinders to hire for an amount of gas.",
  asks: ["how many cylinders", "how many tanks to rent", "helium bottles"],
  params: [
    { name: "litres", kind: "volume", text: "Free gas needed, as HELIUM_LITRES gives it." },
    waterLitres,
    bar,
    leftBar,
    cylinderTemperature,
  ],
  result: { kind: "value", measure: "count", text: "Cylinders, whole." },
  source: "Contents of CYLINDER_LITRES less what stays at the closing pressure",
  caution: cylinderCaution,
  examples: [
    {
      args: [10000, 50, 200],
      gives: 2,
      working: "one gives about 9.0 m3 less the 0.25 m3 that stays",
      source: "50 L at 200 bar absolute hold 9.00 m3 (Z by NISTIR 8474)",
    },
  ],
  failures: [{ args: [10000, 50, 100, 150], gives: "#N/A", when: "more stays in than is in" }],
  compute: countCylinders,
});
