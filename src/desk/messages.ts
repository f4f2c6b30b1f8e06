import type { CellRange } from "../formula/address";
import type { TypedInput, CellPlace, UncomputedCell } from "../sheet/engine";
import type { SheetRange } from "../sheet/rectangles";
import type { LookChange } from "../workbook/cell-looks";
import type { ConditionalCell } from "./conditional-looks";
import type { Paper } from "../paper/markup";
import type { PlanStatus } from "../functions/plan-statuses";
import type { CellValue, WorkbookModel } from "../workbook/model";
import type { Restructuring } from "../workbook/restructure";
import type { LayoutChange } from "../workbook/sheet-layout";
import type { PackedModel } from "./model-transfer";

/** What a person put into a cell. */
export interface Edit extends CellPlace {
  readonly input: TypedInput;
  /** The cell's number format from now on, where typing brought another one, such as a percentage or a date. */
  readonly numberFormat?: string;
}

/** What a person changed without any value changing. */
export interface Dressing {
  readonly looks: readonly LookChange[];
  readonly layouts: readonly LayoutChange[];
}

/** All that a person changed in a file since it was opened. */
export interface Work extends Dressing {
  readonly edits: readonly Edit[];
}

/** A cell whose value changed. */
export interface ShownCell extends CellPlace {
  readonly value: CellValue;
}

/** What a formula fills beyond its own cell: rows of values over a rectangle that begins in that cell. */
export interface Spill extends CellPlace {
  readonly range: CellRange;
  readonly values: readonly (readonly CellValue[])[];
}

/** A cell that holds an error, with a sentence where one of our functions gave it. */
export interface FailedCell extends CellPlace {
  readonly error: string;
  readonly sentence?: string;
}

/** A cell that has no number format of its own and takes one from the formula that fills it. */
export interface FormattedCell extends CellPlace {
  readonly numberFormat: string;
}

/** What a recalculation changed, and what is wrong after it. */
export interface CalculationOutcome {
  readonly changed: readonly ShownCell[];
  /** All spills, not only those that changed. */
  readonly spills: readonly Spill[];
  readonly formats: readonly FormattedCell[];
  readonly failing: readonly FailedCell[];
  /** Rows of plans that are not ok, and verdicts that do not let the job go. */
  readonly statuses: readonly PlanStatus[];
  readonly uncomputed: readonly UncomputedCell[];
}

/** What can be written: the workbook as it stands, a copy for a partner, or the workbook with formulas put back. */
export type Writing = "workbook" | "partner copy" | "put back";

/** A sheet to print, and what its head and foot may say. */
export interface PaperRequest {
  readonly sheet: number;
  readonly file: string;
  readonly date: string;
  readonly time: string;
}

/** From the page to the worker that holds one workbook. */
export type Request =
  /** `resumed`: what was done to the file before; nothing is computed until it is asked for. */
  | { readonly kind: "open"; readonly bytes: Uint8Array; readonly resumed?: Work }
  /** `inSight`: what a person looks at, which is computed first. */
  | { readonly kind: "edit"; readonly edits: readonly Edit[]; readonly inSight: readonly SheetRange[] }
  | ({ readonly kind: "dress" } & Dressing)
  | { readonly kind: "compute" }
  | { readonly kind: "stop" }
  | { readonly kind: "restructure"; readonly id: number; readonly change: Restructuring }
  | { readonly kind: "write"; readonly id: number; readonly writing: Writing }
  /** What a formula gives where it stands in a cell, whose own content stays. */
  | {
      readonly kind: "evaluate";
      readonly id: number;
      readonly place: CellPlace;
      readonly formula: string;
    }
  | ({ readonly kind: "lay out"; readonly id: number } & PaperRequest);

/** A workbook as it was opened. */
export interface OpenedWorkbook {
  readonly model: WorkbookModel;
  readonly spills: readonly Spill[];
}

/** A workbook as the worker hands it to the page. */
export interface PackedWorkbook extends Omit<OpenedWorkbook, "model"> {
  readonly model: PackedModel;
}

/** What takes time, as the page says it. */
export type Doing = "Opening" | "Computing" | "Saving";

/** From the worker to the page. */
export type Report =
  | ({ readonly kind: "opened" } & PackedWorkbook)
  | ({ readonly kind: "restructured"; readonly id: number; readonly bytes: Uint8Array } & PackedWorkbook)
  | { readonly kind: "progress"; readonly doing: Doing; readonly share: number }
  /** New values of cells in sight, while the rest is still computed. */
  | { readonly kind: "glanced"; readonly cells: readonly ShownCell[] }
  | { readonly kind: "computed"; readonly outcome: CalculationOutcome }
  | { readonly kind: "shaded"; readonly cells: readonly ConditionalCell[] }
  | { readonly kind: "stopped" }
  | { readonly kind: "written"; readonly id: number; readonly bytes: Uint8Array; readonly note: string }
  | { readonly kind: "evaluated"; readonly id: number; readonly values: readonly CellValue[] | undefined }
  | { readonly kind: "laid out"; readonly id: number; readonly paper: Paper }
  | { readonly kind: "refused"; readonly id: number; readonly sentence: string }
  | { readonly kind: "failed"; readonly sentence: string };
