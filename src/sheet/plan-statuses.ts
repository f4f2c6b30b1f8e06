import type { CellPlace, ComputedCell } from "./engine";
import type { CellValue } from "../workbook/model";

/** A row of a plan that is not ok. */
export interface PlanStatus extends CellPlace {
  /** Its status: `stop: ...`, or `check: ...`. */
  readonly status: string;
}

/** What the plans of a workbook say beside their numbers. */
export interface PlanStatuses {
  /** Statuses that are not ok, in the order of cells. */
  readonly statuses: readonly PlanStatus[];
  /** Verdicts of plans of readiness that do not let the job go. */
  readonly notReady: readonly PlanStatus[];
}

const SPOKEN = /^(?:stop|unsafe|no go|check): /;
const READY_HEADER = ["weight", "table", "row", "what", "do"];

const textOf = (value: CellValue | undefined): string => (typeof value === "string" ? value : "");

/**
 * Reads the statuses of all spilled plans, each known by its header row.
 *
 * @param computed formula cells after a recalculation
 * @returns what a person has to look at
 */
export function planStatuses(computed: readonly ComputedCell[]): PlanStatuses {
  const statuses: PlanStatus[] = [];
  const notReady: PlanStatus[] = [];
  for (const { sheet, row, column, spilled } of computed) {
    const [header, ...rows] = spilled ?? [];
    if (header === undefined) continue;
    const at = header.indexOf("status");
    if (at >= 0)
      rows.forEach((cells, index) => {
        const status = textOf(cells[at]);
        if (SPOKEN.test(status)) statuses.push({ sheet, row: row + index + 1, column: column + at, status });
      });
    const [verdict] = rows;
    const isReadyPlan = READY_HEADER.every((name, index) => header[index] === name);
    if (isReadyPlan && verdict !== undefined && verdict[0] !== "ready")
      notReady.push({ sheet, row: row + 1, column, status: `not ready: ${textOf(verdict[3])}` });
  }
  return { statuses, notReady };
}
