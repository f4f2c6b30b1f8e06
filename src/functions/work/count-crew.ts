import { crewCount } from "../../core/work/build";
import { USEFUL_TIME } from "../../core/practice";
import { define } from "../define";

export const countCrew = define({
  name: "COUNT_CREW",
  category: "Work and transport",
  text: "People needed to do the work in the time there is.",
  asks: [
    "how many helpers",
    "how many people do I need",
    "people needed for the work in the time",
    "do I need a second person",
  ],
  params: [
    { name: "hours", kind: "duration", max: 100000, text: "Person-hours of work." },
    { name: "window", kind: "duration", above: 0, text: "Hours between access and ready." },
    {
      name: "useful",
      kind: "share",
      above: 0,
      default: USEFUL_TIME.value,
      text: "Share of the time that is work.",
    },
  ],
  result: { kind: "value", measure: "count", text: "People, whole." },
  source: "Work divided by useful time, rounded up (useful share by common practice)",
  examples: [
    {
      args: [10, 4],
      gives: 3,
      working: "10 / (4 x 0.85) = 2.94",
      source: "arithmetic; 85% by common practice",
    },
  ],
  failures: [
    { args: [10, -1], gives: "#VALUE!", when: "the window is negative", says: "window must be above 0" },
  ],
  compute: crewCount,
});
