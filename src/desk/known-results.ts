import { planStatuses, type PlanStatus } from "../functions/plan-statuses";
import type { CellPlace, ComputedCell } from "../sheet/engine";
import { failingCells } from "../sheet/failing-cells";
import { isErrorCell } from "../sheet/value-cells";
import type { FailedCell } from "./messages";
import { placeNumber } from "../sheet/place-number";

/** The latest result of every formula that was computed, and what is wrong with some of them. */
export class KnownResults {
  private readonly results = new Map<number, ComputedCell>();
  /** Those that show errors and those that fill a table, of which a price list of thousands of formulas has few. */
  private readonly failed = new Map<number, readonly FailedCell[]>();
  private readonly tables = new Map<number, ComputedCell>();

  get all(): readonly ComputedCell[] {
    return [...this.results.values()];
  }

  get(place: CellPlace): ComputedCell | undefined {
    return this.results.get(placeNumber(place));
  }

  set(cell: ComputedCell): void {
    const key = placeNumber(cell);
    this.results.set(key, cell);
    const failing = failingIn(cell);
    if (failing.length > 0) this.failed.set(key, failing);
    else this.failed.delete(key);
    if (cell.spilled !== undefined) this.tables.set(key, cell);
    else this.tables.delete(key);
  }

  delete(place: CellPlace): void {
    const key = placeNumber(place);
    for (const map of [this.results, this.failed, this.tables]) map.delete(key);
  }

  /** The cells that show errors, in order. */
  get failing(): readonly FailedCell[] {
    return inOrder(this.failed).flat();
  }

  /** What plans say that is not ok: verdicts first, then rows, in order. */
  get statuses(): readonly PlanStatus[] {
    const { statuses, notReady } = planStatuses(inOrder(this.tables));
    return [...notReady, ...statuses];
  }
}

function inOrder<T>(map: ReadonlyMap<number, T>): readonly T[] {
  return [...map].sort(([a], [b]) => a - b).map(([, value]) => value);
}

/** The cells of a formula that show an error: its own, and those of a table of ours that have a sentence. */
function failingIn(cell: ComputedCell): readonly FailedCell[] {
  const { sheet, row, column, value, sentence, sentences } = cell;
  if (!isErrorCell(value) && sentences === undefined) return [];
  const own = isErrorCell(value)
    ? [{ sheet, row, column, error: value.error, ...(sentence !== undefined && { sentence }) }]
    : [];
  const around = failingCells([cell])
    .filter((at) => at.row !== row || at.column !== column)
    .map((at) => ({
      sheet,
      row: at.row,
      column: at.column,
      error: typeof at.value === "object" ? (at.value?.error ?? "") : "",
      sentence: at.sentence,
    }));
  return [...own, ...around];
}
