import { readDateTime } from "../functions/read-text";
import type { WorkbookDescription } from "../workbook/create";
import type { PageSetup, SheetDescription } from "../workbook/create-sheet";
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

/** A date and time as Excel counts days. */
function serial(text: string): number {
  const reading = readDateTime(text);
  if (reading.kind !== "number") throw new Error(`"${text}" is no date`);
  return reading.value;
}

const page = (orientation: "portrait" | "landscape"): PageSetup => ({
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
  heading(
    sheet,
    EVENT.name,
    "A whole event from the look to the price. Type in the yellow cells, everything else follows.",
  );
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
    .put(13, ASSUMED_COLUMN, serial(EVENT.access), "inputDateTime")
    .put(14, 1, "Starts", "label")
    .put(14, ASSUMED_COLUMN, serial(EVENT.start), "inputDateTime")
    .put(15, 1, "Ends", "label")
    .put(15, ASSUMED_COLUMN, serial(EVENT.end), "inputDateTime")
    .put(ASSUMED - 1, 1, "Assumptions", "heading");
  ASSUMPTIONS.forEach(([name, text, value, look], index) => {
    sheet
      .put(ASSUMED + index, 1, text, "label")
      .put(ASSUMED + index, ASSUMED_COLUMN, value, look)
      .put(ASSUMED + index, ASSUMED_COLUMN + 2, name, "quiet");
  });
  const results = ASSUMED + ASSUMPTIONS.length + 1;
  sheet
    .put(results, 1, "Results", "heading")
    .put(results + 1, 1, "Balloons to take", "label")
    .formula(results + 1, ASSUMED_COLUMN, "SUM(Needs!$E$5:$E$60)")
    .put(results + 2, 1, "Cost of balloons", "label")
    .formula(results + 2, ASSUMED_COLUMN, "Costing!$E$5", "money")
    .put(results + 3, 1, "Person-hours", "label")
    .formula(results + 3, ASSUMED_COLUMN, "Crew!$B$5", "decimal")
    .put(results + 4, 1, "Price to pay", "label")
    .formula(results + 4, ASSUMED_COLUMN, "Costing!$B$23", "moneyTotal")
    .put(results + 5, 1, "Version of the models", "label")
    .formula(results + 5, ASSUMED_COLUMN, ours("MODEL_VERSION()"), "text");
  return {
    name: "Start",
    cells: sheet.cells,
    columnWidths: { A: 34, B: 10, C: 6, D: 20, E: 2, F: 18 },
    tabColor: "#d6774c",
    showGridLines: false,
    page: page("portrait"),
  };
}

function priceSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(sheet, "Price list", "One row for each bag on sale. Change a bag price and the quote follows.");
  const looks: readonly Look[] = [
    "input",
    "input",
    "input",
    "input",
    "inputMoney",
    "inputShare",
    "inputDate",
  ];
  sheet.rows(
    HEAD,
    1,
    ["supplier", "printed in", "colour", "bag", "price", "good each", "price date"],
    PRICES.map((row) => [...row.slice(0, 6), serial(row[6])]),
    looks,
  );
  sheet.rows(HEAD, 10, ["supplier", "charge", "minimum", "free from"], DELIVERY, [
    "input",
    "inputMoney",
    "inputMoney",
    "inputMoney",
  ]);
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
  heading(
    sheet,
    "Palettes",
    "Clustered pieces take whole patterns (balloons of each colour in one cluster), others shares.",
  );
  sheet.rows(HEAD, 1, ["palette", "colour", "share", "pattern"], PALETTES, [
    "input",
    "input",
    "inputShare",
    "input",
  ]);
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
  heading(
    sheet,
    "Pieces",
    "Finished sizes in metres, balloons in inches: printed on the bag and as inflated. A mix is one row for each size.",
  );
  sheet.rows(
    HEAD,
    1,
    PIECE_HEADS,
    PIECES,
    PIECE_HEADS.map(() => "input" as const),
  );
  const below = lastRow(PIECES.length) + 2;
  sheet.put(below, 1, "Per piece", "heading");
  sheet.spill(
    below + 1,
    1,
    ours("PIECE_PLAN(Pieces[#All],Palettes[#All],Prices[#All],Breakage,Sure,Stock[#All],Delivery[#All])"),
    10,
    ["text", "number", "money", "decimal", "decimal", "decimal", "text"],
  );
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
  heading(
    sheet,
    "Needs",
    "Every balloon of the event by size and colour, pooled over all pieces, with spares.",
  );
  sheet.spill(HEAD, 1, ours("NEEDS_PLAN(Pieces[#All],Palettes[#All],Breakage,Sure)"), 24, [
    "size",
    "size",
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

const NEEDS_RANGE = "Needs!$A$4:$F$60";
const BUY_ARGUMENTS = `${NEEDS_RANGE},Prices[#All],Stock[#All],Delivery[#All]`;

function buyingSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(
    sheet,
    "Buying",
    "The cheapest bags for the whole event: stock first, delivery charges and least orders included.",
  );
  sheet.spill(HEAD, 1, ours(`BUY_PLAN(${BUY_ARGUMENTS})`), 30, [
    "size",
    "text",
    "number",
    "number",
    "text",
    "number",
    "money",
    "number",
    "money",
    "number",
    "text",
  ]);
  return {
    name: "Buying",
    cells: sheet.cells,
    columnWidths: { A: 11, B: 13, C: 9, D: 11, E: 15, F: 8, G: 10, H: 8, I: 10, J: 9, K: 44 },
    frozen: { rows: HEAD, columns: 0 },
    tabColor: "#2f5d62",
    page: page("landscape"),
  };
}

/** Lines of label, formula or value, look, and a remark. */
type Line = readonly [string, string | number, Look, string?];

function lines(sheet: SheetCells, first: number, rows: readonly Line[]): void {
  rows.forEach(([label, content, look, remark], index) => {
    const row = first + index;
    sheet.put(row, 1, label, "label");
    if (typeof content === "string" && content.startsWith("=")) sheet.formula(row, 2, content.slice(1), look);
    else sheet.put(row, 2, content, look);
    if (remark !== undefined) sheet.put(row, 4, remark, "quiet");
  });
}

const PIECE_PLAN_FIRST = lastRow(PIECES.length) + 4;
const pieceColumn = (letter: string): string =>
  `Pieces!$${letter}$${PIECE_PLAN_FIRST}:$${letter}$${PIECE_PLAN_FIRST + 30}`;

function gasSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(sheet, "Helium and air", "Never breathe helium: it can kill within seconds. Fill where air moves.");
  lines(sheet, 4, [
    ["Air to pump, L", `=SUM(${pieceColumn("E")})`, "number", "all air-filled pieces"],
    ["Helium to order, L", `=SUM(${pieceColumn("F")})`, "number", "neck, overfill and purge included"],
    [
      "Cylinders to hire",
      `=${ours("COUNT_CYLINDERS(B5,CylinderLitres,CylinderBar)")}`,
      "number",
      "what stays in the cylinder is left out",
    ],
    [
      "11 in balloons from one cylinder",
      `=${ours("COUNT_FROM_CYLINDER(CylinderLitres,CylinderBar,11)")}`,
      "number",
    ],
    ["They float, hours", `=${ours("FLOAT_HOURS(11)")}`, "decimal"],
    [
      "Fill not before",
      `=${ours(`INFLATE_FROM(Start!$D$14,Start!$D$15,11)`)}`,
      "dateTime",
      "so that they still float when the evening ends",
    ],
    [
      "Ribbon for half of the ceiling, m",
      `=${ours(`RIBBON_METRES(SUMIF(${pieceColumn("A")},"Helium ceiling",${pieceColumn("B")}),1.2,0.5)`)}`,
      "decimal",
    ],
    [
      "Cover of the ball trees, balloons",
      `=${ours("COUNT_COVER(12,10,10)")}`,
      "number",
      "40 was chosen: a full look is 40 to 50 on a ball of twelve",
    ],
    ["Size of a covered ball, m", `=${ours("COVER_METRES(12,10,10)")}`, "decimal"],
    [
      "Inflate markers to, in",
      `=${ours(`INFLATE_INCHES(13,20,28)`)}`,
      "decimal",
      "filled indoors at 20 C for a terrace at 28 C",
    ],
    [
      "Oxygen if one cylinder leaks into the hall",
      `=${ours("OXYGEN_PERCENT(RoomSpace,B15)")}`,
      "share",
      "an estimate; below 19.5% never enter",
    ],
    ["Gas in one full cylinder, L", `=${ours("CYLINDER_LITRES(CylinderLitres,CylinderBar)")}`, "number"],
  ]);
  return {
    name: "Helium and air",
    cells: sheet.cells,
    columnWidths: { A: 40, B: 18, C: 2, D: 60 },
    tabColor: "#2f5d62",
    page: page("landscape"),
  };
}

function hardwareSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(sheet, "Hardware", "Poles, bases, line and fixings for all pieces, rounded up to what is sold.");
  sheet.spill(HEAD, 1, ours("HARDWARE_PLAN(Pieces[#All],Recipes[#All])"), 16, [
    "text",
    "text",
    "decimal",
    "number",
    "number",
    "decimal",
    "text",
  ]);
  const cost = HEAD + 18;
  const below = cost + 4;
  sheet
    .put(cost, 1, "Cost of hardware", "label")
    .formula(
      cost,
      5,
      `SUMPRODUCT(SUMIF(HardwarePrices[item],A5:A19,HardwarePrices[price]),E5:E19)`,
      "moneyTotal",
    )
    .put(below - 1, 1, "Recipes: what one piece of a kind takes", "heading")
    .put(below - 1, 9, "Prices of a pack", "heading")
    .rows(below, 1, ["item", "kind", "unit", "fixed", "per metre", "per cluster", "pack"], RECIPES, [])
    .rows(below, 9, ["item", "price"], HARDWARE_PRICES, ["input", "inputMoney"]);
  return {
    name: "Hardware",
    cells: sheet.cells,
    columnWidths: { A: 24, B: 10, C: 10, D: 10, E: 11, F: 11, G: 30, H: 2, I: 24, J: 9 },
    frozen: { rows: HEAD, columns: 0 },
    tables: [
      { name: "Recipes", range: `A${below}:G${below + RECIPES.length}` },
      { name: "HardwarePrices", range: `I${below}:J${below + HARDWARE_PRICES.length}` },
    ],
    tabColor: "#2f5d62",
    page: page("landscape"),
  };
}

function crewSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(sheet, "Crew", "Rates are common practice; type your own pace where you know it.");
  lines(sheet, 4, [
    ["Balloons to build", `=SUM(${pieceColumn("B")})`, "number"],
    ["Person-hours to build", `=SUM(${pieceColumn("D")})`, "decimal", "by kind of work, rigging included"],
    ["Person-hours to take down", `=${ours('BUILD_HOURS(B4,"strike")')}`, "decimal"],
    ["Hours between access and start", "=(B10-B9)*24", "decimal"],
    ["People needed", `=${ours("COUNT_CREW(B5,B7)")}`, "number"],
    ["Access from", "=Start!$D$13", "dateTime"],
    ["Event starts", "=Start!$D$14", "dateTime"],
    [
      "Start building by",
      `=${ours("START_BY(Start!$D$14,B5,B8)")}`,
      "dateTime",
      "with 15% for what goes wrong",
    ],
    ["Van space for assembled pieces, m3", `=${ours("TRANSPORT_CUBIC_METRES(B4,9)")}`, "decimal"],
    ["Trips", `=${ours("COUNT_TRIPS(B12,VanSpace)")}`, "number"],
  ]);
  return {
    name: "Crew",
    cells: sheet.cells,
    columnWidths: { A: 38, B: 18, C: 2, D: 50 },
    tabColor: "#2f5d62",
    page: page("portrait"),
  };
}

function careSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(
    sheet,
    "Care",
    "Estimates and plain cautions. Local codes, the venue's rules and licensed practice come first.",
  );
  lines(sheet, 4, [
    ["Push on a door column in the gust, N", `=${ours("WIND_NEWTONS(0.49,2.1,Gust)")}`, "decimal"],
    [
      "Ballast for one door column outdoors, kg",
      `=${ours("ANCHOR_KILOGRAMS(0.49,2.1,0.6,Gust)")}`,
      "decimal",
    ],
    [
      "Weight for a bouquet of three 16 in, g",
      `=${ours("TETHER_GRAMS(3,16,1.5,Gust)")}`,
      "number",
      "helium, outdoors in the gust",
    ],
  ]);
  sheet.put(8, 1, "Cautions", "heading");
  sheet.spill(9, 1, ours('CAUTIONS("all")'), 26, ["text", "wrapped", "wrapped", "quietWrapped"]);
  return {
    name: "Care",
    cells: sheet.cells,
    columnWidths: { A: 40, B: 60, C: 80, D: 44 },
    rowHeights: Object.fromEntries(Array.from({ length: 21 }, (_, index) => [10 + index, 64])),
    tabColor: "#b5483a",
    page: page("landscape"),
  };
}

function costingSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(sheet, "Costing", "What the job costs you, and how the price is made of it. Not for the client.");
  const costs: readonly (readonly [string, string, string, string | number])[] = [
    ["Balloons", "materials", ours(`BUY_COST(${BUY_ARGUMENTS})`), 1],
    ["Hardware", "materials", "Hardware!$E$22", 1],
    ["Helium cylinders", "materials", "CylinderHire", "'Helium and air'!$B$6"],
    ["Building", "work", "HourCost", "Crew!$B$5"],
    ["Taking down", "work", "HourCost", "Crew!$B$6"],
    ["Driving", "travel", "KilometreCost", "Kilometres*ROUNDUP(Crew!$B$12/VanSpace,0)"],
  ];
  ["text", "kind", "cost", "quantity", "in all"].forEach((head, index) =>
    sheet.put(HEAD, 1 + index, head, "head"),
  );
  costs.forEach(([text, kind, cost, quantity], index) => {
    const row = FIRST + index;
    sheet.put(row, 1, text, "input").put(row, 2, kind, "input").formula(row, 3, cost, "money");
    if (typeof quantity === "number") sheet.put(row, 4, quantity, "input");
    else sheet.formula(row, 4, quantity, "decimal");
    sheet.formula(row, 5, `C${row}*D${row}`, "money");
  });
  sheet.put(12, 1, "Price", "heading");
  sheet.spill(13, 1, ours(`QUOTE_PLAN($A$4:$D$10,Margin,"price",Tax,FALSE,Deposit)`), 13, [
    "text",
    "money",
    "text",
  ]);
  return {
    name: "Costing",
    cells: sheet.cells,
    columnWidths: { A: 22, B: 14, C: 14, D: 12, E: 12 },
    frozen: { rows: HEAD, columns: 0 },
    tabColor: "#5c548c",
    page: page("portrait"),
  };
}

function quoteSheet(): SheetDescription {
  const sheet = new SheetCells();
  sheet
    .put(1, 1, EVENT.name, "title")
    .put(2, 1, "Quote for the decoration, valid for thirty days", "quiet")
    .put(4, 1, "You get", "heading");
  const named = [
    ...new Map(PIECES.map((piece, index) => [piece[0], index] as const).reverse()).entries(),
  ].reverse();
  named.forEach(([, index], line) => {
    sheet
      .formula(5 + line, 1, `Pieces!$A$${FIRST + index}`, "text")
      .formula(5 + line, 2, `Pieces!$C$${FIRST + index}`);
  });
  const first = 6 + named.length;
  sheet.put(first, 1, "Price", "heading");
  const rows: readonly (readonly [string, number, Look])[] = [
    ["Balloons, gas and hardware", 14, "money"],
    ["Building and taking down", 15, "money"],
    ["Travel", 16, "money"],
    ["Before tax", 21, "money"],
    ["Tax", 22, "money"],
    ["To pay", 23, "moneyTotal"],
    ["Deposit with the order", 24, "money"],
    ["Balance after the event", 25, "money"],
  ];
  rows.forEach(([label, row, look], index) => {
    sheet.put(first + 1 + index, 1, label, "label").formula(first + 1 + index, 2, `Costing!$B$${row}`, look);
  });
  const last = first + rows.length + 2;
  sheet.put(
    last,
    1,
    "Balloons are for decoration. Uninflated or popped pieces are not for children under eight: they can choke.",
    "quietWrapped",
  );
  sheet.put(
    last + 1,
    1,
    "Please tell us about latex allergies, sprinklers, exits and house rules before we build.",
    "quietWrapped",
  );
  return {
    name: "Quote",
    cells: sheet.cells,
    columnWidths: { A: 52, B: 16 },
    rowHeights: { [last]: 32, [last + 1]: 32 },
    tabColor: "#5c548c",
    showGridLines: false,
    page: { orientation: "portrait", fit: { wide: 1, tall: 1 }, printArea: `A1:B${last + 1}`, paper: 9 },
  };
}

function whatIfSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(sheet, "What-if", "What changes for the whole event when one printed size is replaced by another.");
  sheet.put(3, 9, "Swaps", "heading");
  sheet.rows(
    HEAD,
    9,
    ["from in", "to in"],
    [
      [11, 16],
      [16, 11],
      [11, 5],
    ],
    ["input", "input"],
  );
  sheet.spill(
    HEAD,
    1,
    ours(
      "SWAP_PLAN(Pieces[#All],Palettes[#All],Prices[#All],Swaps[#All],Breakage,Sure,Stock[#All],Delivery[#All])",
    ),
    6,
    ["text", "number", "money", "decimal", "decimal", "text"],
  );
  return {
    name: "What-if",
    cells: sheet.cells,
    columnWidths: { A: 22, B: 12, C: 12, D: 12, E: 12, F: 40, I: 10, J: 10 },
    tables: [{ name: "Swaps", range: `I${HEAD}:J${HEAD + 3}` }],
    tabColor: "#5c548c",
    page: page("landscape"),
  };
}

function afterSheet(): SheetDescription {
  const sheet = new SheetCells();
  heading(sheet, "After", "Fill in after the event, and your next quote is better than this one.");
  ["", "planned", "actual", "difference"].forEach((head, index) => sheet.put(4, 1 + index, head, "head"));
  const rows: readonly (readonly [string, string, number])[] = [
    ["Person-hours to build", "Crew!$B$5", 13.5],
    ["Person-hours to take down", "Crew!$B$6", 2],
    ["Balloons that popped or were faulty", "SUM(Needs!$E$5:$E$60)-SUM(Needs!$D$5:$D$60)", 21],
    ["Kilometres", "Costing!$D$10", 78],
  ];
  rows.forEach(([label, planned, actual], index) => {
    const row = 5 + index;
    sheet
      .put(row, 1, label, "label")
      .formula(row, 2, planned, "decimal")
      .put(row, 3, actual, "input")
      .formula(row, 4, `C${row}-B${row}`, "decimal");
  });
  sheet.put(10, 1, "Breakage that really was", "label").formula(10, 3, "C7/SUM(Needs!$E$5:$E$60)", "share");
  sheet.put(12, 1, "Stock after the event", "heading");
  sheet.spill(13, 1, ours(`STOCK_AFTER(Stock[#All],${NEEDS_RANGE},Buying!$A$4:$K$60)`), 26, [
    "number",
    "text",
    "number",
    "text",
  ]);
  return {
    name: "After",
    cells: sheet.cells,
    columnWidths: { A: 36, B: 14, C: 14, D: 30 },
    tabColor: "#5c548c",
    page: page("portrait"),
  };
}

/** The whole regatta evening, sheet by sheet. */
export function regattaWorkbook(): WorkbookDescription {
  return {
    ...SAMPLE_PROPERTIES,
    title: EVENT.name,
    names: ASSUMPTIONS.map(([name], index) => ({ name, text: `Start!$D$${ASSUMED + index}` })),
    sheets: [
      startSheet(),
      priceSheet(),
      paletteSheet(),
      pieceSheet(),
      needsSheet(),
      buyingSheet(),
      gasSheet(),
      hardwareSheet(),
      crewSheet(),
      careSheet(),
      costingSheet(),
      quoteSheet(),
      whatIfSheet(),
      afterSheet(),
    ],
  };
}
