import {
  cellAddress,
  type CellPosition,
  type CellRange,
  contains,
  MAX_COLUMNS,
  MAX_ROWS,
  MAX_TEXT,
  rangeAddress,
} from "../formula/address";
import { type CellFormula, type CellValue, WorkbookError } from "./model";
import { type ElementWriter, escapeText } from "./xml";
import { encodeXstring } from "./xstring";

/** Characters that a formula can have in Excel. */
const MAX_FORMULA = 8_192;

/** Errors that every Excel reads; newer ones are kept by Excel itself as `#VALUE!` with a richer value elsewhere. */
const STORED_ERRORS = ["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#GETTING_DATA"];

/** What is to be written into one cell. */
export interface CellContent {
  readonly value?: CellValue;
  readonly formula?: CellFormula | null;
  readonly range?: CellRange;
}

/** Throws WorkbookError for what a cell cannot hold; `sheet` is the sheet's name for the sentence. */
export function checkContent(sheet: string, place: CellPosition, content: CellContent): void {
  const { value, formula } = content;
  if (!isOnSheet(place.row, place.column)) {
    throw new WorkbookError(`a cell to be written on sheet "${sheet}" lies outside the sheet`);
  }
  const refuse = (why: string): never => {
    throw new WorkbookError(`cell ${cellAddress(place.row, place.column)} of sheet "${sheet}" ${why}`);
  };
  if (typeof value === "number" && !Number.isFinite(value)) refuse("cannot hold a number that is not finite");
  if (typeof value === "string" && value.length > MAX_TEXT) {
    refuse(`cannot hold a text of ${String(value.length)} characters: Excel allows ${String(MAX_TEXT)}`);
  }
  const range = content.range ?? formula?.range;
  if (range !== undefined) {
    const beginsHere = range.firstRow === place.row && range.firstColumn === place.column;
    const isWhole =
      isOnSheet(range.lastRow, range.lastColumn) && contains(range, range.lastRow, range.lastColumn);
    if (!beginsHere || !isWhole) refuse("cannot fill a range that does not begin in it");
  }
  if (formula === undefined || formula === null) return;
  const { text, kind } = formula;
  if (kind === "dataTable") refuse("cannot be made a what-if table");
  if (text.trim() === "" || text.startsWith("=")) refuse("needs a formula without its equals sign");
  if (text.length > MAX_FORMULA) {
    refuse(`cannot hold a formula of ${String(text.length)} characters: Excel allows ${String(MAX_FORMULA)}`);
  }
}

/** Markup of a formula; empty where there is none. */
export function formulaMarkup(
  owner: ElementWriter,
  place: CellPosition,
  formula: CellFormula | undefined,
): string {
  if (formula === undefined) return "";
  const text = escapeText(encodeXstring(formula.text));
  if (formula.kind === "normal") return owner.wrap("f", "", text);
  const ref =
    formula.range === undefined ? cellAddress(place.row, place.column) : rangeAddress(formula.range);
  return owner.wrap("f", `t="array" ref="${ref}"`, text);
}

/** Type and markup of a value: text stays inside the cell, so that the table of shared texts does not change. */
export function valueMarkup(
  owner: ElementWriter,
  value: CellValue,
  isResult: boolean,
): { readonly type: string | null; readonly markup: string } {
  const inside = (text: string): string => owner.wrap("v", "", text);
  switch (typeof value) {
    case "number":
      return { type: null, markup: inside(writeNumber(value)) };
    case "boolean":
      return { type: "b", markup: inside(value ? "1" : "0") };
    case "string": {
      const text = escapeText(encodeXstring(value));
      const space = /^\s|\s$/.test(value) ? 'xml:space="preserve"' : "";
      return isResult
        ? { type: "str", markup: owner.wrap("v", space, text) }
        : { type: "inlineStr", markup: owner.wrap("is", "", owner.wrap("t", space, text)) };
    }
    default:
      return value === null
        ? { type: null, markup: "" }
        : { type: "e", markup: inside(escapeText(storedError(value.error))) };
  }
}

/** An error's text as files keep it. */
export function storedError(error: string): string {
  return STORED_ERRORS.includes(error) ? error : "#VALUE!";
}

/** The shortest text that reads back as the same number. */
function writeNumber(value: number): string {
  return String(value === 0 ? 0 : value).toUpperCase();
}

function isOnSheet(row: number, column: number): boolean {
  const isWhole = Number.isInteger(row) && Number.isInteger(column);
  return isWhole && row >= 0 && column >= 0 && row < MAX_ROWS && column < MAX_COLUMNS;
}
