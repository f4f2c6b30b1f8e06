import { type AxisShift, lengthOf, movedIndex, movedRange } from "../formula/axis-shift";
import { cellAddress, parseRange, rangeAddress } from "../formula/address";
import { type CellChange, type SheetModel, WorkbookError, type WorkbookModel } from "./model";
import { type LostColumns, movedFormula, type SheetShift } from "./moved-formula";
import type { WorkbookPackage } from "./package";
import { openWorkbook } from "./read";
import { shiftSheetPart } from "./shift-sheet-part";
import { type ShiftedTable, shiftTable, shiftTableFormulas } from "./table-shift";
import { findWorkbookPart } from "./workbook-part";
import { NAMESPACES } from "./namespaces";
import { applyEdits, escapeText, readXml, scanXml, type XmlEdit, type XmlElement } from "./xml";
import { decodeXstring, encodeXstring } from "./xstring";

/**
 * The file with rows or columns of one sheet inserted, deleted or moved, and everything that speaks of cells moved with
 * them: formulas, names, tables, formats and checks by condition, merged cells, notes, drawings, charts, pivot sources.
 * Throws WorkbookError where Excel would refuse it too.
 */
export function shiftSheet(bytes: Uint8Array, position: number, shift: AxisShift): Uint8Array {
  const { model, parts: opened } = openWorkbook(bytes);
  const sheet = model.sheets[position];
  if (sheet === undefined) throw new WorkbookError(`the workbook has no sheet ${String(position + 1)}`);
  checkShift(sheet, shift);
  const parts = opened.copy();
  const change: SheetShift = { sheet: sheet.name, shift, lost: lostColumns(model, position, shift) };
  const tables = shiftTables(parts, model, position, change);
  const formulas = new Map(tables.flatMap((table) => [...table.formulas]));
  for (const [index, other] of model.sheets.entries()) {
    const text = parts.readText(other.part);
    const shifted = shiftSheetPart(text, other, change, index === position ? formulas : new Map());
    if (shifted !== text) parts.writeText(other.part, shifted);
  }
  const workbookPart = findWorkbookPart(parts);
  shiftNames(parts, workbookPart, change);
  shiftNotes(parts, sheet, shift);
  shiftDrawings(parts, sheet, shift);
  shiftCharts(parts, change);
  shiftPivots(parts, workbookPart, sheet, shift);
  for (const chain of parts.linked(workbookPart, "calcChain")) parts.remove(chain, workbookPart);
  const shifted = parts.toBytes();
  const headings = tables.flatMap((table) => table.headings);
  const spilled = spilledValues(model, position, shift);
  if (headings.length + spilled.length === 0) return shifted;
  const after = openWorkbook(shifted);
  const taken = new Set(
    after.model.sheets[position]?.cells.flatMap(({ row, column, value }) =>
      value === null ? [] : [cellAddress(row, column)],
    ),
  );
  // What moved into the way of a spill stays: the spill will say so itself.
  const free = spilled.filter(({ row, column }) => !taken.has(cellAddress(row, column)));
  return after.patched([...headings, ...free]);
}

function checkShift(sheet: SheetModel, shift: AxisShift): void {
  const { axis, at, count } = shift;
  const length = lengthOf(axis);
  const isWithin =
    Number.isInteger(at) && Number.isInteger(count) && at >= 0 && count > 0 && at + count <= length;
  if (!isWithin) throw new WorkbookError(`the sheet "${sheet.name}" has no such ${axis}s`);
  if (sheet.isProtected) throw new WorkbookError(`the sheet "${sheet.name}" is protected`);
  if (shift.kind === "move") {
    const isTarget = Number.isInteger(shift.to) && shift.to >= 0 && shift.to <= length;
    if (!isTarget || (shift.to > at && shift.to < at + count))
      throw new WorkbookError(`${axis}s cannot be moved into themselves`);
  }
  if (shift.kind !== "insert") return;
  const isPushedOut = sheet.cells.some(
    (cell) => cell[axis] >= length - count && (cell.value !== null || cell.formula !== undefined),
  );
  if (isPushedOut)
    throw new WorkbookError(
      `the last ${axis}s of the sheet "${sheet.name}" hold something: empty them first`,
    );
}

function lostColumns(model: WorkbookModel, position: number, shift: AxisShift): readonly LostColumns[] {
  return model.tables.flatMap(({ sheet, name, range, columns }): readonly LostColumns[] => {
    if (sheet !== position || shift.kind !== "delete") return [];
    if (movedRange(shift, range) === undefined) return [{ table: name, columns, isWhole: true }];
    if (shift.axis !== "column") return [];
    const lost = columns.filter((_, index) => movedIndex(shift, range.firstColumn + index) === undefined);
    return lost.length === 0 ? [] : [{ table: name, columns: lost, isWhole: false }];
  });
}

function shiftTables(
  parts: WorkbookPackage,
  model: WorkbookModel,
  position: number,
  change: SheetShift,
): readonly ShiftedTable[] {
  return model.sheets.flatMap((sheet, index) =>
    parts.linked(sheet.part, "table").flatMap((part): readonly ShiftedTable[] => {
      const text = parts.readText(part);
      const name = decodeXstring(readXml(text, part).get("displayName") ?? "");
      const table = model.tables.find((candidate) => candidate.sheet === index && candidate.name === name);
      if (table === undefined) return [];
      if (index !== position) {
        const moved = shiftTableFormulas(text, part, change, sheet.name);
        if (moved !== text) parts.writeText(part, moved);
        return [];
      }
      const shifted = shiftTable(text, part, table, change);
      if (shifted.xml === undefined) removeTable(parts, sheet, part);
      else if (shifted.xml !== text) parts.writeText(part, shifted.xml);
      return [shifted];
    }),
  );
}

function removeTable(parts: WorkbookPackage, sheet: SheetModel, part: string): void {
  const id = parts.relationships(sheet.part).find((link) => link.target === part)?.id;
  const text = parts.readText(sheet.part);
  const edits: XmlEdit[] = [];
  let left = 0;
  scanXml(text, sheet.part, {
    close(element) {
      if (element.is("tablePart")) {
        const isIt = element.getQualified(NAMESPACES.relationships, "id") === id;
        if (isIt) edits.push({ start: element.start, end: element.end, text: "" });
        else left++;
      }
      if (!element.is("tableParts")) return;
      if (left === 0) edits.splice(0, edits.length, { start: element.start, end: element.end, text: "" });
      else
        edits.push({
          start: element.start,
          end: element.contentStart,
          text: element.openTag({ count: String(left) }),
        });
    },
  });
  parts.writeText(sheet.part, applyEdits(text, edits));
  parts.remove(part, sheet.part);
}

function shiftNames(parts: WorkbookPackage, workbookPart: string, change: SheetShift): void {
  const text = parts.readText(workbookPart);
  const root = readXml(text, workbookPart);
  const sheets = (root.child("sheets")?.all("sheet") ?? []).map((entry) =>
    decodeXstring(entry.get("name") ?? ""),
  );
  const list = root.child("definedNames");
  const names = list?.all("definedName") ?? [];
  const edits = names.flatMap((element): readonly XmlEdit[] => {
    const before = decodeXstring(element.text);
    const after = movedFormula(change, before, sheets[element.number("localSheetId") ?? -1] ?? "");
    if (after === before) return [];
    const isLayout = (element.get("name") ?? "").startsWith("_xlnm.");
    // A print area or filter that has no cells left is none.
    if (isLayout && after.includes("#REF!")) return [{ start: element.start, end: element.end, text: "" }];
    return [{ start: element.contentStart, end: element.contentEnd, text: escapeText(encodeXstring(after)) }];
  });
  const isEmptied = list !== undefined && edits.filter(({ text }) => text === "").length === names.length;
  const all = isEmptied ? [{ start: list.start, end: list.end, text: "" }] : edits;
  if (edits.length > 0) parts.writeText(workbookPart, applyEdits(text, all));
}

/** Moves what names its cells in an attribute, and drops what is deleted. */
function shiftReferences(parts: WorkbookPackage, part: string, local: string, shift: AxisShift): void {
  const text = parts.readText(part);
  const edits: XmlEdit[] = [];
  scanXml(text, part, {
    close(element) {
      const range = element.local === local ? parseRange(element.get("ref") ?? "") : undefined;
      if (range === undefined) return;
      const moved = movedRange(shift, range);
      const { start, contentStart, end, isSelfClosing } = element;
      if (moved === undefined) edits.push({ start, end, text: "" });
      else
        edits.push({
          start,
          end: contentStart,
          text: element.openTag({ ref: rangeAddress(moved) }, isSelfClosing),
        });
    },
  });
  if (edits.length > 0) parts.writeText(part, applyEdits(text, edits));
}

function shiftNotes(parts: WorkbookPackage, sheet: SheetModel, shift: AxisShift): void {
  for (const part of parts.linked(sheet.part, "comments")) shiftReferences(parts, part, "comment", shift);
  for (const part of parts.linked(sheet.part, "threadedComment"))
    shiftReferences(parts, part, "threadedComment", shift);
  for (const part of parts.linked(sheet.part, "vmlDrawing")) {
    // Old drawings are not always well-formed XML.
    const text = parts.readText(part);
    const tag = shift.axis === "row" ? "Row" : "Column";
    const numbers = new RegExp(`(<x:${tag}>)\\s*(\\d+)\\s*(</x:${tag}>)`, "g");
    const anchors = /(<x:Anchor>)([\d,\s]+)(<\/x:Anchor>)/g;
    const image = (index: string): string => String(movedIndex(shift, Number(index)) ?? shift.at);
    const moved = text
      .replace(numbers, (_, open: string, index: string, close: string) => open + image(index) + close)
      .replace(anchors, (_, open: string, list: string, close: string) => {
        const places = list.split(",").map((place) => place.trim());
        const first = shift.axis === "row" ? 2 : 0;
        return (
          open +
          places.map((place, at) => (at === first || at === first + 4 ? image(place) : place)).join(", ") +
          close
        );
      });
    if (moved !== text) parts.writeText(part, moved);
  }
}

function shiftDrawings(parts: WorkbookPackage, sheet: SheetModel, shift: AxisShift): void {
  const wanted = shift.axis === "row" ? "row" : "col";
  for (const part of parts.linked(sheet.part, "drawing")) {
    const text = parts.readText(part);
    const edits: XmlEdit[] = [];
    let way = 0;
    scanXml(text, part, {
      close(element) {
        const corner = element.parent;
        const isFirst = corner?.local === "from";
        if (element.local !== wanted || (!isFirst && corner?.local !== "to")) return;
        const anchoring = corner.parent?.get("editAs");
        if (anchoring === "absolute") return;
        const index = Number(element.text);
        // What moves with its first cell only keeps its size (ECMA-376 part 1, 20.5.3.2).
        const isCarried = anchoring === "oneCell" && !isFirst;
        const moved = isCarried ? index + way : (movedIndex(shift, index) ?? shift.at);
        way = moved - index;
        edits.push({ start: element.contentStart, end: element.contentEnd, text: String(moved) });
      },
    });
    if (edits.length > 0) parts.writeText(part, applyEdits(text, edits));
  }
}

/** Charts name their cells in elements `f`, wherever they stand. */
function shiftCharts(parts: WorkbookPackage, change: SheetShift): void {
  for (const part of parts.names) {
    if (!/drawingml\.chart|chartex/.test(parts.contentType(part) ?? "")) continue;
    const text = parts.readText(part);
    const edits: XmlEdit[] = [];
    const onFormula = (element: XmlElement): void => {
      const moved = movedFormula(change, element.text, "");
      if (moved !== element.text)
        edits.push({ start: element.contentStart, end: element.contentEnd, text: escapeText(moved) });
    };
    scanXml(text, part, {
      close(element) {
        if (element.local === "f") onFormula(element);
      },
    });
    if (edits.length > 0) parts.writeText(part, applyEdits(text, edits));
  }
}

function shiftPivots(
  parts: WorkbookPackage,
  workbookPart: string,
  sheet: SheetModel,
  shift: AxisShift,
): void {
  for (const part of parts.linked(sheet.part, "pivotTable")) {
    const location = readXml(parts.readText(part), part).child("location");
    const range = parseRange(location?.get("ref") ?? "");
    if (range === undefined) continue;
    const moved = movedRange(shift, range);
    const isCut =
      moved === undefined ||
      moved.lastRow - moved.firstRow !== range.lastRow - range.firstRow ||
      moved.lastColumn - moved.firstColumn !== range.lastColumn - range.firstColumn;
    if (isCut) throw new WorkbookError(`the pivot table in ${rangeAddress(range)} must stay in one piece`);
    shiftReferences(parts, part, "location", shift);
  }
  for (const part of parts.linked(workbookPart, "pivotCacheDefinition")) {
    const source = readXml(parts.readText(part), part).child("cacheSource")?.child("worksheetSource");
    if (source?.get("sheet") === encodeXstring(sheet.name))
      shiftReferences(parts, part, "worksheetSource", shift);
  }
}

/** What spilled formulas fill beyond their own cell, at their places after the shift. */
function spilledValues(model: WorkbookModel, position: number, shift: AxisShift): readonly CellChange[] {
  const cells = model.sheets[position]?.cells ?? [];
  const values = new Map(cells.map((cell) => [cellAddress(cell.row, cell.column), cell.value]));
  const changes: CellChange[] = [];
  for (const { row, column, formula } of cells) {
    if (formula?.kind !== "dynamic" || formula.range === undefined) continue;
    const first = {
      row: shift.axis === "row" ? movedIndex(shift, row) : row,
      column: shift.axis === "column" ? movedIndex(shift, column) : column,
    };
    if (first.row === undefined || first.column === undefined) continue;
    const { firstRow, firstColumn, lastRow, lastColumn } = formula.range;
    for (let down = 0; down <= lastRow - firstRow; down++) {
      for (let across = 0; across <= lastColumn - firstColumn; across++) {
        if (down === 0 && across === 0) continue;
        const value = values.get(cellAddress(firstRow + down, firstColumn + across)) ?? null;
        changes.push({ sheet: position, row: first.row + down, column: first.column + across, value });
      }
    }
  }
  return changes;
}
