import type { CellPlace } from "../sheet/engine";
import { element, type View } from "../ui/element";
import { failingRows, planRows, uncomputedCells } from "../ui/workbook-views";
import { cellAddress, quoteSheet } from "../formula/address";
import type { FailedCell, CalculationOutcome } from "./messages";

/** Excel's own errors in a sentence, for cells where no function of ours said more. */
const ERROR_SENTENCES: Readonly<Record<string, string>> = {
  "#DIV/0!": "divides by zero or by an empty cell",
  "#N/A": "looks for something that is not there, or uses a cell that does",
  "#NAME?": "uses a name that this workbook does not know",
  "#NULL!": "joins ranges that do not meet",
  "#NUM!": "comes to a number that is too large or does not exist",
  "#REF!": "points at a cell that is gone",
  "#VALUE!": "gets text where a number belongs, or uses a cell that fails",
  "#SPILL!": "has no room: clear the cells below it and to its right",
  "#CALC!": "gives nothing to show",
};

/** Longest list drawn at once; nobody reads a longer one line by line. */
const LONGEST = 200;

/** Why a cell fails, in a sentence. */
export function failureSentence({ error, sentence }: Pick<FailedCell, "error" | "sentence">): string {
  return sentence ?? ERROR_SENTENCES[error] ?? "fails";
}

/** The lists of cells that fail and of cells that keep their stored value. */
export interface ProblemsView extends View {
  show(
    outcome: Pick<CalculationOutcome, "failing" | "statuses" | "uncomputed">,
    sheetNames: readonly string[],
  ): void;
}

export function makeProblemsView(goTo: (place: CellPlace) => void): ProblemsView {
  const root = element("div", { class: "desk-problems" });
  return {
    element: root,
    show({ failing, statuses, uncomputed }, sheetNames) {
      const spot = (place: CellPlace): { readonly place: CellPlace; readonly label: string } => ({
        place,
        label: `${quoteSheet(sheetNames[place.sheet] ?? "")}!${cellAddress(place.row, place.column)}`,
      });
      const rest = [failing, statuses, uncomputed].reduce(
        (sum, list) => sum + Math.max(0, list.length - LONGEST),
        0,
      );
      root.replaceChildren(
        failingRows(
          failing
            .slice(0, LONGEST)
            .map((cell) => ({ ...spot(cell), code: cell.error, sentence: failureSentence(cell) })),
          goTo,
        ).element,
        planRows(
          statuses.slice(0, LONGEST).map((cell) => ({ ...spot(cell), status: cell.status })),
          goTo,
        ).element,
        uncomputedCells(
          uncomputed
            .slice(0, LONGEST)
            .map((cell) => ({ ...spot(cell), formula: cell.formula, why: cell.why })),
          goTo,
        ).element,
        ...(rest > 0 ? [element("p", { class: "desk-rest" }, `and ${rest} more cells`)] : []),
      );
    },
  };
}
