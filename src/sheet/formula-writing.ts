import type { FormulaWriting } from "../workbook/partner-copy";
import { fileFormula, ourFunction, typedFormula } from "../formula/names";
import { tokenize } from "../formula/tokens";

/** How a partner's copy tells our formulas from others, and how it writes them. */
export const formulaWriting: FormulaWriting = {
  isOurs: (formula) =>
    tokenize(formula).some(({ kind, text }) => kind === "call" && ourFunction(text) !== undefined),
  typed: typedFormula,
  stored: fileFormula,
};
