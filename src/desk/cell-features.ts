import { cellRange } from "../sheet/rectangles";
import type { CellPlace } from "../sheet/engine";
import type { CellCheck } from "../workbook/cell-checks";
import type { CellLink } from "../workbook/links";
import type { SheetFeatures } from "../workbook/sheet-features";
import { contains } from "../formula/address";
import {
  checkAt,
  checkFault,
  type Choice,
  choicesOf,
  constantOf,
  type Evaluate,
  formulaFor,
  formulasOf,
} from "./cell-rules";
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
  /** Follows the link of the selected cell, or says why not; false where it has none. */
  follow(): boolean;
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
  const linkOf = (place: CellPlace): CellLink | undefined =>
    featuresAt(place)?.links.find(({ range }) => contains(range, place.row, place.column));

  /** The values of a reference as a cell's check writes it. */
  const evaluateAt =
    (place: CellPlace): Evaluate =>
    (formula) => {
      const area = open.book?.area(formula, place);
      return area && grid.values(area.sheet, area);
    };
  const isComputed = (formula: string, place: CellPlace): boolean =>
    constantOf(formula) === undefined && open.book?.area(formula, place) === undefined;

  /** The same once the workbook computed the formulas that are no references. */
  const computedAt = async (place: CellPlace, formulas: readonly string[]): Promise<Evaluate> => {
    const known = new Map<string, readonly (readonly GridValue[])[] | undefined>();
    for (const formula of formulas.filter((text) => isComputed(text, place))) {
      const values = await open.book?.session.values(place, formula).catch(() => undefined);
      known.set(
        formula,
        values?.map((value) => [typeof value === "object" ? (value?.error ?? null) : value]),
      );
    }
    return (formula) => (known.has(formula) ? known.get(formula) : evaluateAt(place)(formula));
  };

  const computedChoices = async (
    formula: string,
    place: CellPlace,
  ): Promise<readonly Choice[] | undefined> => {
    const choices = choicesOf(formula, await computedAt(place, [formula]));
    if (!choices || choices.length === 0) status.say("the list of this cell has no entries now", "error");
    return choices;
  };
  const choicesAt = (
    place: CellPlace,
  ): readonly Choice[] | Promise<readonly Choice[] | undefined> | undefined => {
    const check = checkOf(place);
    if (check?.isOffered !== true) return undefined;
    const formula = formulaFor(check, check.formula1, place.row, place.column);
    return isComputed(formula, place)
      ? computedChoices(formula, place)
      : choicesOf(formula, evaluateAt(place));
  };

  /** Looks at a value by a check that only the workbook can answer, once the value is in its cell. */
  const verify = async (check: CellCheck, place: CellPlace, value: GridValue): Promise<void> => {
    const before = grid.inputs(place.sheet, cellRange(place));
    // What was typed is in the cell, and with the worker, only after this.
    await new Promise((resolve) => setTimeout(resolve));
    const { book } = open;
    const evaluate = await computedAt(place, formulasOf(check, place.row, place.column));
    const fault = checkFault(check, place, value, evaluate);
    if (fault === undefined || book !== open.book) return;
    grid.goTo(place);
    status.say(fault, "error", {
      label: "Take it back",
      run: () => {
        grid.write(place, before);
        grid.focus();
      },
    });
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
  const offer = (place: CellPlace): OfferedAction | undefined => {
    const { book } = open;
    const link = linkOf(place);
    if (!link || !book || "unopened" in link) return undefined;
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
  };
  /** Why a link is not followed. */
  const refusal = (link: CellLink): string =>
    "unopened" in link
      ? `the link to ${link.unopened} is not opened: this page opens web and mail addresses and places in the workbook`
      : `the link leads to ${"reference" in link ? link.reference : link.address}, which is not there`;

  /** A value that did not pass, until its cell is selected again: the key that ends typing moves on. */
  let doubted: { readonly place: CellPlace; readonly sentence: string } | undefined;
  return {
    dropDown,
    selected(place) {
      if (filters.isHeading(place)) dropDown.arrow("filter");
      else dropDown.arrow(checkOf(place)?.isOffered === true ? "list" : undefined);
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
      if (check?.isOffered === true) return "Alt+Down offers a list";
      const link = linkOf(place);
      if (!link) return undefined;
      return offer(place) ? "Alt+Down follows the link" : refusal(link);
    },
    offer,
    follow() {
      const { place } = grid;
      const link = linkOf(place);
      if (!link) return false;
      const way = offer(place);
      if (way) way.run();
      else status.say(refusal(link), "error");
      return true;
    },
    fault(place, value) {
      const check = checkOf(place);
      if (!check || check.strictness === "none") return undefined;
      const formulas = formulasOf(check, place.row, place.column);
      if (check.kind === "custom" || formulas.some((formula) => isComputed(formula, place))) {
        void verify(check, place, value);
        return undefined;
      }
      const fault = checkFault(check, place, value, evaluateAt(place));
      if (fault !== undefined) doubted = { place, sentence: fault };
      return check.strictness === "stop" ? fault : undefined;
    },
  };
}
