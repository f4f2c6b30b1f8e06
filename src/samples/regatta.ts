import type { WorkbookDescription } from "../workbook/create";
import { inputSheet, planColumn, PLANS, planSheet } from "./event-sheets";
import { paperSheet, type PaperFact, type PaperSheet } from "./paper-sheets";
import { SAMPLE_PROPERTIES } from "./price-list";
import { REGATTA_PALETTES, REGATTA_PIECES } from "./regatta-pieces";
import { REGATTA_DELIVERY, REGATTA_GOODS, NAMES, REGATTA_PRICES, REGATTA_STOCK } from "./regatta-prices";
import { CHOSEN, REGATTA_PAST_JOBS, REGATTA_TERMS, REGATTA_VEHICLES, WORK } from "./regatta-terms";
import { serial, type SampleTable } from "./sample-table";
import { startSheet, type NamedValue } from "./start-sheet";

const TITLE = "Summer regatta evening";

const TABLES = [
  REGATTA_PIECES,
  REGATTA_PALETTES,
  REGATTA_PRICES,
  REGATTA_DELIVERY,
  REGATTA_STOCK,
  REGATTA_GOODS,
  WORK,
  REGATTA_TERMS,
  CHOSEN,
  REGATTA_VEHICLES,
  NAMES,
  REGATTA_PAST_JOBS,
] as const;

const text = (value: string): NamedValue["typed"] => ({ value, look: "input" });

const VALUES: readonly NamedValue[] = [
  { name: "EventTitle", label: "Event", typed: text(TITLE) },
  { name: "Client", label: "Client", typed: text("Riverside Rowing Club") },
  { name: "Venue", label: "Venue", typed: text("Boathouse, Old Quay 4") },
  { name: "OfferNumber", label: "Offer number", typed: text("2027-014") },
  { name: "OfferDate", label: "Offer of", typed: { value: serial("2027-03-01"), look: "inputDate" } },
  { name: "Currency", label: "Currency", typed: text("EUR") },
  {
    name: "Payment",
    label: "Terms of payment",
    typed: text("Deposit with the order, balance within 14 days after the event"),
  },
];

const termOf = (table: SampleTable, term: string): string =>
  `_xlfn.XLOOKUP("${term}",${table.name}[term],${table.name}[value])`;

/** A number of OPTION_PLAN for the option that is built. */
const ofOption = (column: string): string =>
  `_xlfn.XLOOKUP(${termOf(CHOSEN, "option")},${planColumn(PLANS.options, "option")},${planColumn(PLANS.options, column)})`;

const EVENT_FACTS: readonly PaperFact[] = [
  { label: "Event", formula: "EventTitle" },
  { label: "Venue", formula: "Venue" },
  { label: "Starts", formula: termOf(REGATTA_TERMS, "start"), look: "paperDateTime" },
];

const PAPERS: readonly PaperSheet[] = [
  {
    paper: "offer",
    name: "Offer",
    facts: [
      { label: "For", formula: "Client" },
      ...EVENT_FACTS,
      { label: "Offer number", formula: "OfferNumber" },
      { label: "Of", formula: "OfferDate", look: "paperDate" },
      { label: "All amounts in", formula: "Currency" },
      { label: "Terms of payment", formula: "Payment", lines: 3 },
    ],
    remarks: [
      "Please tell us about latex allergies, sprinklers, exits and house rules before we build.",
      "Balloons are for decoration. Uninflated or popped ones are not for children under eight: they can choke.",
    ],
    rows: 60,
  },
  { paper: "order", name: "Order", facts: EVENT_FACTS, rows: 80 },
  { paper: "packing", name: "Packing", facts: EVENT_FACTS, rows: 100 },
  { paper: "setup", name: "Setup", facts: EVENT_FACTS, rows: 250 },
  { paper: "returns", name: "Returns", facts: EVENT_FACTS, rows: 80 },
  { paper: "venue", name: "Venue", title: "For the venue", facts: EVENT_FACTS, rows: 80 },
  { paper: "terms", name: "Assumptions", facts: EVENT_FACTS, rows: 90 },
];

/** The whole regatta evening, sheet by sheet. */
export function regattaWorkbook(): WorkbookDescription {
  const start = startSheet(
    {
      title: TITLE,
      note: "A whole event from the look to the price. Type in the yellow cells, everything else follows.",
      steps: [
        "Pieces and Palettes: what will be built, and in which colours. All rows of one name are one piece.",
        "Prices, Stock, Goods: what balloons and everything else cost, and what is on the shelf.",
        "Terms and Work: times, pay, travel, margin, tax; your own minutes, your van, your past jobs.",
        "Read the verdict below. While it says not ready, the offer is an error and its reasons stand below.",
        "Offer, Order, Packing, Setup, Returns, Venue: print them, one sheet each.",
        "A new piece goes under the others in Pieces; it appears on every sheet without touching a formula.",
      ],
      values: VALUES,
      headlines: [
        { label: "Total to pay", formula: ofOption("total"), look: "moneyTotal" },
        { label: "Over the budget by", formula: ofOption("over"), look: "money" },
        { label: "Balloons", formula: ofOption("balloons"), look: "number" },
        { label: "Person-hours", formula: ofOption("hours"), look: "decimal" },
        { label: "Models", formula: "_xldudf_BLN_MODEL_VERSION()", look: "text" },
      ],
    },
    TABLES,
  );
  return {
    ...SAMPLE_PROPERTIES,
    title: TITLE,
    names: start.names,
    sheets: [
      start.sheet,
      inputSheet(
        "Pieces",
        "Lengths in metres, balloons in inches: printed on the bag and as inflated. Blank cells take the usual.",
        [REGATTA_PIECES],
      ),
      inputSheet(
        "Palettes",
        "pattern: balloons of each colour in one cluster. share: for everything else. inside: a balloon within.",
        [REGATTA_PALETTES],
      ),
      inputSheet("Prices", "One row for each bag on sale. Change a price and the offer follows.", [
        REGATTA_PRICES,
        REGATTA_DELIVERY,
        NAMES,
      ]),
      inputSheet("Stock", "What is on the shelf, and what one balloon of it is worth.", [REGATTA_STOCK]),
      inputSheet(
        "Goods",
        "What is no balloon, and what it goes by. What returns costs its price for each use.",
        [REGATTA_GOODS],
      ),
      inputSheet(
        "Terms",
        "Only what differs from the usual; the sheet Assumptions shows everything in force.",
        [REGATTA_TERMS, CHOSEN, WORK, REGATTA_VEHICLES],
      ),
      inputSheet(
        "Past jobs",
        "What earlier jobs took. Every plan uses what they teach where nothing is typed.",
        [REGATTA_PAST_JOBS],
      ),
      planSheet(
        PLANS.options,
        TABLES.filter((table) => table !== CHOSEN),
      ),
      planSheet(PLANS.costs, TABLES),
      planSheet(PLANS.parts, TABLES),
      planSheet(PLANS.goods, TABLES),
      planSheet(PLANS.clock, TABLES),
      planSheet(PLANS.stock, TABLES),
      planSheet(PLANS.learned, TABLES),
      ...PAPERS.map((paper) => paperSheet(paper, TABLES)),
    ],
  };
}
