import { cellAddress, MAX_COLUMNS, MAX_ROWS, parseCell, rowIndex } from "../formula/address";
import { WorkbookError } from "./model";
import { scanXml, type XmlElement } from "./xml";

/** A cell as the sheet's part holds it. */
export interface ScannedCell {
  readonly row: number;
  readonly column: number;
  readonly element: XmlElement;
  readonly formula: XmlElement | undefined;
  readonly value: XmlElement | undefined;
  /** Text inside the cell: its element, and what it says without phonetic hints. */
  readonly inline: XmlElement | undefined;
  readonly inlineText: string;
  /** Other children, such as extensions. */
  readonly others: readonly XmlElement[];
}

export interface ScannedRow {
  readonly index: number;
  readonly element: XmlElement;
  readonly cells: readonly ScannedCell[];
}

/** Called in document order; `open` for everything outside the rows. */
export interface SheetVisitor {
  row(row: ScannedRow): void;
  open?(element: XmlElement): void;
  close?(element: XmlElement): void;
}

const NO_ELEMENTS: readonly XmlElement[] = [];

/** Walks over a worksheet. Throws WorkbookError for a damaged one; `name` is the sheet's name for the sentence. */
export function scanSheet(xml: string, part: string, name: string, visitor: SheetVisitor): void {
  /** Rows so far, kept only where they are not in order. */
  let rows: Set<number> | undefined;
  const indexes: number[] = [];
  let rowElement: XmlElement | undefined;
  let row = -1;
  let cells: ScannedCell[] = [];
  /** Columns of the row so far, kept only where they are not in order. */
  let columns: Set<number> | undefined;
  let column = -1;
  let lastColumn = -1;
  let cellElement: XmlElement | undefined;
  let formula: XmlElement | undefined;
  let value: XmlElement | undefined;
  let inline: XmlElement | undefined;
  let inlineText = "";
  let others: XmlElement[] | undefined;

  scanXml(xml, part, {
    open(element) {
      if (rowElement === undefined) {
        if (element.is("row") && element.parent?.is("sheetData") === true) {
          rowElement = element;
          row = rowPlace(element);
          cells = [];
          columns = undefined;
          column = lastColumn = -1;
        } else visitor.open?.(element);
      } else if (element.parent === rowElement && element.is("c")) {
        cellElement = element;
        column = cellPlace(element);
        formula = value = inline = undefined;
        inlineText = "";
        others = undefined;
      }
    },
    close(element) {
      if (rowElement === undefined) visitor.close?.(element);
      else if (element === rowElement) {
        visitor.row({ index: row, element, cells });
        rowElement = undefined;
      } else if (element === cellElement) {
        cells.push({
          row,
          column,
          element,
          formula,
          value,
          inline,
          inlineText,
          others: others ?? NO_ELEMENTS,
        });
        cellElement = undefined;
      } else if (element.parent === cellElement && cellElement !== undefined) {
        if (element.is("f")) formula = element;
        else if (element.is("v")) value = element;
        else if (element.is("is")) inline = element;
        else (others ??= []).push(element);
      } else inlineText += richTextOf(element) ?? "";
    },
  });

  function rowPlace(element: XmlElement): number {
    const reference = element.get("r");
    const index = reference === undefined ? row + 1 : rowIndex(reference);
    if (index === undefined || index >= MAX_ROWS) {
      throw new WorkbookError(`the file is damaged: sheet "${name}" has a row outside the sheet`);
    }
    if (rows === undefined && index <= (indexes.at(-1) ?? -1)) rows = new Set(indexes);
    if (rows?.has(index) === true) {
      throw new WorkbookError(`the file is damaged: sheet "${name}" has row ${String(index + 1)} twice`);
    }
    indexes.push(index);
    rows?.add(index);
    return index;
  }

  function cellPlace(element: XmlElement): number {
    const reference = element.get("r");
    const place = reference === undefined ? { row, column: column + 1 } : parseCell(reference);
    if (place?.row !== row || place.column >= MAX_COLUMNS) {
      throw new WorkbookError(
        `the file is damaged: sheet "${name}" has a cell in row ${String(row + 1)} that belongs elsewhere`,
      );
    }
    if (place.column > lastColumn) {
      lastColumn = place.column;
      columns?.add(lastColumn);
      return lastColumn;
    }
    columns ??= new Set(cells.map((cell) => cell.column));
    if (columns.has(place.column)) {
      const address = cellAddress(row, place.column);
      throw new WorkbookError(`the file is damaged: sheet "${name}" has cell ${address} twice`);
    }
    columns.add(place.column);
    return place.column;
  }
}

/** Whether a cell has a formula without text, as cells have that an array formula elsewhere fills. */
export function isFillMark({ formula }: ScannedCell): boolean {
  return formula !== undefined && formula.text === "" && (formula.get("t") ?? "normal") === "normal";
}

/** The text that an element adds to a rich text: that of a run or of plain text, never that of a phonetic hint. */
export function richTextOf(element: XmlElement): string | undefined {
  return element.is("t") && element.parent?.is("rPh") !== true ? contentText(element) : undefined;
}

/** Text of an element; white space at its ends counts only where the file says so. */
export function contentText(element: XmlElement): string {
  const { text } = element;
  let start = 0;
  let end = text.length;
  while (start < end && isSpace(text.charCodeAt(start))) start++;
  while (end > start && isSpace(text.charCodeAt(end - 1))) end--;
  return end - start === text.length || element.keepsSpace() ? text : text.slice(start, end);
}

function isSpace(code: number): boolean {
  return code === 32 || code === 9 || code === 10;
}
