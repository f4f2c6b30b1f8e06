import { cautionLine } from "../../core/care/cautions";
import { fillDiameter } from "../../core/gas/inflate";
import { define } from "../define";

export const inflateInches = define({
  name: "INFLATE_INCHES",
  category: "Air and helium",
  text: "Size to inflate to now, so that the balloon has the wanted size at the venue.",
  asks: [
    "inflate less for heat",
    "balloons in the sun",
    "fill in the cold for a warm hall",
    "mountain venue",
  ],
  params: [
    { name: "wanted", kind: "balloon", text: "Size wanted at the venue." },
    { name: "fill_c", kind: "temperature", default: 20, text: "Temperature where you fill." },
    { name: "site_c", kind: "temperature", default: 20, text: "Temperature at the venue." },
    { name: "fill_altitude", kind: "altitude", default: 0, text: "Height above sea level where you fill." },
    { name: "site_altitude", kind: "altitude", default: 0, text: "Height above sea level of the venue." },
  ],
  result: { kind: "value", measure: "in", text: "Size to inflate to, inches." },
  source: "Gas law at both temperatures and at both pressures of the International Standard Atmosphere",
  limits: "Sun on dark balloons heats the gas well above the air; test one.",
  caution: cautionLine("heat"),
  examples: [
    {
      args: [30, 15, 35],
      gives: 29.336,
      within: 0.01,
      working: "volume grows by 308.15/288.15 = 1.0694, so the size by its cube root 1.0226; 30/1.0226",
      source: "Charles's law: volume ratio 1.0694 from 15 to 35 C; a 30 in balloon is a ball",
    },
  ],
  failures: [
    {
      args: [1, 0.1, 40, 0, 5000],
      gives: "#N/A",
      when: "the balloon would be smaller than one inch",
      says: "",
    },
    {
      args: [11, 200],
      gives: "#VALUE!",
      when: "the temperature is no room's",
      says: "fill_c must be from -40 to 60 C",
    },
  ],
  compute: fillDiameter,
});
