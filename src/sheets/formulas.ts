import { cellAddress } from "../formula/address";
import { ourFunction } from "../formula/names";
import { tokenize } from "../formula/tokens";
import { UNDERSCORE_STYLE } from "../functions/formula-style";
import type { ScriptFile, ScriptSheet } from "./apps-script";

/** A formula, with its equals sign, whose calls of ours are spelled as this host knows them. */
export function takenOver(formula: string): string {
  if (!formula.startsWith("=")) return formula;
  const tokens = tokenize(formula.slice(1));
  const spelled = tokens.map(({ kind, text }) => {
    const ours = kind === "call" ? ourFunction(text) : undefined;
    return ours === undefined ? text : `${UNDERSCORE_STYLE.prefix}${ours}`;
  });
  return `=${spelled.join("")}`;
}

/** True where a formula calls a function of ours in this host's spelling. */
export function callsOurs(formula: string): boolean {
  if (!formula.startsWith("=")) return false;
  return tokenize(formula.slice(1)).some(
    ({ kind, text }) => kind === "call" && ourFunction(text) !== undefined,
  );
}

/** A formula cell of the file, with where it stands. */
interface FormulaCell {
  readonly sheet: ScriptSheet;
  readonly address: string;
  readonly formula: string;
}

function formulaCells(file: ScriptFile): readonly FormulaCell[] {
  return file.getSheets().flatMap((sheet) => {
    const range = sheet.getDataRange();
    const [top, left] = [range.getRow() - 1, range.getColumn() - 1];
    return range
      .getFormulas()
      .flatMap((row, down) =>
        row.flatMap((formula, across) =>
          formula === "" ? [] : [{ sheet, address: cellAddress(top + down, left + across), formula }],
        ),
      );
  });
}

/** Respells every call of ours that came from an Excel file. Gives how many cells changed. */
export function takeOverFormulas(file: ScriptFile): number {
  let changed = 0;
  for (const { sheet, address, formula } of formulaCells(file)) {
    const spelled = takenOver(formula);
    if (spelled === formula) continue;
    sheet.getRange(address).setFormula(spelled);
    changed += 1;
  }
  return changed;
}

/**
 * Makes every formula of ours compute again: results of an older script stay until a formula's text changes, so a closing
 * space comes or goes. A formula is never taken away in between. Gives how many there are.
 */
export function recalculate(file: ScriptFile): number {
  const ours = formulaCells(file).filter(({ formula }) => callsOurs(formula));
  for (const { sheet, address, formula } of ours) {
    sheet.getRange(address).setFormula(formula.endsWith(" ") ? formula.trimEnd() : `${formula} `);
  }
  return ours.length;
}
