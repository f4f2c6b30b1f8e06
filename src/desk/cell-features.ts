import { contains } from "../formula/address";
import type { CellPlace } from "../sheet/engine";
import type { CellCheck } from "../workbook/cell-checks";
import type { SheetFeatures } from "../workbook/sheet-features";
import { checkAt, checkFault, type Choice, choicesOf, type Evaluate, formulaFor } from "./cell-rules";
import { type DropDown, makeDropDown } from "./drop-down";
import type { FilterActions } from "./filter-actions";
import type { Grid } from "./grid";
import type { GridValue } from "./grid-reading";
import type { OpenBook } from "./open-book";
import type { OfferedAction, StatusLine } from "./status";

/** What belongs to single cells beside what they hold. */
export interface CellFeatures {
  readonly dropDown: DropDown;
  /** Shows what belongs to a cell that was selected. */
  selected(place: CellPlace): void;
  /** What a person can do with a cell beside typing, in words. */
  hint(place: CellPlace): string | undefined;
  /** Where a cell's link leads. */
  offer(place: CellPlace): OfferedAction | undefined;
  /** Why a typed value must not go into a cell; what is only to be looked at is said once it is there. */
  fault(place: CellPlace, value: GridValue): string | undefined;
}

export function makeCellFeatures(
  open: OpenBook,
  grid: Grid,
  status: StatusLine,
  filters: FilterActions,
): CellFeatures {
  const featuresAt = ({ sheet }: CellPlace): SheetFeatures | undefined => open.book?.model.features?.[sheet];
  const checkOf = (place: CellPlace): CellCheck | undefined =>
    checkAt(featuresAt(place)?.checks ?? [], place.row, place.column);

  /** The values of a reference as a cell's check writes it. */
  const evaluateAt =
    (place: CellPlace): Evaluate =>
    (formula) => {
      const area = open.book?.area(formula, place);
      return area && grid.values(area.sheet, area);
    };

  const choicesAt = (place: CellPlace): readonly Choice[] | undefined => {
    const check = checkOf(place);
    if (check?.isOffered !== true) return undefined;
    return choicesOf(formulaFor(check, check.formula1, place.row, place.column), evaluateAt(place));
  };

  const dropDown = makeDropDown({
    choices: () => choicesAt(grid.place),
    filter: () => void filters.choose(),
    current: () => grid.text(grid.place),
    box: () => grid.box,
    choose: ({ value }) => {
      grid.write(grid.place, [[{ content: value }]]);
      grid.focus();
    },
    left: () => {
      grid.focus();
    },
  });
  /** A value that did not pass, until its cell is selected again: the key that ends typing moves on. */
  let doubted: { readonly place: CellPlace; readonly sentence: string } | undefined;
  return {
    dropDown,
    selected(place) {
      if (filters.isHeading(place)) dropDown.arrow("filter");
      else dropDown.arrow(choicesAt(place) === undefined ? undefined : "list");
      if (!doubted) return;
      const back = doubted;
      doubted = undefined;
      setTimeout(() => {
        grid.goTo(back.place);
        status.say(back.sentence, "error");
      });
    },
    hint(place) {
      const check = checkOf(place);
      if (check?.prompt !== undefined) return check.prompt;
      if (filters.isHeading(place)) return "Alt+Down filters";
      return check?.isOffered === true ? "Alt+Down offers a list" : undefined;
    },
    offer(place) {
      const { book } = open;
      const link = featuresAt(place)?.links.find(({ range }) => contains(range, place.row, place.column));
      if (!link || !book) return undefined;
      if ("address" in link) {
        return {
          label: `Open ${link.address}`,
          run: () => {
            window.open(link.address, "_blank", "noopener,noreferrer");
          },
        };
      }
      const area = book.area(link.reference, place);
      return (
        area && {
          label: `Go to ${link.reference}`,
          run: () => {
            const { sheet, firstRow: row, firstColumn: column } = area;
            grid.goTo({ sheet, row, column });
            grid.focus();
          },
        }
      );
    },
    fault(place, value) {
      const check = checkOf(place);
      if (!check || check.strictness === "none") return undefined;
      const fault = checkFault(check, place, value, evaluateAt(place));
      if (fault !== undefined) doubted = { place, sentence: fault };
      return check.strictness === "stop" ? fault : undefined;
    },
  };
}
