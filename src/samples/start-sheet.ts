import { cellAddress, quoteSheet } from "../formula/address";
import type { WorkbookDescription } from "../workbook/create";
import type { SheetDescription } from "../workbook/create-sheet";
import { eventCall, pageOf, resultColumns, widthsFrom } from "./event-sheets";
import { SheetDraft, type LookName } from "./look";
import type { SampleTable, StyledValue } from "./sample-table";

const SHEET = "Start";
const LABELS = 1;
const VALUES = 2;
const REMARKS = 4;
const HEAD = 4;
/** Rows that the verdict and its reasons may take. */
const READY_ROWS = 80;
const COLUMN_WIDTHS = [33, 30, 7, 90, 64] as const;

/** A value that the papers carry, typed by the user, known by a name of its own. */
export interface NamedValue {
  readonly name: string;
  readonly label: string;
  readonly typed: StyledValue;
  readonly remark?: string;
  /** Words to choose from, or a formula that names their cells. */
  readonly from?: readonly string[] | string;
}

/** A number of the job that the first sheet shows. */
export interface Headline {
  readonly label: string;
  readonly formula: string;
  readonly look: LookName;
}

/** What the first sheet of an event says. */
export interface StartSheet {
  readonly title: string;
  readonly note: string;
  readonly steps: readonly string[];
  readonly values: readonly NamedValue[];
  readonly headlines: readonly Headline[];
}

type Names = NonNullable<WorkbookDescription["names"]>;

/** The first sheet: what to do, what the papers carry, whether the job can go out and why not. */
export function startSheet(
  start: StartSheet,
  tables: readonly SampleTable[],
): { readonly sheet: SheetDescription; readonly names: Names } {
  const cells = new SheetDraft();
  const { values, headlines, steps } = start;
  const stepRow = HEAD + 1;
  const valueHead = stepRow + steps.length + 1;
  const valueRow = valueHead + 1;
  const headlineHead = valueRow + values.length + 1;
  const headlineRow = headlineHead + 1;
  const readyHead = headlineRow + headlines.length + 2;
  const verdictRow = readyHead + 1;
  const spot = (row: number, column: number): string =>
    cellAddress(row - 1, column - 1).replace(/[A-Z]+|\d+/g, "$$$&");
  const ready = resultColumns("READY_PLAN").map(({ name }) => name);
  cells.put(1, LABELS, start.title, "title").put(2, LABELS, start.note, "quiet");
  cells.put(HEAD, LABELS, "What to do", "heading");
  steps.forEach((step, index) => cells.put(stepRow + index, LABELS, `${index + 1}. ${step}`));
  cells.put(valueHead, LABELS, "What the papers say", "heading");
  values.forEach(({ label, typed, remark }, index) => {
    cells
      .put(valueRow + index, LABELS, label, "label")
      .put(valueRow + index, VALUES, typed.value, typed.look);
    if (remark !== undefined) cells.put(valueRow + index, REMARKS, remark, "quiet");
  });
  cells
    .put(headlineHead, LABELS, "Can this job go out?", "heading")
    .formula(headlineHead, VALUES, spot(verdictRow, 1 + ready.indexOf("weight")), "verdict")
    .formula(headlineHead, REMARKS, spot(verdictRow, 1 + ready.indexOf("what")), "label");
  headlines.forEach(({ label, formula, look }, index) => {
    cells
      .put(headlineRow + index, LABELS, label, "label")
      .formula(headlineRow + index, VALUES, formula, look);
  });
  cells
    .put(readyHead - 1, LABELS, "Every reason, and what to do", "heading")
    .spill(readyHead, LABELS, eventCall("READY_PLAN", tables), READY_ROWS, [
      "paperStrong",
      "paperText",
      "paperNumber",
      "paperText",
      "paperText",
    ]);
  return {
    sheet: {
      name: SHEET,
      cells: cells.cells,
      columnWidths: widthsFrom(LABELS, COLUMN_WIDTHS),
      choices: values.flatMap(({ from }, index) =>
        from === undefined ? [] : [{ range: cellAddress(valueRow + index - 1, VALUES - 1), from }],
      ),
      tabColor: "#d6774c",
      showGridLines: false,
      page: pageOf("landscape"),
    },
    names: values.map(({ name }, index) => ({
      name,
      text: `${quoteSheet(SHEET)}!${spot(valueRow + index, VALUES)}`,
    })),
  };
}
