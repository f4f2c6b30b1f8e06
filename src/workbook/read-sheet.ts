import { cellAddress, type CellRange, parseCell, parseRange } from "../formula/address";
import { type SheetModel, type WorkbookCell, WorkbookError } from "./model";
import type { WorkbookPackage } from "./package";
import { type CellReader, rangeOf } from "./read-cell";
import { richTextOf, scanSheet } from "./sheet-scan";
import { undrawnElement } from "./undrawn";
import type { ValuePlaces } from "./value-places";
import { scanXml, type XmlElement } from "./xml";
import { decodeXstring } from "./xstring";

/** Rows between two reports of how far a sheet is read. */
const PROGRESS_ROWS = 500;

/**
 * Reads one worksheet. Throws WorkbookError for a damaged one.
 *
 * @param places takes where the values stand
 * @param onProgress told the share of the sheet's part that is read, from 0 to 1
 */
export function readSheet(
  parts: WorkbookPackage,
  part: string,
  name: string,
  state: SheetModel["state"],
  reader: CellReader,
  places: ValuePlaces | undefined,
  onProgress?: (share: number) => void,
): SheetModel {
  const cells: WorkbookCell[] = [];
  const merges: CellRange[] = [];
  const columnWidths = new Map<number, number>();
  const hiddenColumns = new Set<number>();
  const rowHeights = new Map<number, number>();
  const hiddenRows = new Set<number>();
  let frozenRows = 0;
  let frozenColumns = 0;
  let showGridLines = true;
  let isProtected = false;
  let filter: CellRange | undefined;
  let isFirstView = true;
  let lastColumn = 0;

  const onColumns = (element: XmlElement): void => {
    const first = element.number("min") ?? 0;
    const last = Math.min(element.number("max") ?? 0, 16_384);
    // Columns in order and apart, as the standard asks, keep the loop short whatever the file says.
    if (first <= lastColumn)
      throw new WorkbookError(`the file is damaged: sheet "${name}" lists a column twice`);
    lastColumn = Math.max(first, last);
    const width = element.number("width");
    for (let column = first - 1; column < last; column++) {
      if (width !== undefined) columnWidths.set(column, width);
      if (element.flag("hidden")) hiddenColumns.add(column);
    }
  };
  const onPane = (element: XmlElement): void => {
    if (!["frozen", "frozenSplit"].includes(element.get("state") ?? "")) return;
    frozenRows = element.number("ySplit") ?? 0;
    frozenColumns = element.number("xSplit") ?? 0;
  };
  let root: XmlElement | undefined;
  const undrawn = new Set<string>();
  const text = parts.readText(part);
  let rows = 0;
  reader.begin(name);
  scanSheet(text, part, name, {
    row(row) {
      if (++rows % PROGRESS_ROWS === 0) onProgress?.(row.element.start / text.length);
      const height = row.element.number("ht");
      if (height !== undefined) rowHeights.set(row.index, height);
      if (row.element.flag("hidden")) hiddenRows.add(row.index);
      for (const cell of row.cells) {
        cells.push(reader.read(cell));
        places?.add(cell);
      }
    },
    open(element) {
      root ??= element;
      const words = undrawnElement(element.local);
      if (words !== undefined) undrawn.add(words);
      if (element.is("col") && element.parent?.is("cols") === true) onColumns(element);
      else if (element.is("sheetView")) {
        if (isFirstView) showGridLines = element.flag("showGridLines", true);
      } else if (element.is("pane") && element.parent?.is("sheetView") === true) {
        if (isFirstView) onPane(element);
      } else if (element.is("mergeCell")) {
        reader.spend();
        merges.push(rangeOf(element, name));
      } else if (element.is("filterColumn") && element.parent?.is("autoFilter") === true) {
        filter = parseRange(element.parent.get("ref") ?? "");
      } else if (element.is("sheetProtection")) isProtected = element.flag("sheet");
    },
    close(element) {
      if (element.is("sheetView")) isFirstView = false;
    },
  });
  if (root?.is("worksheet") !== true) {
    throw new WorkbookError(`the file is damaged: the part of sheet "${name}" holds something else`);
  }
  return {
    name,
    part,
    state,
    cells,
    merges,
    columnWidths,
    rowHeights,
    hiddenColumns,
    hiddenRows,
    frozenRows,
    frozenColumns,
    showGridLines,
    isProtected,
    ...(filter === undefined ? {} : { filter }),
    notes: readNotes(parts, part),
    ...(undrawn.size > 0 && { undrawn }),
  };
}

function readNotes(parts: WorkbookPackage, sheetPart: string): ReadonlyMap<string, string> {
  const notes = new Map<string, string>();
  for (const part of parts.linked(sheetPart, "comments")) {
    if (!parts.has(part)) continue;
    let current = "";
    scanXml(parts.readText(part), part, {
      close(element) {
        if (element.is("comment")) {
          const place = parseCell(element.get("ref") ?? "");
          if (place !== undefined) notes.set(cellAddress(place.row, place.column), decodeXstring(current));
          current = "";
        } else current += richTextOf(element) ?? "";
      },
    });
  }
  return notes;
}
