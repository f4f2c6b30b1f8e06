import { cellAddress } from "../formula/address";
import { type CellPlace, isTypedFormula } from "../sheet/engine";
import { commaLook, type Look } from "./comma-look";
import { formulaFault, type FormulaFault } from "./formula-fault";
import { FUNCTION_NAMES } from "./function-names";
import type { Edit, FailedCell, ShownCell } from "./messages";
import { placeNumber } from "../sheet/place-number";

/** What a cell shows and what is wrong with it. */
export interface CellRemark {
  readonly sentence: string;
  readonly isFault: boolean;
  /** A formula to put in place of the one that cannot be meant so. */
  readonly suggestion?: string;
}

interface Faulty extends CellPlace {
  readonly text: string;
  readonly fault: FormulaFault;
}

/** The formula that an edit puts into its cell; undefined for a constant. */
export function editedFormula({ input }: Edit): string | undefined {
  return isTypedFormula(input) ? input.formula : undefined;
}

/** The typed formulas of a workbook that cannot be meant as they stand, and those that may not be. */
export class TypedFormulas {
  private readonly faults = new Map<number, Faulty>();
  private readonly looks = new Map<number, CellPlace & { readonly look: Look }>();

  /** Takes up an edit; what is wrong with its formula, where something is. */
  take(edit: Edit, names: readonly string[], decimal: string): FormulaFault | undefined {
    const { sheet, row, column } = edit;
    const key = placeNumber(edit);
    this.faults.delete(key);
    this.looks.delete(key);
    const text = editedFormula(edit);
    if (text === undefined) return undefined;
    const fault = formulaFault(text, { functions: FUNCTION_NAMES, names });
    const look = !fault && decimal === "," ? commaLook(text) : undefined;
    if (look) this.looks.set(key, { sheet, row, column, look });
    if (fault) this.faults.set(key, { sheet, row, column, text, fault });
    return fault;
  }

  /** What is to be said about a cell; `text` is what it shows. */
  remark(place: CellPlace, text: string): CellRemark | undefined {
    const address = cellAddress(place.row, place.column);
    const faulty = this.faults.get(placeNumber(place));
    if (faulty) {
      const { sentence, suggestion } = faulty.fault;
      const meant = suggestion === undefined ? {} : { suggestion };
      return { sentence: `${address} ${faulty.text} is not computed: ${sentence}`, isFault: true, ...meant };
    }
    const look = this.looks.get(placeNumber(place))?.look;
    return (
      look && {
        sentence: `${address} ${text}: ${look.sentence}`,
        isFault: false,
        suggestion: look.suggestion,
      }
    );
  }

  /** Formulas with an unknown name, which show themselves: they have no value, and an empty cell would hide them. */
  get shown(): readonly ShownCell[] {
    return [...this.faults.values()]
      .filter(({ fault }) => !fault.isBroken)
      .map(({ sheet, row, column, text }) => ({ sheet, row, column, value: text }));
  }

  get failing(): readonly FailedCell[] {
    const faults = [...this.faults.values()].map(({ sheet, row, column, fault }) => ({
      sheet,
      row,
      column,
      error: "not computed",
      sentence: fault.sentence,
    }));
    const looks = [...this.looks.values()].map(({ look, ...place }) => ({
      ...place,
      error: "please look",
      sentence: look.sentence,
    }));
    return [...faults, ...looks];
  }
}
