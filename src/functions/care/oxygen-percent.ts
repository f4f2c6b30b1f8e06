import { cautionLine } from "../../core/care/cautions";
import { OXYGEN_LIMIT, oxygenShare } from "../../core/care/oxygen";
import { define } from "../define";

export const oxygenPercent = define({
  name: "OXYGEN_PERCENT",
  category: "Care",
  text: "Oxygen left in a closed room if all of the helium leaks; format the cell as a percent.",
  asks: ["is the room big enough for a cylinder", "helium leak in a small room", "oxygen level"],
  params: [
    {
      name: "room_m3",
      kind: "volume",
      unit: "m3",
      above: 0,
      max: 1000000,
      text: "Air in the room: length x width x height.",
    },
    { name: "helium_litres", kind: "volume", text: "Helium that could leak, as free gas." },
  ],
  result: { kind: "value", measure: "share", text: "Share of oxygen; format as a percent." },
  source:
    "The worse of displacement and perfect mixing, 20.95 % (V - v)/V (University of Nottingham safety calculator)",
  limits: `Below ${OXYGEN_LIMIT * 100} % air counts as oxygen-deficient in the US (29 CFR 1910.134). Helium gathers under the ceiling, where it is worse than this mean.`,
  caution: cautionLine("oxygen"),
  examples: [
    {
      args: [50, 10000],
      gives: 0.1676,
      within: 0.00001,
      working: "0.2095 x (50 - 10)/50",
      source: "University of Nottingham safety calculator formula",
    },
  ],
  failures: [
    { args: [0, 9000], gives: "#VALUE!", when: "the room has no air", says: "room_m3 must be above 0" },
  ],
  compute: oxygenShare,
});
