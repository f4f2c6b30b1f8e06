import { cellAddress, rangeAddress } from "../formula/address";
import { healedTypedFormula } from "../formula/heal";
import { ourFunction } from "../formula/names";
import { tokenize } from "../formula/tokens";
import { UNDERSCORE_STYLE } from "../functions/formula-style";
import { keptRange, type KeptFormula, type KeptValue } from "../partner/kept-formulas";
import { KEPT_SHEET, readKeptSheet } from "../partner/kept-sheet";
import { whyLeft } from "../partner/rule";
import type { ScriptFile, ScriptSheet } from "./apps-script";
import { isDate, serialOf } from "./dates";

/** A formula, with its equals sign, whose calls of ours are spelled as this host knows them. */
export function takenOver(formula: string): string {
  if (!formula.startsWith("=")) return formula;
  const tokens = tokenize(healedTypedFormula(formula.slice(1)));
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

/** What putting kept formulas back did: nothing is kept where `isCopy` is false. */
export interface RestoredFormulas {
  readonly isCopy: boolean;
  readonly formulas: number;
  /** Cells that stay values, and why. */
  readonly left: readonly string[];
}

/** A value as it is kept: blank is the empty text, a date its serial number. */
function keptValue(value: unknown): KeptValue {
  return isDate(value) ? serialOf(value) : (value as KeptValue);
}

function putOneBack(kept: KeptFormula, sheet: ScriptSheet | undefined): string | undefined {
  if (sheet === undefined) return "its sheet is gone or has another name";
  const range = sheet.getRange(rangeAddress(keptRange(kept)));
  const why = whyLeft(kept, {
    formulas: range
      .getFormulas()
      .flat()
      .filter((formula) => formula !== "")
      .map((formula) => formula.slice(1)),
    values: range.getValues().map((row) => row.map(keptValue)),
  });
  if (why !== undefined) return why;
  // Values in the way would block the spill.
  range.clearContent();
  sheet.getRange(cellAddress(kept.row, kept.column)).setFormula(takenOver(kept.formula));
  return undefined;
}

/** Puts the formulas of a partner's copy back where their cells hold the values of the copy still. The list stays. */
export function restoreFormulas(file: ScriptFile): RestoredFormulas {
  const byName = new Map(file.getSheets().map((sheet) => [sheet.getName(), sheet]));
  const list = byName.get(KEPT_SHEET);
  const kept = list && readKeptSheet(list.getDataRange().getValues());
  if (kept === undefined) return { isCopy: false, formulas: 0, left: [] };
  const left = kept.formulas.flatMap((formula) => {
    const why = putOneBack(formula, byName.get(formula.sheet));
    const place = `${formula.sheet}!${cellAddress(formula.row, formula.column)}`;
    return why === undefined ? [] : [`${place} stays a value: ${why}`];
  });
  return { isCopy: true, formulas: kept.formulas.length - left.length, left };
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
