import { rangeAddress } from "../formula/address";
import type { DefinedName, TableModel } from "../workbook/model";
import type { SheetRange } from "./rectangles";

/** A piece of a formula as the engine takes it: a text, an address, or the present spill of the cell there. */
export type FormulaPart = string | { readonly address: string } | { readonly spillOf: SheetRange };

/** A formula as the engine takes it, with what it reads. */
export interface Translation {
  /** The formula without equals sign. */
  readonly parts: readonly FormulaPart[];
  /** What it reads, as far as its text says. */
  readonly reads: readonly SheetRange[];
  /** Functions called, in capitals and without marks. */
  readonly calls: ReadonlySet<string>;
  /** Why the engine cannot compute it. */
  readonly problem?: string;
  /** Whether it cannot be computed only because something in it has a name that is not known here. */
  readonly isUnknown?: boolean;
  /** Cells that ranges lost because whole columns and rows are read up to the part in use only, by `rangeKey`. */
  readonly shortened?: ReadonlyMap<string, number>;
}

/** What formulas can name. */
export interface FormulaContext {
  readonly sheetNames: readonly string[];
  readonly names: readonly DefinedName[];
  readonly tables: readonly TableModel[];
  /** Whole columns and rows are read up to here. */
  readonly lastRow: number;
  readonly lastColumn: number;
  knowsFunction(name: string): boolean;
}

/** Where a formula stands. */
export interface Place {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** The engine's name of a sheet: free of quotes, whatever the sheet is called. */
export function engineSheetName(sheet: number): string {
  return `sheet.${String(sheet)}.`;
}

/** A range as the engine writes it in a formula on `sheet`. */
export function addressFor(sheet: number, range: SheetRange): string {
  const prefix = range.sheet === sheet ? "" : `${engineSheetName(range.sheet)}!`;
  return prefix + rangeAddress(range);
}

/** Names written out in all: no formula of a person needs more. */
export const MAX_NAMES = 500;
/** Characters of a formula: Excel takes 8192 as typed, and its marks come on top. */
export const MAX_FORMULA = 2 ** 15;
/** Cells that one formula may read: far more than a sheet of ours needs, far less than hangs. */
export const MAX_CELLS_READ = 2 ** 21;
export const READS_TOO_MUCH = "it reads too many cells";
/** Stands among the calls of a formula that makes a range of two results. */
export const RANGE_OPERATOR = ":";
/** The engine's name for a call of ours: `BLN.X` and its other spellings meet here. */
export function engineFunctionName(ours: string): string {
  return `BLN_${ours}`;
}

/** The engine counts days from 1900 only. */
const DATE_FUNCTIONS = new Set(
  `DATE DATEDIF DATEVALUE DAY DAYS360 EDATE EOMONTH ISOWEEKNUM MONTH NETWORKDAYS NETWORKDAYS.INTL NOW TODAY WEEKDAY
  WEEKNUM WORKDAY WORKDAY.INTL YEAR YEARFRAC TEXT`.split(/\s+/),
);

/** Tells why a formula of a workbook that counts days from 1904 cannot be computed; undefined where it can. */
export function dateProblem(calls: ReadonlySet<string>): string | undefined {
  const found = [...calls].find((name) => DATE_FUNCTIONS.has(name));
  return found && `${found} is not computed in a workbook whose dates count from 1904`;
}
