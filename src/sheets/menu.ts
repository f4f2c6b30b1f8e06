import type { ScriptFile, ScriptServices } from "./apps-script";
import { isDate, plainDate } from "./dates";
import { restoreFormulas, recalculate, takeOverFormulas } from "./formulas";

declare const SpreadsheetApp: ScriptServices["SpreadsheetApp"];
declare const HtmlService: ScriptServices["HtmlService"];

const MENU = "Balloon functions";

/** Caption and global function of each menu item; `code.ts` writes these functions. */
export const MENU_ITEMS = {
  blnFind: "Find a function",
  blnTakeOver: "Take over formulas from Excel",
  blnPutBack: "Put kept formulas back",
  blnRecalculate: "Recalculate",
} as const;

/** Adds the menu when the file opens. */
export function addMenu(): void {
  const menu = SpreadsheetApp.getUi().createMenu(MENU);
  for (const [name, caption] of Object.entries(MENU_ITEMS)) menu.addItem(caption, name);
  menu.addToUi();
}

function say(file: ScriptFile, text: string): void {
  file.toast(text, MENU);
}

const counted = (count: number, what: string): string => `${count} ${count === 1 ? what : `${what}s`}`;

/** Opens the sidebar. */
export function blnFind(): void {
  const page = HtmlService.createHtmlOutputFromFile("Sidebar").setTitle(MENU);
  SpreadsheetApp.getUi().showSidebar(page);
}

export function blnTakeOver(): void {
  const file = SpreadsheetApp.getActive();
  say(file, `${counted(takeOverFormulas(file), "formula")} taken over`);
}

export function blnPutBack(): void {
  const file = SpreadsheetApp.getActive();
  const { isCopy, formulas, left } = restoreFormulas(file);
  if (!isCopy) say(file, "This workbook is not a partner's copy: it keeps no formulas");
  else say(file, [`${counted(formulas, "formula")} put back`, ...left].join("\n"));
}

export function blnRecalculate(): void {
  const file = SpreadsheetApp.getActive();
  say(file, `${counted(recalculate(file), "formula")} computed again`);
}

/** What the sidebar must know of the file: how it writes numbers. */
export function blnFile(): { readonly locale: string } {
  return { locale: SpreadsheetApp.getActive().getSpreadsheetLocale() };
}

/** The selection as a reference, with its sheet. */
export function blnSelection(): string {
  const range = SpreadsheetApp.getActive().getActiveRange();
  if (range === null) return "";
  return `'${range.getSheet().getName().replaceAll("'", "''")}'!${range.getA1Notation()}`;
}

/** Values behind a reference, blank as null and dates as the functions read them, which can leave the script. */
export function blnValues(reference: string): (number | string | boolean | null)[][] | undefined {
  let values: unknown[][];
  try {
    values = SpreadsheetApp.getActive().getRange(reference).getValues();
  } catch {
    return undefined;
  }
  return values.map((row) =>
    row.map((value) => {
      if (isDate(value)) return plainDate(value);
      return value === "" ? null : (value as number | string | boolean);
    }),
  );
}

/** Puts a formula into the selected cell; a filled one is replaced only where `isSure`. */
export function blnInsert(
  formula: string,
  isSure: boolean,
): { readonly message: string; readonly asks: boolean } {
  const range = SpreadsheetApp.getActive().getActiveRange();
  if (range === null) return { message: "Select a cell first", asks: false };
  const cell = range.getSheet().getRange(range.getA1Notation().split(":")[0] ?? "A1");
  const label = `${range.getSheet().getName()}!${cell.getA1Notation()}`;
  const content = cell.getFormula() || cell.getDisplayValue();
  if (content !== "" && content !== formula && !isSure)
    return { message: `${label} holds ${content}: press again to replace it`, asks: true };
  cell.setFormula(formula);
  return { message: `Put in ${label}`, asks: false };
}
