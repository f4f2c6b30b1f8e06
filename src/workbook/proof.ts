import { cellAddress, type CellRange, rangeAddress } from "../formula/address";
import { storedError } from "./cell-markup";
import { FilledRanges } from "./filled-ranges";
import { type CellChange, type CellValue, type SheetModel, type WorkbookCell, WorkbookError } from "./model";
import type { WorkbookModel } from "./model";
import { PACKAGE_ROOT, relationshipsPart, type WorkbookPackage } from "./package";
import { findWorkbookPart } from "./workbook-part";
import { scanXml } from "./xml";

/** A file as it was read. */
export interface ReadFile {
  readonly parts: WorkbookPackage;
  readonly model: WorkbookModel;
}

/** What a cell is meant to hold. */
type MeantCell = Pick<WorkbookCell, "value" | "formula"> & {
  readonly style: number | undefined;
};

const TYPES_PART = "[Content_Types].xml";

/**
 * Proves that a written file is the one that was read with these changes and no others. Throws WorkbookError for the first
 * thing that is not: a part that changed or went without need, one that is no XML, a cell that holds something else, a
 * formula outside the range it belongs to.
 */
export function proveChanges(before: ReadFile, after: ReadFile, changes: readonly CellChange[]): void {
  const meant = bySheet(changes);
  proveParts(before, after, new Set(meant.keys()));
  for (const [position, sheet] of before.model.sheets.entries()) {
    const written = after.model.sheets[position];
    if (written?.name !== sheet.name) throw fault(`sheet "${sheet.name}" is not where it was`);
    if (written === sheet) continue;
    proveCells(sheet, written, meant.get(position) ?? new Map());
    proveFormulas(sheet, written);
    proveRows(sheet, written);
    proveSurroundings(sheet, before.parts.readText(sheet.part), after.parts.readText(written.part));
  }
  if (after.model.sheets.length !== before.model.sheets.length) throw fault("it has more sheets than before");
}

function fault(what: string): WorkbookError {
  return new WorkbookError(
    `nothing was written, because the result was not what it was meant to be: ${what}; please report this`,
  );
}

function at(sheet: SheetModel, row: number, column: number): string {
  return `cell ${cellAddress(row, column)} of sheet "${sheet.name}"`;
}

/** Changes by sheet and cell; later ones to one cell add to earlier ones. */
function bySheet(changes: readonly CellChange[]): Map<number, Map<number, CellChange>> {
  const sheets = new Map<number, Map<number, CellChange>>();
  for (const change of changes) {
    const cells = sheets.get(change.sheet) ?? new Map<number, CellChange>();
    const key = cellKey(change);
    cells.set(key, { ...cells.get(key), ...change });
    sheets.set(change.sheet, cells);
  }
  return sheets;
}

function cellKey({ row, column }: { readonly row: number; readonly column: number }): number {
  return row * 2 ** 14 + column;
}

/** Parts that writing cells may change; of these only the chain of calculation may go. */
function proveParts(before: ReadFile, after: ReadFile, changed: ReadonlySet<number>): void {
  const workbook = findWorkbookPart(before.parts);
  const chains = before.parts.linked(workbook, "calcChain");
  const mayChange = new Set(
    [
      ...[...changed].map((sheet) => before.model.sheets[sheet]?.part ?? ""),
      ...before.parts.linked(workbook, "styles"),
      ...after.parts.linked(workbook, "sheetMetadata"),
      relationshipsPart(workbook),
      TYPES_PART,
    ].map((name) => name.toLowerCase()),
  );
  for (const name of before.parts.names) {
    if (!after.parts.has(name)) {
      if (!chains.includes(name)) throw fault(`its part ${name} is missing`);
    } else if (!mayChange.has(name.toLowerCase()) && !before.parts.hasSame(name, after.parts)) {
      throw fault(`its part ${name} changed`);
    }
  }
  for (const name of after.parts.names) {
    if (before.parts.hasSame(name, after.parts)) continue;
    if (!mayChange.has(name.toLowerCase())) throw fault(`its part ${name} is new`);
    // Sheets were read already.
    if (!after.model.sheets.some(({ part }) => part === name)) scanXml(after.parts.readText(name), name, {});
  }
  for (const source of [PACKAGE_ROOT, workbook]) {
    const lost = after.parts
      .relationships(source)
      .find((link) => !link.isExternal && !after.parts.has(link.target));
    if (lost !== undefined && before.parts.has(lost.target))
      throw fault(`a link leads to ${lost.target}, which is missing`);
  }
}

function proveCells(sheet: SheetModel, written: SheetModel, changes: Map<number, CellChange>): void {
  const found = new Map(written.cells.map((cell) => [cellKey(cell), cell]));
  const prove = (place: { row: number; column: number }, old: WorkbookCell | undefined): void => {
    const key = cellKey(place);
    const meant = meantCell(old, changes.get(key), place);
    const cell = found.get(key);
    found.delete(key);
    if (!isMeant(meant, cell)) throw fault(`${at(sheet, place.row, place.column)} holds something else`);
  };
  for (const cell of sheet.cells) {
    prove(cell, cell);
    changes.delete(cellKey(cell));
  }
  for (const change of changes.values()) prove(change, undefined);
  const [stranger] = found.values();
  if (stranger !== undefined) throw fault(`${at(sheet, stranger.row, stranger.column)} came from nowhere`);
}

function meantCell(
  old: WorkbookCell | undefined,
  change: CellChange | undefined,
  place: { readonly row: number; readonly column: number },
): MeantCell {
  const value = change?.value === undefined ? (old?.value ?? null) : change.value;
  const style = change?.numberFormat === undefined ? (change?.style ?? old?.style) : undefined;
  const formula = change?.formula === undefined ? old?.formula : (change.formula ?? undefined);
  if (formula === undefined) return { value, style };
  const isFilling = formula.kind === "array" || formula.kind === "dynamic";
  const range = isFilling
    ? (change?.range ?? formula.range ?? (hasNewFormula(change) ? single(place) : undefined))
    : formula.range;
  const { text, kind } = formula;
  return {
    value,
    style,
    formula: range === undefined || kind === "normal" ? { text, kind } : { text, kind, range },
  };
}

function hasNewFormula(change: CellChange | undefined): boolean {
  return change?.formula !== undefined && change.formula !== null;
}

function single({ row, column }: { readonly row: number; readonly column: number }): CellRange {
  return { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
}

function isMeant(meant: MeantCell, cell: WorkbookCell | undefined): boolean {
  if (!isSameValue(meant.value, cell?.value ?? null)) return false;
  if (meant.style !== undefined && cell !== undefined && meant.style !== cell.style) return false;
  const [a, b] = [meant.formula, cell?.formula];
  const rangeText = (range: CellRange | undefined): string =>
    range === undefined ? "" : rangeAddress(range);
  return a?.text === b?.text && a?.kind === b?.kind && rangeText(a?.range) === rangeText(b?.range);
}

function isSameValue(meant: CellValue, found: CellValue): boolean {
  if (typeof meant !== "object" || meant === null) return meant === found;
  return typeof found === "object" && found !== null && storedError(meant.error) === storedError(found.error);
}

/** Cells that belong to an array formula, and formulas, each in its own range and no other; faults that were there stay. */
function proveFormulas(sheet: SheetModel, written: SheetModel): void {
  const faults = formulaFaults(written);
  if (faults.length === 0) return;
  const known = new Set(formulaFaults(sheet).map(cellKey));
  const fresh = faults.find((cell) => !known.has(cellKey(cell)));
  if (fresh !== undefined) {
    throw fault(`${at(sheet, fresh.row, fresh.column)} has a formula outside the range that it belongs to`);
  }
}

function formulaFaults(sheet: SheetModel): readonly WorkbookCell[] {
  const filling = sheet.cells.flatMap(({ formula }) =>
    (formula?.kind === "array" || formula?.kind === "dynamic") && formula.range !== undefined
      ? [formula.range]
      : [],
  );
  const ranges = new FilledRanges(filling);
  return sheet.cells.filter(({ row, column, formula, isFilled }) => {
    if (isFilled === true) return !ranges.has(row, column);
    if (formula === undefined) return false;
    return ranges.over(row, column).some((range) => range !== formula.range);
  });
}

const DIMENSION = /<(?:[^\s<>/]+:)?dimension\b[^>]*>/;

function isSameMap(a: ReadonlyMap<number, number>, b: ReadonlyMap<number, number>): boolean {
  return a.size === b.size && [...a].every(([key, value]) => b.get(key) === value);
}

function proveRows(sheet: SheetModel, written: SheetModel): void {
  const isSame =
    isSameMap(sheet.rowHeights, written.rowHeights) &&
    sheet.hiddenRows.size === written.hiddenRows.size &&
    [...sheet.hiddenRows].every((row) => written.hiddenRows.has(row));
  if (!isSame) throw fault(`the rows of sheet "${sheet.name}" changed`);
}

/** What lies around the cells of a sheet must be as it was. */
function proveSurroundings(sheet: SheetModel, before: string, after: string): void {
  const [one, two] = [before, after].map((text) => {
    const start = text.search(/<(?:[^\s<>/]+:)?sheetData[\s/>]/);
    const end = Math.max(
      ...[...text.matchAll(/sheetData\s*\/?>/g)].map((match) => match.index + match[0].length),
    );
    return [text.slice(0, start).replace(DIMENSION, ""), text.slice(end)];
  });
  if (one?.[0] !== two?.[0] || one?.[1] !== two?.[1]) {
    throw fault(`what lies around the cells of sheet "${sheet.name}" changed`);
  }
}
