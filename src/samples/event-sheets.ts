import { cellAddress, columnLetters, quoteSheet } from "../formula/address";
import { functionNamed } from "../functions/catalogue";
import type { ResultColumn } from "../functions/definition";
import type { PageSetup, SheetDescription } from "../workbook/create-sheet";
import { SheetDraft, type LookName } from "./look";
import { placeTable, type SampleTable } from "./sample-table";

/** Where the title, the line below it and the first table of a sheet stand, counted from 1. */
const TITLE_ROW = 1;
const NOTE_ROW = 2;
const HEAD_ROW = 4;
const FIRST_COLUMN = 1;
const A4 = 9;
/** Room for headings of two lines, in points. */
const HEAD_HEIGHT = 32;

/** A sheet on paper: one page wide, as many down as it takes. */
export const pageOf = (orientation: PageSetup["orientation"], more: Partial<PageSetup> = {}): PageSetup => ({
  orientation,
  fit: { wide: 1, tall: 0 },
  paper: A4,
  ...more,
});

const repeating = (row: number): Partial<PageSetup> => ({ repeatedRows: `${row}:${row}` });

/** A call as the file stores it: scalars as formula text, then every table of the job. */
export function eventCall(
  name: string,
  tables: readonly SampleTable[],
  scalars: readonly string[] = [],
): string {
  const ranges = tables.map((table) => `${table.name}[#All]`);
  return `_xldudf_BLN_${name}(${[...scalars, ...ranges].join(",")})`;
}

/** A cell as a formula names it wherever it stands; `across` counts from the first column. */
const absolute = (row: number, across: number): string =>
  cellAddress(row - 1, FIRST_COLUMN - 1 + across).replace(/[A-Z]+|\d+/g, "$$$&");

/** Widths by column letters, from the first column on. */
export function widthsFrom(column: number, widths: readonly number[]): Readonly<Record<string, number>> {
  return Object.fromEntries(widths.map((width, index) => [columnLetters(column - 1 + index), width]));
}

/** A sheet of tables to type in, side by side so that each can grow downwards. */
export function inputSheet(name: string, note: string, tables: readonly SampleTable[]): SheetDescription {
  const sheet = new SheetDraft();
  sheet.put(TITLE_ROW, FIRST_COLUMN, name, "title").put(NOTE_ROW, FIRST_COLUMN, note, "quiet");
  let column = FIRST_COLUMN;
  let widths: Readonly<Record<string, number>> = {};
  const placed = tables.map((table) => {
    if (tables.length > 1) sheet.put(HEAD_ROW - 1, column, table.title, "heading");
    const one = placeTable(sheet, table, HEAD_ROW, column);
    widths = { ...widths, ...widthsFrom(column, one.widths) };
    column += one.widths.length + 1;
    return one;
  });
  return {
    name,
    cells: sheet.cells,
    columnWidths: widths,
    rowHeights: { [HEAD_ROW]: HEAD_HEIGHT },
    frozen: { rows: HEAD_ROW, columns: tables.length > 1 ? 0 : 1 },
    tables: placed.map(({ table }) => table),
    choices: placed.flatMap(({ choices }) => choices),
    tabColor: "#e0b04c",
    page: pageOf("landscape", repeating(HEAD_ROW)),
  };
}

/** The cells of a column of the first table of an input sheet, as a formula names them. */
export function inputColumn(sheet: string, { columns, rows, spare }: SampleTable, head: string): string {
  const across = Object.keys(columns).indexOf(head);
  if (across < 0) throw new Error(`${sheet} has no column ${head}`);
  const last = HEAD_ROW + rows.length + spare;
  return `${quoteSheet(sheet)}!${absolute(HEAD_ROW + 1, across)}:${absolute(last, across)}`;
}

/** The columns that a function spills. */
export function resultColumns(name: string): readonly ResultColumn[] {
  const result = functionNamed(name)?.result;
  return result?.kind === "table" ? result.columns : [];
}

const LOOK_OF: Readonly<Partial<Record<ResultColumn["measure"], LookName>>> = {
  count: "number",
  money: "money",
  share: "share",
  datetime: "dateTime",
  text: "text",
  in: "size",
};

const looksOf = (name: string): readonly LookName[] =>
  resultColumns(name).map(({ measure }) => LOOK_OF[measure] ?? "decimal");

const NAME_WIDTH = 22;
const STATUS_WIDTH = 70;
const WIDTHS: Readonly<Record<string, number>> = {
  name: NAME_WIDTH,
  item: NAME_WIDTH,
  stage: NAME_WIDTH,
  part: 12,
  option: 8,
  column: 20,
  status: STATUS_WIDTH,
  start: 17,
  end: 17,
  date: 17,
};
const USUAL_WIDTH = 11;

/** A plan that spills on a sheet of its own. */
export interface SheetPlan {
  /** Name of its sheet. */
  readonly sheet: string;
  readonly note: string;
  readonly plan: string;
  /** Rows that it may take. */
  readonly rows: number;
}

/** The plans of an event, each a single formula over all tables. */
export const PLANS = {
  options: {
    sheet: "Options",
    note: "What each option costs and takes, against the budget. Not for the client.",
    plan: "OPTION_PLAN",
    rows: 12,
  },
  costs: {
    sheet: "Costs",
    note: "What each piece costs you and is sold for. Not for the client.",
    plan: "COST_PLAN",
    rows: 60,
  },
  parts: {
    sheet: "Parts",
    note: "Every part of every piece: counts, sizes, gas, ribbon, hours, room.",
    plan: "PART_PLAN",
    rows: 80,
  },
  goods: {
    sheet: "Hardware",
    note: "Everything that is no balloon, pooled over the job.",
    plan: "GOODS_PLAN",
    rows: 50,
  },
  clock: {
    sheet: "Clock",
    note: "Back from ready to the first hour in the shop.",
    plan: "WORK_PLAN",
    rows: 40,
  },
  stock: {
    sheet: "Stock book",
    note: "Shelf, order, what goes out and comes back, what is left and worth.",
    plan: "STOCK_PLAN",
    rows: 200,
  },
  learned: {
    sheet: "Learned",
    note: "Your own pace and breakage from past jobs, and how sure they are.",
    plan: "LEARN_PLAN",
    rows: 40,
  },
} as const satisfies Readonly<Record<string, SheetPlan>>;

/** A sheet of one plan. */
export function planSheet(
  { sheet: name, note, plan, rows }: SheetPlan,
  tables: readonly SampleTable[],
): SheetDescription {
  const sheet = new SheetDraft();
  sheet
    .put(TITLE_ROW, FIRST_COLUMN, name, "title")
    .put(NOTE_ROW, FIRST_COLUMN, note, "quiet")
    .spill(HEAD_ROW, FIRST_COLUMN, eventCall(plan, tables), rows, looksOf(plan));
  const widths = resultColumns(plan).map((column) => WIDTHS[column.name] ?? USUAL_WIDTH);
  return {
    name,
    cells: sheet.cells,
    columnWidths: widthsFrom(FIRST_COLUMN, widths),
    rowHeights: { [HEAD_ROW]: HEAD_HEIGHT },
    frozen: { rows: HEAD_ROW, columns: 0 },
    tabColor: "#2f5d62",
    page: pageOf("landscape", repeating(HEAD_ROW)),
  };
}

/** The cells that a plan fills in one of its columns, below its header, as a formula names them. */
export function planColumn({ sheet, plan, rows }: SheetPlan, column: string): string {
  const across = resultColumns(plan).findIndex(({ name }) => name === column);
  if (across < 0) throw new Error(`${plan} has no column ${column}`);
  return `${quoteSheet(sheet)}!${absolute(HEAD_ROW + 1, across)}:${absolute(HEAD_ROW + rows - 1, across)}`;
}
