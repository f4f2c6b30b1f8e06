import type { WorkbookDescription } from "../workbook/create";
import type { SheetDescription } from "../workbook/create-sheet";
import { SheetCells, type Look } from "./look";
import { SAMPLE_PROPERTIES } from "./price-list";
import {
  DELIVERY,
  EVENT,
  HARDWARE_PRICES,
  PALETTES,
  PIECE_HEADS,
  PIECES,
  PRICES,
  RECIPES,
  STOCK,
} from "./regatta-data";

/** A function of ours as the file stores it. */
const ours = (call: string): string => `_xldudf_BLN_${call}`;

const FIRST = 5;
const HEAD = FIRST - 1;

function heading(sheet: SheetCells, title: string, note: string): void {
  sheet.put(1, 1, title, "title").put(2, 1, note, "quiet");
}

const page = (orientation: "portrait" | "landscape"): SheetDescription["page"] => ({
  orientation,
  fit: { wide: 1, tall: 0 },
  paper: 9,
});

const lastRow = (count: number): number => FIRST + count - 1;

/** The named assumptions: name, what it is, value, look. */
const ASSUMPTIONS: readonly (readonly [string, string, string | number, Look])[] = [
  ["Breakage", "Balloons that pop or are faulty", 0.03, "inputShare"],
  ["Sure", "How sure to have enough good ones", 0.95, "inputShare"],
  ["Margin", "Margin, as a share of the price", 0.45, "inputShare"],
  ["Tax", "Tax on top", 0.2, "inputShare"],
  ["Deposit", "Deposit, share of the total", 0.5, "inputShare"],
  ["HourCost", "Cost of a person-hour", 18, "inputMoney"],
  ["KilometreCost", "Cost of a kilometre", 0.45, "inputMoney"],
  ["Kilometres", "Kilometres, there and back", 36, "input"],
  ["CylinderLitres", "Water volume of a cylinder, L", 50, "input"],
  ["CylinderBar", "Pressure of a full cylinder, bar", 200, "input"],
  ["CylinderHire", "Hire of a cylinder with its gas", 189, "inputMoney"],
  ["VanSpace", "Load space of the van, m3", 11, "input"],
  ["Gust", "Gust in the forecast, m/s", 6, "input"],
  ["RoomSpace", "Air in the hall, m3", 900, "input"],
];
const ASSUMED = 18;
const ASSUMED_COLUMN = 4;

function startSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(sheet, EVENT.name, "A whole event from the look to the price. Type in the yellow cells, everything else follows.");
  const steps = [
    "Price list: what balloons cost, from which supplier, with the date of the price.",
    "Palettes: colours by share, or by their number in one cluster.",
    "Pieces: what will be built, with finished sizes in metres and balloon sizes in inches.",
    "Needs and Buying: balloons by size and colour with spares, and the cheapest bags for them.",
    "Helium and air, Hardware, Crew, Care: gas and ribbon, poles and bases, hours and start, weights and cautions.",
    "Quote: the price for the client, on one page. What-if: what changes when a balloon size does.",
  ];
  sheet.put(4, 1, "How to use it", "heading");
  steps.forEach((step, index) => sheet.put(5 + index, 1, `${index + 1}. ${step}`));
  sheet
    .put(12, 1, "The event", "heading")
    .put(13, 1, "Access from", "label")
    .put(13, ASSUMED_COLUMN, EVENT.access, "input")
    .put(14, 1, "Starts", "label")
    .put(14, ASSUMED_COLUMN, EVENT.start, "input")
    .put(15, 1, "Ends", "label")
    .put(15, ASSUMED_COLUMN, EVENT.end, "input")
    .put(ASSUMED - 1, 1, "Assumptions", "heading");
  ASSUMPTIONS.forEach(([name, text, value, look], index) => {
    sheet
      .put(ASSUMED + index, 1, text, "label")
      .put(ASSUMED + index, ASSUMED_COLUMN, value, look)
      .put(ASSUMED + index, ASSUMED_COLUMN + 1, name, "quiet");
  });
  const results = ASSUMED + ASSUMPTIONS.length + 1;
  sheet
    .put(results, 1, "Results", "heading")
    .put(results + 1, 1, "Balloons to take", "label")
    .formula(results + 1, ASSUMED_COLUMN, "SUM(Needs!$E$5:$E$60)")
    .put(results + 2, 1, "Cost of balloons", "label")
    .formula(results + 2, ASSUMED_COLUMN, "Quote!$D$7", "money")
    .put(results + 3, 1, "Person-hours", "label")
    .formula(results + 3, ASSUMED_COLUMN, "Crew!$D$4", "decimal")
    .put(results + 4, 1, "Price to pay", "label")
    .formula(results + 4, ASSUMED_COLUMN, "Quote!$B$31", "moneyTotal")
    .put(results + 5, 1, "Version of the models", "label")
    .formula(results + 5, ASSUMED_COLUMN, ours("MODEL_VERSION()"), "text");
  return {
    name: "Start",
    cells: sheet.cells,
    columnWidths: { A: 34, B: 16, C: 16, D: 20, E: 18 },
    tabColor: "#d6774c",
    showGridLines: false,
    page: page("portrait"),
  };
}

function priceSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(sheet, "Price list", "One row for each bag on sale. Change a bag price and the quote follows.");
  const looks: readonly Look[] = ["input", "input", "input", "input", "inputMoney", "inputShare", "input"];
  sheet.rows(HEAD, 1, ["supplier", "printed in", "colour", "bag", "price", "good each", "price date"], PRICES, looks);
  sheet.rows(HEAD, 10, ["supplier", "charge", "minimum", "free from"], DELIVERY, ["input", "inputMoney", "inputMoney", "inputMoney"]);
  sheet.rows(HEAD + 6, 10, ["printed in", "colour", "count"], STOCK, ["input", "input", "input"]);
  sheet.put(3, 10, "Delivery", "heading").put(HEAD + 5, 10, "Stock on the shelf", "heading");
  return {
    name: "Price list",
    cells: sheet.cells,
    columnWidths: { A: 15, B: 11, C: 11, D: 8, E: 10, F: 11, G: 12, J: 15, K: 11, L: 11, M: 11 },
    frozen: { rows: HEAD, columns: 0 },
    tables: [
      { name: "Prices", range: `A${HEAD}:G${lastRow(PRICES.length)}` },
      { name: "Delivery", range: `J${HEAD}:M${lastRow(DELIVERY.length)}` },
      { name: "Stock", range: `J${HEAD + 6}:L${HEAD + 6 + STOCK.length}` },
    ],
    tabColor: "#e0b04c",
    page: page("landscape"),
  };
}

function paletteSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(sheet, "Palettes", "Clustered pieces take whole patterns (balloons of each colour in one cluster), others shares.");
  sheet.rows(HEAD, 1, ["palette", "colour", "share", "pattern"], PALETTES, ["input", "input", "inputShare", "input"]);
  return {
    name: "Palettes",
    cells: sheet.cells,
    columnWidths: { A: 15, B: 15, C: 10, D: 10 },
    frozen: { rows: HEAD, columns: 0 },
    tables: [{ name: "Palettes", range: `A${HEAD}:D${lastRow(PALETTES.length)}` }],
    tabColor: "#e0b04c",
    page: page("portrait"),
  };
}

function pieceSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(sheet, "Pieces", "Finished sizes in metres, balloons in inches: printed on the bag and as inflated. A mix is one row for each size.");
  sheet.rows(HEAD, 1, PIECE_HEADS, PIECES, PIECE_HEADS.map((head) => (head === "share" || head === "covered" ? "input" : "input")));
  const below = lastRow(PIECES.length) + 2;
  sheet.put(below, 1, "Per piece", "heading");
  sheet.spill(below + 1, 1, ours("PIECE_PLAN(Pieces[#All],Palettes[#All],Prices[#All],Breakage,Sure)"), 10, [
    "text",
    "number",
    "money",
    "decimal",
    "decimal",
    "decimal",
    "text",
  ]);
  return {
    name: "Pieces",
    cells: sheet.cells,
    columnWidths: { A: 22, B: 11, C: 11, D: 10, E: 10, F: 10, G: 11, H: 11, I: 11, J: 10, K: 9, L: 10, M: 9 },
    frozen: { rows: HEAD, columns: 1 },
    tables: [{ name: "Pieces", range: `A${HEAD}:M${lastRow(PIECES.length)}` }],
    tabColor: "#e0b04c",
    page: page("landscape"),
  };
}

function needsSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(sheet, "Needs", "Every balloon of the event by size and colour, pooled over all pieces, with spares.");
  sheet.spill(HEAD, 1, ours("NEEDS_PLAN(Pieces[#All],Palettes[#All],Breakage,Sure)"), 24, [
    "number",
    "number",
    "text",
    "number",
    "number",
    "text",
  ]);
  return {
    name: "Needs",
    cells: sheet.cells,
    columnWidths: { A: 12, B: 12, C: 14, D: 10, E: 13, F: 40 },
    frozen: { rows: HEAD, columns: 0 },
    tabColor: "#2f5d62",
    page: page("portrait"),
  };
}
