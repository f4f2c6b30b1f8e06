import { floatDuration } from "../../core/gas/float";
import { define } from "../define";
import { altitude, heliumBalloon, heliumCaution, temperature, treated } from "../gas-params";

export const floatHours = define({
  name: "FLOAT_HOURS",
  category: "Air and helium",
  text: "Hours until a helium balloon no longer floats.",
  asks: ["how long do they float", "float time", "will they last until midnight"],
  params: [heliumBalloon, treated, temperature, altitude],
  result: { kind: "value", measure: "h", text: "Hours." },
  source:
    "Helium diffusing through the rubber wall, one constant calibrated so that an 11 in balloon floats 16 h (common practice)",
  limits:
    "Fresh latex filled to its size with pure helium. Sun, drafts and old stock shorten it. Treated is five times as long, as known for 11 to 16 in: take the 19 days of a 36 in as an upper end and plan on two weeks.",
  caution: heliumCaution,
  examples: [
    {
      args: [11],
      gives: 16,
      within: 4,
      working: "the calibration point",
      source: "common practice, no source: 12 to 20 hours",
    },
    {
      args: [16],
      gives: 27,
      within: 3,
      working: "thicker wall, more gas for its surface",
      source: "common practice, no source: 24 to 30 hours",
    },
    {
      args: [24],
      gives: 48,
      within: 8,
      working: "as above",
      source: "common practice, no source: about two days",
    },
    {
      args: [36],
      gives: 96,
      within: 16,
      working: "as above",
      source: "common practice, no source: about four days",
    },
  ],
  failures: [{ args: [5], gives: "#N/A", when: "the balloon does not carry a ribbon", says: "ribbon" }],
  compute: (size, isTreated, kelvin, metres) => floatDuration(size, isTreated, kelvin, undefined, metres),
});
