import { moment, sampleTable } from "./sample-table";

const FRIDAY = { event: "Summer party" } as const;
const SUNDAY = { event: "Naming day" } as const;

/** When and where, one row for each event; its cells win over the terms. */
export const EVENTS = sampleTable({
  name: "Events",
  sort: "events",
  title: "Events",
  spare: 4,
  columns: {
    event: "input",
    access: "inputDateTime",
    ready: "inputDateTime",
    start: "inputDateTime",
    end: "inputDateTime",
    "clear by": "inputDateTime",
    "travel min": "input",
    "distance km": "input",
  },
  rows: [
    {
      ...FRIDAY,
      access: moment("2027-06-18 10:00"),
      ready: moment("2027-06-18 17:00"),
      start: moment("2027-06-18 18:00"),
      end: moment("2027-06-18 23:00"),
      "clear by": moment("2027-06-19 01:00"),
      "travel min": 20,
      "distance km": 12,
    },
    {
      ...SUNDAY,
      access: moment("2027-06-20 09:00"),
      ready: moment("2027-06-20 13:00"),
      start: moment("2027-06-20 14:00"),
      end: moment("2027-06-20 18:00"),
      "clear by": moment("2027-06-20 20:00"),
      "travel min": 35,
      "distance km": 28,
    },
  ],
});

/** Who the offers go to; no function reads it. */
export const CLIENTS = sampleTable({
  name: "Clients",
  title: "Clients",
  spare: 4,
  columns: { event: "input", client: "input", venue: "input", "offer number": "input" },
  rows: [
    { ...FRIDAY, client: "Mill Lane Workshop", venue: "Old Mill, great hall", "offer number": "2027-015" },
    { ...SUNDAY, client: "The Hill family", venue: "Orchard House, garden room", "offer number": "2027-016" },
  ],
});

/** What is built for both events. */
export const WEEK_PIECES = sampleTable({
  name: "Pieces",
  sort: "pieces",
  title: "Pieces",
  spare: 14,
  columns: {
    event: "input",
    name: "input",
    kind: "input",
    quantity: "input",
    "width m": "input",
    "height m": "input",
    "length m": "input",
    "printed in": "input",
    "inflated in": "input",
    palette: "input",
    colour: "input",
    balloons: "input",
    gas: "input",
    built: "input",
    "ribbon m": "input",
  },
  rows: [
    {
      ...FRIDAY,
      name: "Entrance columns",
      kind: "column",
      quantity: 2,
      "height m": 2.2,
      "printed in": 11,
      "inflated in": 9,
      palette: "Blue",
    },
    {
      ...FRIDAY,
      name: "Long table bunches",
      kind: "bouquet",
      quantity: 8,
      "printed in": 11,
      palette: "Blue loose",
      balloons: 5,
      "ribbon m": 1.4,
    },
    {
      ...FRIDAY,
      name: "Back wall",
      kind: "wall",
      quantity: 1,
      "width m": 2.4,
      "height m": 2,
      "printed in": 11,
      "inflated in": 9,
      colour: "White",
    },
    {
      ...SUNDAY,
      name: "Garden arch",
      kind: "arch",
      quantity: 1,
      "width m": 2.4,
      "height m": 2.3,
      "printed in": 11,
      "inflated in": 9,
      palette: "Blue",
    },
    {
      ...SUNDAY,
      name: "Cake table garland",
      kind: "garland",
      quantity: 1,
      "length m": 2,
      "printed in": 5,
      "inflated in": 4.5,
      palette: "Blue",
      built: "shop",
    },
    {
      ...SUNDAY,
      name: "Chair bunches",
      kind: "bouquet",
      quantity: 6,
      "printed in": 11,
      palette: "Blue loose",
      balloons: 3,
      "ribbon m": 1.2,
    },
  ],
});

export const WEEK_PALETTES = sampleTable({
  name: "Palettes",
  sort: "palettes",
  title: "Palettes",
  spare: 8,
  columns: { palette: "input", colour: "input", share: "inputShare", pattern: "input" },
  rows: [
    { palette: "Blue", colour: "Navy", pattern: 2 },
    { palette: "Blue", colour: "White", pattern: 2 },
    { palette: "Blue loose", colour: "Navy", share: 0.4 },
    { palette: "Blue loose", colour: "White", share: 0.4 },
    { palette: "Blue loose", colour: "Sky", share: 0.2 },
  ],
});
