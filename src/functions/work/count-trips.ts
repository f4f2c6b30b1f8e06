import { tripCount } from "../../core/work/transport";
import { define } from "../define";

export const countTrips = define({
  name: "COUNT_TRIPS",
  category: "Work and transport",
  text: "Trips with a van of a given load space.",
  asks: ["how many trips", "how often must I drive"],
  params: [
    {
      name: "cubic_metres",
      kind: "volume",
      unit: "m3",
      max: 1000000,
      text: "Space needed, as TRANSPORT_CUBIC_METRES gives it.",
    },
    { name: "van", kind: "volume", unit: "m3", above: 0, max: 200, text: "Load space of the van." },
  ],
  result: { kind: "value", measure: "count", text: "Trips, whole." },
  source: "Space divided by load space, rounded up",
  examples: [{ args: [33.9, 11], gives: 4, working: "33.9 / 11 = 3.08", source: "arithmetic" }],
  failures: [
    { args: [33.9, 0], gives: "#VALUE!", when: "the van has no space", says: "van must be above 0" },
  ],
  compute: tripCount,
});
