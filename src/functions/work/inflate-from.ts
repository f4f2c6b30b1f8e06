import { earliestFill } from "../../core/gas/float";
import { fromSi, toSi } from "../../core/units";
import { define } from "../define";
import { altitude, heliumBalloon, heliumCaution, temperature, treated } from "../gas-params";

export const inflateFromTime = define({
  name: "INFLATE_FROM",
  category: "Work and transport",
  text: "Earliest date and time to fill so that helium balloons still float when the event ends.",
  asks: ["when can we fill", "fill the day before", "will helium last until the end"],
  params: [
    { name: "event_start", kind: "datetime", text: "Start of the event." },
    { name: "event_end", kind: "datetime", text: "End of the event." },
    heliumBalloon,
    treated,
    temperature,
    altitude,
  ],
  result: { kind: "value", measure: "datetime", text: "Date and time as Excel counts days; format it so." },
  source: "FLOAT_HOURS counted back from the end of the event",
  caution: heliumCaution,
  examples: [
    {
      args: ["2027-06-19 18:00", "2027-06-19 23:00", 11],
      gives: 46557.291666667,
      within: 1e-6,
      working: "an 11 in balloon floats 16 h: 23:00 less 16 h is 7:00",
      source: "common practice, no source: 16 h at 11 in",
    },
  ],
  failures: [
    {
      args: ["2027-06-19 18:00", "2027-06-21 23:00", 11],
      gives: "#N/A",
      when: "the event outlasts the balloon",
      says: "floats",
    },
    {
      args: ["2027-06-19 18:00", "2027-06-19 08:00", 11],
      gives: "#VALUE!",
      when: "the event ends before it starts",
      says: "event_end",
    },
  ],
  compute: (start, end, size, isTreated, kelvin, metres) =>
    fromSi(earliestFill(toSi(start, "d"), toSi(end, "d"), size, isTreated, kelvin, metres), "d"),
});
