import type { CellRange } from "../formula/address";
import type { CellPlace, UncomputedCell } from "../sheet/engine";
import type { PlanStatus } from "../functions/plan-statuses";
import type { CellValue, WorkbookModel } from "../workbook/model";

/** What a person put into a cell. */
export interface Edit extends CellPlace {
  readonly input: CellValue | { readonly formula: string };
  /** The cell's number format from now on, where typing brought another one, such as a percentage or a date. */
  readonly numberFormat?: string;
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
export interface FailingCell extends CellPlace {
  readonly error: string;
  readonly sentence?: string;
}

/** What a recalculation changed, and what is wrong after it. */
export interface Outcome {
  readonly changed: readonly ShownCell[];
  /** All spills, not only those that changed. */
  readonly spills: readonly Spill[];
  readonly failing: readonly FailingCell[];
  /** Rows of plans that are not ok, and verdicts that do not let the job go. */
  readonly statuses: readonly PlanStatus[];
  readonly uncomputed: readonly UncomputedCell[];
}

/** What can be written: the workbook as it stands, a copy for a partner, or the workbook with formulas put back. */
export type Writing = "workbook" | "partner copy" | "put back";

/** From the page to the worker that holds one workbook. */
export type Request =
  | { readonly kind: "open"; readonly bytes: Uint8Array }
  | { readonly kind: "edit"; readonly edits: readonly Edit[] }
  | { readonly kind: "stop" }
  | { readonly kind: "write"; readonly id: number; readonly writing: Writing };

/** From the worker to the page. */
export type Report =
  | { readonly kind: "opened"; readonly model: WorkbookModel; readonly spills: readonly Spill[] }
  | { readonly kind: "progress"; readonly share: number }
  | { readonly kind: "computed"; readonly outcome: Outcome }
  | { readonly kind: "stopped" }
  | { readonly kind: "written"; readonly id: number; readonly bytes: Uint8Array; readonly note: string }
  | { readonly kind: "refused"; readonly id: number; readonly sentence: string }
  | { readonly kind: "failed"; readonly sentence: string };
