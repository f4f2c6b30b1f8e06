import { cellAddress, type CellRange, parseRange } from "../formula/address";
import { parseFormula, shiftFormula, type FormulaTemplate } from "../formula/shift";
import { type CellFormula, type CellStyle, type CellValue, type WorkbookCell, WorkbookError } from "./model";
import { contentText, isFillMark, type ScannedCell } from "./sheet-scan";
import type { XmlElement } from "./xml";
import { decodeXstring } from "./xstring";

/** Cells and merged ranges that all sheets may hold together, so that a small hostile file cannot fill the memory. */
const MAX_CELLS = 2_000_000;
/** Characters that shared formulas may grow to when written out for all their cells. */
const MAX_SHARED_CHARACTERS = 2 ** 27;
/** A stored formula is longer than the 8,192 characters that Excel shows, but never by this much. */
const MAX_STORED_FORMULA = 2 ** 16;
/** Days from 1899-12-30, day 0 of the 1900 system from March 1900 on, to 1970-01-01; and to day 0 of the 1904 system. */
const EPOCH_1970 = 25_569;
const EPOCH_1904 = 1_462;

interface SharedFormula {
  readonly row: number;
  readonly column: number;
  readonly text: string;
  template?: FormulaTemplate;
}

/** Turns scanned cells into cells of the model. */
export class CellReader {
  private sheet = "";
  private shared = new Map<string, SharedFormula>();
  private sharedCharacters = 0;
  private count = 0;

  constructor(
    private readonly strings: readonly string[],
    private readonly marks: ReadonlySet<number>,
    private readonly date1904: boolean,
    private readonly styles: readonly CellStyle[],
  ) {}

  begin(sheet: string): void {
    this.sheet = sheet;
    this.shared = new Map();
  }

  /** Counts something that stays in memory. */
  spend(): void {
    if (++this.count > MAX_CELLS)
      throw new WorkbookError("the file is too large to open: it has too many cells");
  }

  read(cell: ScannedCell): WorkbookCell {
    this.spend();
    const { row, column } = cell;
    const given = cell.element.number("s") ?? 0;
    const style = this.styles[given] === undefined ? 0 : given;
    const value = this.readValue(cell);
    if (cell.formula === undefined) return { row, column, value, style };
    const formula = this.readFormula(cell, cell.formula);
    if (formula !== undefined) return { row, column, value, style, formula };
    return isFillMark(cell) ? { row, column, value, style, isFilled: true } : { row, column, value, style };
  }

  private readValue(cell: ScannedCell): CellValue {
    const type = cell.element.get("t") ?? "n";
    if (type === "inlineStr") return cell.inline === undefined ? null : decodeXstring(cell.inlineText);
    if (cell.value === undefined) return null;
    const text = contentText(cell.value);
    if (type === "str") return decodeXstring(text);
    const word = text.trim();
    if (word === "") return null;
    switch (type) {
      case "s": {
        const string = this.strings[Number(word)];
        if (string === undefined) throw this.damaged(cell, "refers to a text that is missing");
        return string;
      }
      case "b":
        return word === "1" || word === "true";
      case "e":
        return { error: word };
      case "d":
        return this.readDate(cell, word);
      case "n": {
        const number = Number(word);
        if (!Number.isFinite(number)) throw this.damaged(cell, "holds a number that cannot be read");
        return number === 0 ? 0 : number;
      }
      default:
        throw this.damaged(cell, "is of a kind that is unknown");
    }
  }

  private readDate(cell: ScannedCell, text: string): number {
    const time = Date.parse(/[Tt]/.test(text) && !/(?:[Zz]|[+-]\d\d:\d\d)$/.test(text) ? `${text}Z` : text);
    if (!Number.isFinite(time)) throw this.damaged(cell, "holds a date that cannot be read");
    return time / 86_400_000 + EPOCH_1970 - (this.date1904 ? EPOCH_1904 : 0);
  }

  private readFormula(cell: ScannedCell, element: XmlElement): CellFormula | undefined {
    const text = decodeXstring(element.text);
    const reference = element.get("ref");
    switch (element.get("t")) {
      case "array": {
        const isDynamic = this.marks.has(cell.element.number("cm") ?? 0);
        const range = reference === undefined ? undefined : rangeOf(element, this.sheet);
        return { text, kind: isDynamic ? "dynamic" : "array", ...(range === undefined ? {} : { range }) };
      }
      case "dataTable": {
        const [first = "", second = ""] = [element.get("r1"), element.get("r2")];
        const inputs = element.flag("dt2D")
          ? [first, second]
          : element.flag("dtr")
            ? [first, ""]
            : ["", first];
        const range = reference === undefined ? {} : { range: rangeOf(element, this.sheet) };
        return { text: `TABLE(${inputs.join(",")})`, kind: "dataTable", ...range };
      }
      case "shared":
        return { text: this.readShared(cell, element, text), kind: "normal" };
      default:
        return text === "" ? undefined : { text, kind: "normal" };
    }
  }

  private readShared(cell: ScannedCell, element: XmlElement, text: string): string {
    const index = element.get("si") ?? "";
    if (text !== "") {
      if (element.get("ref") !== undefined)
        this.shared.set(index, { row: cell.row, column: cell.column, text });
      return text;
    }
    const master = this.shared.get(index);
    if (master === undefined) throw this.damaged(cell, "shares a formula that is missing");
    if (master.text.length > MAX_STORED_FORMULA)
      throw this.damaged(cell, "shares a formula that is too long");
    master.template ??= parseFormula(master.text);
    const own = shiftFormula(master.template, cell.row - master.row, cell.column - master.column);
    this.sharedCharacters += own.length;
    if (this.sharedCharacters > MAX_SHARED_CHARACTERS) {
      throw new WorkbookError("the file is too large to open: its formulas unpack to more than the limit");
    }
    return own;
  }

  private damaged(cell: ScannedCell, what: string): WorkbookError {
    const address = cellAddress(cell.row, cell.column);
    return new WorkbookError(`the file is damaged: cell ${address} of sheet "${this.sheet}" ${what}`);
  }
}

/** The range that an element names; `where` names the place for the sentence. Throws WorkbookError where it is none. */
export function rangeOf(element: XmlElement, where: string): CellRange {
  const range = parseRange(element.get("ref") ?? "");
  if (range === undefined)
    throw new WorkbookError(`the file is damaged: a range in "${where}" cannot be read`);
  return range;
}
