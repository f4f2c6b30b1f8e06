import { parseRange, splitSheet } from "../workbook/address";
import type { CellRange, DefinedName } from "../workbook/model";

/** A rectangle on a sheet. */
export interface SheetRange {
  readonly sheet: number;
  readonly range: CellRange;
}

/**
 * The cells behind a reference such as `B2:C9`, `'Price list'!B:B` or a name of the workbook; undefined for an
 * expression, a part of a table and a name that stands for more than cells.
 */
export function cellsBehind(
  reference: string,
  activeSheet: number,
  sheetNames: readonly string[],
  names: readonly DefinedName[],
): SheetRange | undefined {
  const { sheet, rest } = splitSheet(reference.trim());
  const range = parseRange(rest);
  const position =
    sheet === undefined
      ? activeSheet
      : sheetNames.findIndex((name) => name.toLowerCase() === sheet.toLowerCase());
  if (range !== undefined) return position < 0 ? undefined : { sheet: position, range };
  const known = names.filter(({ name }) => name.toLowerCase() === rest.toLowerCase());
  const found =
    known.find((name) => name.sheet === position) ?? known.find((name) => name.sheet === undefined);
  // The text of a name is a reference itself, never another name here, so that this ends.
  return found === undefined || found.text === reference
    ? undefined
    : cellsBehind(found.text, activeSheet, sheetNames, []);
}
