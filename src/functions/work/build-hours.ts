import { RIGGING_HOURS } from "../../core/practice";
import { BUILD_STYLES, buildDuration } from "../../core/work/build";
import { define } from "../define";

export const buildHours = define({
  name: "BUILD_HOURS",
  category: "Work and transport",
  text: "Person-hours to inflate and build.",
  asks: ["how long does it take", "hours of work", "labour for balloons"],
  params: [
    { name: "count", kind: "count", text: "How many balloons." },
    { name: "style", kind: "choice", options: BUILD_STYLES, default: "clusters", text: "Kind of work." },
    {
      name: "pace",
      kind: "ratio",
      above: 0,
      max: 10,
      default: 1,
      text: "Your own pace against the usual rate; 2 is twice as fast.",
    },
    { name: "pieces", kind: "count", max: 10000, default: 0, text: "Pieces to rig." },
    {
      name: "rigging",
      kind: "duration",
      unit: "min",
      max: 1440,
      default: RIGGING_HOURS.value * 60,
      text: "Minutes to rig each piece.",
    },
  ],
  result: { kind: "value", measure: "h", text: "Person-hours." },
  source:
    "Balloons per person-hour by style: clusters 120, free-form 60, helium 50, ceiling 100, net 150, wall 80, strike 500 (common practice)",
  limits: "One person; COUNT_CREW shares it. Travel and set-up of the room are not in it.",
  examples: [
    {
      args: [240],
      gives: 2,
      within: 1e-9,
      working: "240 / 120 an hour",
      source: "common practice, no source",
    },
    {
      args: [120, "free-form", 1, 1],
      gives: 2.5,
      within: 1e-9,
      working: "120 / 60 an hour + 0.5 h of rigging",
      source: "common practice, no source",
    },
    {
      args: [240, "clusters", 1, 3, 20],
      gives: 3,
      within: 1e-9,
      working: "240 / 120 an hour + 3 pieces of 20 minutes",
      source: "arithmetic; rate by common practice",
    },
  ],
  failures: [
    {
      args: [100, "knitting"],
      gives: "#VALUE!",
      when: "the style is not known",
      says: "style must be one of",
    },
  ],
  compute: buildDuration,
});
