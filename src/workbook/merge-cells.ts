import { type CellRange, contains, rangeAddress } from "../formula/address";
import { type CellChange, WorkbookError } from "./model";
import { openWorkbook } from "./read";
import { applyEdits, scanXml, type XmlElement } from "./xml";

/** Elements of a worksheet that come before its merged cells (ECMA-376 part 1, 18.3.1.99). */
const BEFORE_MERGES = new Set(
  `sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetCalcPr sheetProtection protectedRanges scenarios
  autoFilter sortState dataConsolidate customSheetViews`.split(/\s+/),
);

/**
 * The file with the cells of a rectangle merged, its first cell's content kept and the others' dropped, or with every
 * merge that touches the rectangle taken apart. Throws WorkbookError where a merge or a table is in the way.
 */
export function mergeCells(
  bytes: Uint8Array,
  position: number,
  range: CellRange,
  isMerged: boolean,
): Uint8Array {
  const opened = openWorkbook(bytes);
  const sheet = opened.model.sheets[position];
  if (sheet === undefined) throw new WorkbookError(`the workbook has no sheet ${String(position + 1)}`);
  const touched = sheet.merges.filter((merge) => isTouching(merge, range));
  if (!isMerged)
    return withMerges(
      bytes,
      position,
      sheet.merges.filter((merge) => !touched.includes(merge)),
    );
  if (range.firstRow === range.lastRow && range.firstColumn === range.lastColumn)
    throw new WorkbookError("merging takes more than one cell");
  const isCut = touched.some(
    (merge) =>
      !contains(range, merge.firstRow, merge.firstColumn) ||
      !contains(range, merge.lastRow, merge.lastColumn),
  );
  if (isCut) throw new WorkbookError("a merged cell reaches beyond the selection");
  const table = opened.model.tables.find(
    (candidate) => candidate.sheet === position && isTouching(candidate.range, range),
  );
  if (table !== undefined) throw new WorkbookError(`cells of the table ${table.name} cannot be merged`);
  const dropped = sheet.cells.flatMap(({ row, column, value, formula }): CellChange[] => {
    const isFirst = row === range.firstRow && column === range.firstColumn;
    if (isFirst || !contains(range, row, column) || (value === null && formula === undefined)) return [];
    return [{ sheet: position, row, column, value: null, formula: null }];
  });
  const kept = sheet.merges.filter((merge) => !touched.includes(merge));
  return withMerges(dropped.length === 0 ? bytes : opened.patched(dropped), position, [...kept, range]);
}

function isTouching(a: CellRange, b: CellRange): boolean {
  return (
    a.firstRow <= b.lastRow &&
    b.firstRow <= a.lastRow &&
    a.firstColumn <= b.lastColumn &&
    b.firstColumn <= a.lastColumn
  );
}

function withMerges(bytes: Uint8Array, position: number, merges: readonly CellRange[]): Uint8Array {
  const { model, parts: opened } = openWorkbook(bytes);
  const part = model.sheets[position]?.part ?? "";
  const parts = opened.copy();
  const text = parts.readText(part);
  let list: XmlElement | undefined;
  let before: XmlElement | undefined;
  scanXml(text, part, {
    close(element) {
      if (element.parent?.is("worksheet") !== true) return;
      if (element.is("mergeCells")) list = element;
      else if (BEFORE_MERGES.has(element.local)) before = element;
    },
  });
  const owner = list ?? before;
  if (owner === undefined) return bytes;
  const cells = merges.map((merge) => owner.wrap("mergeCell", `ref="${rangeAddress(merge)}"`, "")).join("");
  const markup =
    merges.length === 0 ? "" : owner.wrap("mergeCells", `count="${String(merges.length)}"`, cells);
  const edit =
    list === undefined
      ? { start: owner.end, end: owner.end, text: markup }
      : { start: list.start, end: list.end, text: markup };
  parts.writeText(part, applyEdits(text, [edit]));
  return parts.toBytes();
}
