import { jobPlan } from "../../core/event/job-plan";
import { workPlan } from "../../core/event/work-plan";
import { defineEvent } from "./define-event";

export const workPlanRows = defineEvent({
  name: "WORK_PLAN",
  category: "The whole event",
  text: "The clock of each event back from ready: shop, loading, driving, building, rigging, strike, and how many people it takes.",
  asks: [
    "when do we have to start",
    "when do we leave",
    "how many people for the setup",
    "timetable of the day",
    "working back from the event",
  ],
  needs: ["pieces"],
  result: {
    kind: "table",
    text: "One row for each stage of each event, then the people that the time on site asks for.",
    columns: [
      { name: "event", measure: "text", text: "The event." },
      { name: "stage", measure: "text", text: "What is done." },
      { name: "where", measure: "text", text: "Shop, road or site." },
      { name: "person-hours", measure: "number", text: "Work of one person; their sum is the whole job's." },
      { name: "people", measure: "count", text: "Who share it." },
      {
        name: "start",
        measure: "datetime",
        text: "Date and time; a time in words where the event has no date, empty without ready.",
      },
      { name: "end", measure: "datetime", text: "The same for its end." },
      { name: "status", measure: "text", text: "What cannot go as planned." },
    ],
  },
  source: "Person-hours x (1 + buffer) / crew, driving without buffer; minutes and buffer by common practice",
  limits: "Over a night in which clocks change the hours before it are one hour off.",
  examples: [
    {
      args: [
        [
          ["name", "kind", "printed", "balloons", "colour"],
          ["Arch", "count", 11, 20, "Gold"],
        ],
        [
          ["term", "value"],
          ["crew", 1],
          ["travel", 30],
          ["ready", "14:30"],
        ],
      ],
      gives: [
        [null, "shop", "shop", 0, 1, "13:00", "13:00", "ok"],
        [null, "loading", "shop", 0.3333, 1, "13:00", "13:23", "ok"],
        [null, "driving", "road", 1, 1, "13:23", "13:53", "ok"],
        [null, "unloading", "site", 0.3333, 1, "13:53", "14:16", "ok"],
        [null, "site building", "site", 0.1667, 1, "14:16", "14:28", "ok"],
        [null, "site rigging", "site", 0.0333, 1, "14:28", "14:30", "ok"],
        [null, "ready", "site", 0, 0, "14:30", "14:30", "ok"],
        [null, "strike", "site", 0.04, 1, "", "", "ok"],
        [null, "loading back", "site", 0.3333, 1, "", "", "ok"],
        [null, "driving back", "road", 1, 1, "", "", "ok"],
        [null, "unloading back", "shop", 0.3333, 1, "", "", "ok"],
        [null, "people needed", "site", "", 1, "", "", null],
      ],
      within: 0.0001,
      working:
        "2 min of rigging, 20 x 0.5 min of building and 20 min of unloading, each x 1.15; 30 min of road; 20 min x 1.15 of loading",
      source: "arithmetic; minutes and buffer by common practice, no source",
    },
  ],
  failures: [],
  compute: (job) => workPlan(jobPlan(job)),
});
