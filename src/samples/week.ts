import type { WorkbookDescription } from "../workbook/create";
import { inputColumn, inputSheet, planColumn, PLANS, planSheet } from "./event-sheets";
import { paperSheet, type PaperFact, type PaperSheet } from "./paper-sheets";
import { SAMPLE_PROPERTIES } from "./price-list";
import { serial } from "./sample-table";
import { startSheet } from "./start-sheet";
import { CLIENTS, EVENTS, WEEK_PALETTES, WEEK_PIECES } from "./week-events";
import {
  WEEK_DELIVERY,
  WEEK_GOODS,
  WEEK_PAST_JOBS,
  WEEK_PRICES,
  WEEK_STOCK,
  WEEK_TERMS,
  WEEK_VEHICLES,
} from "./week-prices";

const TITLE = "A week with two events";
const EVENTS_SHEET = "Events";
/** The cell that says which event the papers are about. */
const SHOWN = "ShownEvent";

const TABLES = [
  EVENTS,
  WEEK_PIECES,
  WEEK_PALETTES,
  WEEK_PRICES,
  WEEK_DELIVERY,
  WEEK_STOCK,
  WEEK_GOODS,
  WEEK_TERMS,
  WEEK_VEHICLES,
  WEEK_PAST_JOBS,
] as const;

const ofShown = (table: typeof EVENTS, column: string): string =>
  `_xlfn.XLOOKUP(${SHOWN},${table.name}[event],${table.name}[${column}])`;

/** A number of OPTION_PLAN for the event that is shown. */
const ofShownOption = (column: string): string =>
  `_xlfn.XLOOKUP(${SHOWN},${planColumn(PLANS.options, "event")},${planColumn(PLANS.options, column)})`;

const EVENT_FACTS: readonly PaperFact[] = [
  { label: "Event", formula: SHOWN },
  { label: "Venue", formula: ofShown(CLIENTS, "venue") },
  { label: "Starts", formula: ofShown(EVENTS, "start"), look: "paperDateTime" },
];

const ofTheShown = { event: SHOWN, facts: EVENT_FACTS } as const;

const PAPERS: readonly PaperSheet[] = [
  {
    paper: "offer",
    name: "Offer",
    event: SHOWN,
    facts: [
      { label: "For", formula: ofShown(CLIENTS, "client") },
      ...EVENT_FACTS,
      { label: "Offer number", formula: ofShown(CLIENTS, "offer number") },
      { label: "Of", formula: "OfferDate", look: "paperDate" },
      { label: "All amounts in", formula: "Currency" },
      { label: "Terms of payment", formula: "Payment", lines: 3 },
    ],
    rows: 40,
  },
  {
    paper: "order",
    name: "Order",
    title: "Order for the whole week",
    facts: [{ label: "Events", formula: "COUNTA(Events[event])", look: "paperCount" }],
    rows: 80,
  },
  { paper: "packing", name: "Packing", ...ofTheShown, rows: 100 },
  { paper: "setup", name: "Setup", ...ofTheShown, rows: 200 },
  { paper: "returns", name: "Returns", ...ofTheShown, rows: 60 },
  { paper: "venue", name: "Venue", title: "For the venue", ...ofTheShown, rows: 80 },
];

/** A week in which one event's left-overs serve the next, and past jobs teach pace and breakage. */
export function weekWorkbook(): WorkbookDescription {
  const start = startSheet(
    {
      title: TITLE,
      note: "Two events, one order, one shelf. Type in the yellow cells, everything else follows.",
      steps: [
        "Events: when each is, and how far. Pieces: what is built, each row with its event.",
        "Stock: what is on the shelf. Prices and Goods: what the rest costs.",
        "Past jobs: what earlier jobs took. Learned shows what they teach, and every plan uses it.",
        "Choose below which event Offer, Packing, Setup, Returns and Venue are about; Order is for the whole week.",
        "Stock book: what Friday takes, what comes back in time for Sunday, what is left and what it is worth.",
      ],
      values: [
        {
          name: SHOWN,
          label: "Papers are about",
          typed: { value: "Summer party", look: "input" },
          from: inputColumn(EVENTS_SHEET, EVENTS, "event"),
        },
        { name: "OfferDate", label: "Offers of", typed: { value: serial("2027-04-12"), look: "inputDate" } },
        { name: "Currency", label: "Currency", typed: { value: "EUR", look: "input" } },
        {
          name: "Payment",
          label: "Terms of payment",
          typed: { value: "Deposit with the order, balance on the day", look: "input" },
        },
      ],
      headlines: [
        { label: "To pay for it", formula: ofShownOption("total"), look: "moneyTotal" },
        { label: "Balloons for it", formula: ofShownOption("balloons"), look: "number" },
        { label: "Person-hours for it", formula: ofShownOption("hours"), look: "decimal" },
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
      inputSheet(EVENTS_SHEET, "One row for each event, with its own times and its own way.", [
        EVENTS,
        CLIENTS,
      ]),
      inputSheet("Pieces", "Lengths in metres, balloons in inches. Every row names its event.", [
        WEEK_PIECES,
      ]),
      inputSheet("Palettes", "pattern: balloons of each colour in one cluster. share: for everything else.", [
        WEEK_PALETTES,
      ]),
      inputSheet("Prices", "One row for each bag on sale.", [WEEK_PRICES, WEEK_DELIVERY]),
      inputSheet("Stock", "What is on the shelf before the week, and what one balloon of it is worth.", [
        WEEK_STOCK,
      ]),
      inputSheet(
        "Goods",
        "What is no balloon, and what it goes by. What returns costs its price for each use.",
        [WEEK_GOODS],
      ),
      inputSheet("Terms", "What holds for both events where Events does not say otherwise.", [
        WEEK_TERMS,
        WEEK_VEHICLES,
      ]),
      inputSheet(
        "Past jobs",
        "What earlier jobs took. Every plan uses what they teach where nothing is typed.",
        [WEEK_PAST_JOBS],
      ),
      planSheet(PLANS.stock, TABLES),
      planSheet(PLANS.learned, TABLES),
      planSheet(PLANS.options, TABLES),
      planSheet(PLANS.costs, TABLES),
      planSheet(PLANS.clock, TABLES),
      planSheet(PLANS.goods, TABLES),
      ...PAPERS.map((paper) => paperSheet(paper, TABLES)),
    ],
  };
}
