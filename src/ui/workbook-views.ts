import { button, element, type View } from "./element";
import { scrollingTable } from "./result-view";

/** A cell of the workbook: what the host needs to go there, and what a person reads. */
interface Spot<Place> {
  readonly place: Place;
  /** Such as `Pieces!C4`. */
  readonly label: string;
}

/** A cell that shows an error. */
export interface FailingRow<Place> extends Spot<Place> {
  readonly code: string;
  readonly sentence: string;
}

/** A cell whose formula was not computed; its stored value stands. */
export interface UncomputedRow<Place> extends Spot<Place> {
  readonly formula: string;
  readonly why: string;
}

/** A cell that is about to change. */
export interface ShownChange<Place> extends Spot<Place> {
  readonly before: string;
  readonly after: string;
}

function jumpTo<Place>(spot: Spot<Place>, onJump: (place: Place) => void): HTMLElement {
  return button(spot.label, "plain", () => {
    onJump(spot.place);
  });
}

function listed(title: string, none: string, count: number, table: () => HTMLElement): View {
  return {
    element: element(
      "section",
      { class: "bln-view" },
      element("h2", { class: "bln-title" }, title),
      count === 0 ? element("p", { class: "bln-quiet" }, none) : table(),
    ),
  };
}

/** The cells that show an error, each with its sentence and a way to it. */
export function failingRows<Place>(
  cells: readonly FailingRow<Place>[],
  onJump: (place: Place) => void,
): View {
  return listed("Cells with an error", "No cell shows an error.", cells.length, () =>
    scrollingTable(
      "Cells with an error",
      ["cell", "shows", "because"],
      cells.map((cell) => [jumpTo(cell, onJump), cell.code, cell.sentence]),
    ),
  );
}

/** A row of a plan that is not ok. */
export interface PlanRow<Place> extends Spot<Place> {
  readonly status: string;
}

/** The rows of plans that stop something or are to be looked at, each with a way to it. */
export function planRows<Place>(rows: readonly PlanRow<Place>[], onJump: (place: Place) => void): View {
  return listed("Rows of plans to look at", "Every row of every plan is ok.", rows.length, () =>
    scrollingTable(
      "Rows of plans to look at",
      ["cell", "says"],
      rows.map((row) => [jumpTo(row, onJump), row.status]),
    ),
  );
}

/** The cells that were not computed, each with its formula and why. */
export function uncomputedCells<Place>(
  cells: readonly UncomputedRow<Place>[],
  onJump: (place: Place) => void,
): View {
  return listed("Cells that keep their stored value", "Every formula was computed.", cells.length, () =>
    scrollingTable(
      "Cells that keep their stored value",
      ["cell", "formula", "because"],
      cells.map((cell) => [jumpTo(cell, onJump), element("code", {}, cell.formula), cell.why]),
    ),
  );
}

/** What a change to the workbook would do, before it is done; `onApply` does it. */
export function changesPreview<Place>(
  title: string,
  changes: readonly ShownChange<Place>[],
  host: {
    readonly applyLabel: string;
    readonly onApply: () => void;
    readonly onJump: (place: Place) => void;
  },
): View {
  const view = listed(title, "Nothing would change.", changes.length, () =>
    scrollingTable(
      title,
      ["cell", "now", "then"],
      changes.map((change) => [
        jumpTo(change, host.onJump),
        element("code", {}, change.before),
        change.after,
      ]),
    ),
  );
  if (changes.length > 0) view.element.append(button(host.applyLabel, "primary", host.onApply));
  return view;
}
