import { cellAddress } from "../formula/address";
import { type SheetModel, WorkbookError } from "./model";

/** What is said where a written file is not what it was meant to be. */
export function proofFault(what: string): WorkbookError {
  return new WorkbookError(
    `nothing was written, because the result was not what it was meant to be: ${what}; please report this`,
  );
}

/** A cell as a sentence names it. */
export function cellWords(sheet: SheetModel, row: number, column: number): string {
  return `cell ${cellAddress(row, column)} of sheet "${sheet.name}"`;
}
