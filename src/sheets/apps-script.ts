/** The few things of Apps Script that the menu and the sidebar use. */

export interface ScriptRange {
  getA1Notation(): string;
  getRow(): number;
  getColumn(): number;
  getNumRows(): number;
  getNumColumns(): number;
  getFormula(): string;
  getFormulas(): string[][];
  getValues(): unknown[][];
  getDisplayValue(): string;
  getSheet(): ScriptSheet;
  setFormula(formula: string): unknown;
  clearContent(): unknown;
}

export interface ScriptSheet {
  getName(): string;
  getDataRange(): ScriptRange;
  getRange(a1: string): ScriptRange;
}

export interface ScriptFile {
  getSheets(): ScriptSheet[];
  getActiveSheet(): ScriptSheet;
  getActiveRange(): ScriptRange | null;
  getRange(a1: string): ScriptRange;
  getSpreadsheetLocale(): string;
  toast(message: string, title?: string): unknown;
}

interface ScriptMenu {
  addItem(caption: string, functionName: string): ScriptMenu;
  addSeparator(): ScriptMenu;
  addToUi(): unknown;
}

export interface ScriptServices {
  readonly SpreadsheetApp: {
    getActive(): ScriptFile;
    getUi(): { createMenu(caption: string): ScriptMenu; showSidebar(page: unknown): unknown };
    flush(): void;
  };
  readonly HtmlService: {
    createHtmlOutputFromFile(name: string): { setTitle(title: string): unknown };
  };
}
