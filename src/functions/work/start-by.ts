import { startBy } from "../../core/work/build";
import { START_BUFFER } from "../../core/practice";
import { define } from "../define";

export const startByTime = define({
  name: "START_BY",
  category: "Work and transport",
  text: "Latest date and time to start so that the room is ready; format the cell as a date with time.",
  asks: ["when must we start", "call time for the crew", "latest start"],
  params: [
    { name: "ready", kind: "datetime", text: "Date and time the room must be ready." },
    { name: "hours", kind: "duration", max: 100000, text: "Person-hours of work." },
    { name: "crew", kind: "count", min: 1, max: 1000, default: 1, text: "People who share it." },
    { name: "buffer", kind: "share", default: START_BUFFER.value, text: "Time added for what goes wrong." },
  ],
  result: { kind: "value", measure: "datetime", text: "Date and time as Excel counts days." },
  source: "Work plus buffer, shared by the crew, counted back (buffer by common practice)",
  limits:
    "By the clock on the wall: over a night in which clocks change, start an hour earlier in spring; in autumn an hour is won.",
  examples: [
    {
      args: ["2027-06-19 18:00", 10, 2],
      gives: 46557.510416667,
      within: 1e-6,
      working: "10 h x 1.15 / 2 = 5 h 45 min before 18:00 is 12:15",
      source: "clock arithmetic; 15% by common practice",
    },
  ],
  failures: [
    { args: ["tomorrow", 10], gives: "#VALUE!", when: "ready is a word", says: "ready must be a date" },
  ],
  compute: startBy,
});
