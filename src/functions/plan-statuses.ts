/** A place in a workbook; hosts name sheets by number or by name. */
interface Cell<Sheet> {
  readonly sheet: Sheet;
  readonly row: number;
  readonly column: number;
}

/** A formula with the cells that it fills, where it fills more than its own. */
interface Spilled<Sheet> extends Cell<Sheet> {
  readonly spilled?: readonly (readonly unknown[])[];
}

/** A row of a plan that is not ok. */
export interface PlanStatus<Sheet = number> extends Cell<Sheet> {
  /** Its status: `stop: ...`, or `check: ...`. */
  readonly status: string;
}

/** What the plans of a workbook say beside their numbers. */
export interface PlanStatuses<Sheet = number> {
  /** Statuses that are not ok, in the order of cells. */
  readonly statuses: readonly PlanStatus<Sheet>[];
  /** Verdicts of plans of readiness that do not let the job go. */
  readonly notReady: readonly PlanStatus<Sheet>[];
  /** Verdicts that let it go. */
  readonly ready: readonly PlanStatus<Sheet>[];
}

const SPOKEN = /^(?:stop|unsafe|no go|check): /;
const READY_HEADER = ["weight", "table", "row", "what", "do"];

const textOf = (value: unknown): string => (typeof value === "string" ? value : "");

/**
 * Reads the statuses of all spilled plans, each known by its header row.
 *
 * @param formulas formula cells with what they fill
 * @returns what a person has to look at
 */
export function planStatuses<Sheet>(formulas: readonly Spilled<Sheet>[]): PlanStatuses<Sheet> {
  const statuses: PlanStatus<Sheet>[] = [];
  const notReady: PlanStatus<Sheet>[] = [];
  const ready: PlanStatus<Sheet>[] = [];
  for (const { sheet, row, column, spilled } of formulas) {
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
    if (!isReadyPlan || verdict === undefined) continue;
    const isReady = verdict[0] === "ready";
    const status = `${isReady ? "ready" : "not ready"}: ${textOf(verdict[3])}`;
    (isReady ? ready : notReady).push({ sheet, row: row + 1, column, status });
  }
  return { statuses, notReady, ready };
}
