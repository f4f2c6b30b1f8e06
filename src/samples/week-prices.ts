import { money, sampleTable, share } from "./sample-table";
import { DELIVERY_HEADINGS, GOODS_HEADINGS, TERM_HEADINGS } from "./shared-headings";

const TOWN = { supplier: "Town shop" } as const;

/** What balloons cost, one row for each bag on sale. */
export const WEEK_PRICES = sampleTable({
  name: "Prices",
  sort: "price_list",
  title: "Price list",
  spare: 10,
  columns: { supplier: "input", "printed in": "input", colour: "input", bag: "input", price: "inputMoney" },
  rows: [
    { ...TOWN, "printed in": 11, colour: "Navy", bag: 50, price: 10 },
    { ...TOWN, "printed in": 11, colour: "White", bag: 50, price: 9 },
    { ...TOWN, "printed in": 11, colour: "Sky", bag: 50, price: 10 },
    { ...TOWN, "printed in": 5, colour: "Navy", bag: 100, price: 7.5 },
    { ...TOWN, "printed in": 5, colour: "White", bag: 100, price: 7.2 },
  ],
});

export const WEEK_DELIVERY = sampleTable({
  name: "Delivery",
  sort: "delivery",
  title: "Delivery",
  spare: 3,
  columns: DELIVERY_HEADINGS,
  rows: [{ ...TOWN, charge: "none" }],
});

/** What is on the shelf before the week. */
export const WEEK_STOCK = sampleTable({
  name: "Stock",
  sort: "stock",
  title: "On the shelf",
  spare: 10,
  columns: { "printed in": "input", colour: "input", count: "input", "value each": "inputMoney" },
  rows: [
    { "printed in": 11, colour: "Navy", count: 47, "value each": 0.12 },
    { "printed in": 11, colour: "White", count: 60, "value each": 0.15 },
  ],
});

export const WEEK_GOODS = sampleTable({
  name: "Goods",
  sort: "goods",
  title: "Goods",
  spare: 8,
  columns: GOODS_HEADINGS,
  rows: [
    {
      item: "base with pole",
      per: "piece",
      for: "column",
      price: 1.5,
      returns: "yes",
      owned: 4,
      "m3 each": 0.04,
    },
    { item: "wall panel", per: "m2", for: "wall", price: 1.2, returns: "yes", owned: 6, "m3 each": 0.03 },
    {
      item: "frame section",
      per: "metre",
      for: "arch",
      price: 0.8,
      returns: "yes",
      owned: 8,
      "m3 each": 0.01,
    },
    {
      item: "line",
      per: "metre",
      for: "garland",
      amount: 1.2,
      unit: "m",
      pack: 100,
      price: 2.9,
      "m3 each": "none",
    },
    { item: "bouquet weight", per: "piece", for: "bouquet", pack: 10, price: 8, "m3 each": 0.005, ...TOWN },
    { item: "ribbon", per: "ribbon metre", unit: "m", pack: 250, price: 3.6, "m3 each": "none", ...TOWN },
    {
      item: "helium cylinder",
      per: "helium litre",
      unit: "L",
      pack: 1800,
      price: 62,
      returns: "yes",
      supplier: "Gas depot",
      "m3 each": 0.08,
    },
  ],
});

export const WEEK_TERMS = sampleTable({
  name: "Terms",
  sort: "terms",
  title: "Terms",
  spare: 8,
  columns: TERM_HEADINGS,
  rows: [
    { term: "pay per hour", value: money(19) },
    { term: "crew", value: 2 },
    { term: "per km", value: money(0.45) },
    { term: "room m3", value: 500 },
    { term: "margin", value: share(0.4) },
    { term: "tax", value: share(0.2) },
    { term: "deposit", value: share(0.4) },
  ],
});

export const WEEK_VEHICLES = sampleTable({
  name: "Vehicles",
  sort: "vehicles",
  title: "Vehicles",
  spare: 3,
  columns: {
    vehicle: "input",
    m3: "input",
    "length m": "input",
    "door width m": "input",
    "door height m": "input",
  },
  rows: [{ vehicle: "Van", m3: 8, "length m": 2.6, "door width m": 1.5, "door height m": 1.7 }],
});

/** What five earlier jobs took: pace by style, breakage by place. */
export const WEEK_PAST_JOBS = sampleTable({
  name: "PastJobs",
  sort: "past_jobs",
  title: "Past jobs",
  spare: 14,
  columns: {
    job: "input",
    style: "input",
    where: "input",
    balloons: "input",
    hours: "input",
    taken: "input",
    popped: "input",
  },
  rows: [
    { job: "Winter ball", style: "clusters", balloons: 410, hours: 4.6 },
    { job: "Winter ball", where: "indoors", taken: 425, popped: 16 },
    { job: "Bakery opening", style: "clusters", balloons: 180, hours: 2.3 },
    { job: "Bakery opening", style: "helium", balloons: 40, hours: 0.7 },
    { job: "Bakery opening", where: "indoors", taken: 230, popped: 11 },
    { job: "Choir concert", style: "clusters", balloons: 260, hours: 2.7 },
    { job: "Choir concert", style: "wall", balloons: 240, hours: 3.4 },
    { job: "Choir concert", where: "indoors", taken: 520, popped: 19 },
    { job: "School fair", style: "helium", balloons: 120, hours: 2.6 },
    { job: "School fair", where: "outdoors", taken: 140, popped: 17 },
  ],
});
