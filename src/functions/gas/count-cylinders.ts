import { countCylinders } from "../../core/gas/cylinder";
import { define } from "../define";
import {
  altitude,
  bar,
  cylinderCaution,
  cylindersOf,
  cylinderTemperature,
  leftBar,
  roomTemperature,
  waterLitres,
} from "../gas-params";

export const countCylindersToHire = define({
  name: "COUNT_CYLINDERS",
  category: "Air and helium",
  text: "Helium cylinders for an amount of gas, part-used ones first.",
  asks: ["how many cylinders", "part-used cylinders", "how many tanks to rent", "helium bottles"],
  params: [
    { name: "litres", kind: "volume", text: "Free gas needed, as HELIUM_LITRES gives it." },
    waterLitres,
    bar,
    leftBar,
    cylinderTemperature,
    roomTemperature,
    altitude,
  ],
  result: { kind: "value", measure: "count", text: "Cylinders, whole." },
  source: "Contents of CYLINDER_LITRES less what stays at the closing pressure",
  limits:
    "Of several cylinders the first ones are used up in order; the last row is what can be hired, as often as needed.",
  caution: cylinderCaution,
  examples: [
    {
      args: [10000, 50, 200],
      gives: 2,
      working: "one gives about 9.0 m3 less the 0.25 m3 that stays",
      source: "50 L at 200 bar absolute hold 9.00 m3 (Z by NISTIR 8474)",
    },
    {
      args: [10000, [50, 50, 50], [60, 100, 200]],
      gives: 3,
      working: "two part-used ones give about 2.6 and 4.5 m3, so one full one of 8.9 m3 is opened too",
      source: "gas law with Z by NISTIR 8474, by hand",
    },
  ],
  failures: [{ args: [10000, 50, 100, 150], gives: "#N/A", when: "more stays in than is in" }],
  compute: (litres, waters, pressures, left, kelvin, room, metres) =>
    countCylinders(litres, cylindersOf(waters, pressures), left, {
      temperature: kelvin,
      roomTemperature: room,
      altitude: metres,
    }),
});
