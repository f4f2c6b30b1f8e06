import { moment, money, sampleTable, share } from "./sample-table";
import { TERM_HEADINGS } from "./shared-headings";

/** Every assumption that is not the trade's usual one. */
export const REGATTA_TERMS = sampleTable({
  name: "Terms",
  sort: "terms",
  title: "Terms",
  spare: 8,
  columns: TERM_HEADINGS,
  rows: [
    { term: "access", value: moment("2027-06-19 09:00") },
    { term: "ready", value: moment("2027-06-19 17:00") },
    { term: "start", value: moment("2027-06-19 18:00") },
    { term: "end", value: moment("2027-06-19 23:30") },
    { term: "clear by", value: moment("2027-06-20 02:00") },
    { term: "budget", value: money(2000) },
    { term: "pay per hour", value: money(18) },
    { term: "crew", value: 3 },
    { term: "travel min", value: 25 },
    { term: "distance km", value: 18 },
    { term: "per km", value: money(0.45) },
    { term: "gust m/s", value: 6 },
    { term: "room m3", value: 900 },
    { term: "margin", value: share(0.45) },
    { term: "tax", value: share(0.2) },
    { term: "deposit", value: share(0.5) },
  ],
});

/** The option that is built. It stands apart from the other terms, so that OPTION_PLAN can do without it and show all. */
export const CHOSEN = sampleTable({
  name: "Chosen",
  sort: "terms",
  title: "Option that is built",
  spare: 0,
  columns: TERM_HEADINGS,
  rows: [{ term: "option", value: "B" }],
});

/** Own minutes where they differ from the usual ones. */
export const WORK = sampleTable({
  name: "Work",
  sort: "work",
  title: "Work",
  spare: 8,
  columns: { task: "input", "minutes per balloon": "input", "minutes per piece": "input", where: "input" },
  rows: [
    { task: "Bar garland", "minutes per piece": 25 },
    { task: "event", "minutes per piece": 60 },
  ],
});

export const REGATTA_VEHICLES = sampleTable({
  name: "Vehicles",
  sort: "vehicles",
  title: "Vehicles",
  spare: 3,
  columns: {
    vehicle: "input",
    m3: "input",
    "length m": "input",
    "width m": "input",
    "height m": "input",
    "door width m": "input",
    "door height m": "input",
  },
  rows: [
    {
      vehicle: "Van",
      m3: 11,
      "length m": 3.2,
      "width m": 1.8,
      "height m": 1.9,
      "door width m": 1.55,
      "door height m": 1.8,
    },
  ],
});

/** Earlier jobs: what they took teaches pace and breakage. */
export const REGATTA_PAST_JOBS = sampleTable({
  name: "PastJobs",
  sort: "past_jobs",
  title: "Past jobs",
  spare: 12,
  columns: {
    job: "input",
    date: "inputDate",
    style: "input",
    where: "input",
    balloons: "input",
    hours: "input",
    taken: "input",
    popped: "input",
  },
  rows: [
    { job: "Spring fair", style: "clusters", balloons: 240, hours: 2.4 },
    { job: "Spring fair", where: "indoors", taken: 250, popped: 6 },
    { job: "School hall", style: "clusters", balloons: 320, hours: 2.9 },
    { job: "School hall", where: "indoors", taken: 335, popped: 9 },
    { job: "Harbour day", style: "free-form", balloons: 260, hours: 4.1 },
    { job: "Harbour day", where: "outdoors", taken: 300, popped: 24 },
  ],
});
