import { cellAddress } from "../formula/address";
import type { SheetDescription } from "../workbook/create-sheet";
import { eventCall, pageOf, widthsFrom } from "./event-sheets";
import { SheetDraft, type LookName } from "./look";
import type { SampleTable } from "./sample-table";

/** A line over the table of a paper: what it is, and a formula for it. */
export interface PaperFact {
  readonly label: string;
  readonly formula: string;
  readonly look?: LookName;
  /** Rows that its text may take; it goes on in lines of its own over the rest of the paper. */
  readonly lines?: number;
}

/** A paper that is handed over as a sheet of its own. */
export interface PaperSheet {
  readonly paper: "offer" | "order" | "packing" | "returns" | "setup" | "venue" | "terms";
  /** Name of its sheet, and its title where it differs. */
  readonly name: string;
  readonly title?: string;
  /** Formula text for the event, such as `ShownEvent`; blank where the job has one. */
  readonly event?: string;
  readonly facts: readonly PaperFact[];
  /** Sentences under the facts. */
  readonly remarks?: readonly string[];
  /** Rows that its lines may take. */
  readonly rows: number;
}

const SECTION = 1;
const LINE = 2;
const AMOUNT = 3;
/** Widths of section, line, amount, unit, note, status; an offer has short lines. */
const COLUMN_WIDTHS = [28, 72, 20, 20, 48, 20] as const;
const OFFER_WIDTHS = [10, 44, 20, 20, 20, 34] as const;
/** Looks of the same columns. */
const COLUMN_LOOKS: readonly LookName[] = [
  "paperStrong",
  "paperText",
  "paperNumber",
  "paperUnit",
  "paperText",
  "paperText",
];
const HEAD_LOOKS: readonly LookName[] = [
  "paperHead",
  "paperHead",
  "paperHeadNumber",
  "paperHeadUnit",
  "paperHead",
  "paperHead",
];
/** Height of a line of text, points. */
const LINE_POINTS = 15;
/** Last column that the client sees. */
const LAST_FOR_CLIENT = 5;
/** The client sees neither the section, which is one, nor the status, which is for the decorator. */
const CLIENT_COLUMNS = "B:E";
const ALL_COLUMNS = "A:F";

/**
 * A paper as a sheet: facts of the event, then the lines of PAPER_PLAN under headings that every page repeats. It prints whole
 * columns, so that lines that come in later are printed too.
 */
export function paperSheet(paper: PaperSheet, tables: readonly SampleTable[]): SheetDescription {
  const { facts, remarks = [] } = paper;
  const isForClient = paper.paper === "offer";
  const first = isForClient ? LINE : SECTION;
  const sheet = new SheetDraft();
  sheet.put(1, first, paper.title ?? paper.name, "title");
  const merges: string[] = [];
  const rowHeights: Record<number, number> = {};
  const last = isForClient ? LAST_FOR_CLIENT : COLUMN_WIDTHS.length;
  facts.forEach(({ label, formula, look, lines }, index) => {
    const row = 3 + index;
    sheet.put(row, first, label, lines === undefined ? "label" : "labelTop");
    sheet.formula(row, first + 1, formula, look ?? (lines === undefined ? "text" : "wrapped"));
    if (lines === undefined) return;
    merges.push(`${cellAddress(row - 1, first)}:${cellAddress(row - 1, last - 1)}`);
    rowHeights[row] = lines * LINE_POINTS;
  });
  const remarkRow = 3 + facts.length + 1;
  remarks.forEach((remark, index) => sheet.put(remarkRow + index, first, remark, "quiet"));
  const head = remarkRow + remarks.length + (remarks.length > 0 ? 1 : 0);
  const looks = isForClient ? COLUMN_LOOKS.with(AMOUNT - 1, "paperMoney") : COLUMN_LOOKS;
  const call = eventCall("PAPER_PLAN", tables, [`"${paper.paper}"`, paper.event ?? '""']);
  sheet.spill(head, SECTION, call, paper.rows, looks, HEAD_LOOKS);
  return {
    name: paper.name,
    cells: sheet.cells,
    merges,
    rowHeights,
    columnWidths: widthsFrom(SECTION, isForClient ? OFFER_WIDTHS : COLUMN_WIDTHS),
    tabColor: "#5c548c",
    showGridLines: false,
    page: pageOf(isForClient ? "portrait" : "landscape", {
      printArea: isForClient ? CLIENT_COLUMNS : ALL_COLUMNS,
      repeatedRows: `${head}:${head}`,
    }),
  };
}
