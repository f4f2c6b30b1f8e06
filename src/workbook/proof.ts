import { cellAddress, type CellPosition, type CellRange, rangeAddress } from "../formula/address";
import { isSameLook } from "./cell-looks";
import { storedError } from "./cell-markup";
import { FilledRanges } from "./filled-ranges";
import {
  type CellChange,
  type CellStyle,
  type CellValue,
  type SheetModel,
  type WorkbookCell,
  WorkbookError,
} from "./model";
import type { WorkbookModel } from "./model";
import { PACKAGE_ROOT, relationshipsPart, type WorkbookPackage } from "./package";
import type { LayoutChange } from "./sheet-layout";
import { findWorkbookPart } from "./workbook-part";
import { readXml, scanXml } from "./xml";

/** A file as it was read. */
export interface ReadFile {
  readonly parts: WorkbookPackage;
  readonly model: WorkbookModel;
}

/** What was meant to change in a file. */
export interface MeantChanges {
  readonly changes: readonly CellChange[];
  readonly layouts: readonly LayoutChange[];
}

/** What a cell is meant to hold. */
type MeantCell = Pick<WorkbookCell, "value" | "formula">;

const TYPES_PART = "[Content_Types].xml";

/**
 * Proves that a written file is the one that was read with these changes and no others. Throws WorkbookError for the first
 * thing that is not: a part that changed or went without need, one that is no XML, a cell that holds something else, a
 * formula outside the range it belongs to.
 */
export function proveChanges(before: ReadFile, after: ReadFile, { changes, layouts }: MeantChanges): void {
  const meant = bySheet(changes);
  const dressed = new Map(layouts.map((layout) => [layout.sheet, layout]));
  proveParts(before, after, new Set([...meant.keys(), ...dressed.keys()]));
  const areWhole = areWholeStyles(before.parts);
  const looks = { before: before.model.styles, after: after.model.styles, areWhole };
  for (const [position, sheet] of before.model.sheets.entries()) {
    const written = after.model.sheets[position];
    if (written?.name !== sheet.name) throw fault(`sheet "${sheet.name}" is not where it was`);
    if (written === sheet) continue;
    const layout = dressed.get(position);
    proveCells(sheet, written, meant.get(position) ?? new Map<number, CellChange>(), looks);
    proveFormulas(sheet, written);
    proveLayout(sheet, written, layout);
    const texts = [before.parts.readText(sheet.part), after.parts.readText(written.part)] as const;
    proveSurroundings(sheet, texts, layout);
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

/** The styles that cells of the file before and after refer to. */
interface Looks {
  readonly before: readonly CellStyle[];
  readonly after: readonly CellStyle[];
  readonly areWhole: boolean;
}

/** Every cell holds what it is meant to, those that were there in the order in which they were. */
function proveCells(
  sheet: SheetModel,
  written: SheetModel,
  changes: ReadonlyMap<number, CellChange>,
  looks: Looks,
): void {
  const prove = (
    place: CellPosition,
    old?: WorkbookCell,
    change?: CellChange,
    found?: WorkbookCell,
  ): void => {
    if (!isMeant(meantCell(old, change, place), found) || !isDressed(old, change, found, looks))
      throw fault(`${at(sheet, place.row, place.column)} holds something else`);
  };
  const added = new Map(changes);
  if (added.size > 0) for (const cell of sheet.cells) added.delete(cellKey(cell));
  let next = 0;
  for (const cell of written.cells) {
    const key = cellKey(cell);
    const change = changes.get(key);
    if (added.delete(key)) {
      prove(cell, undefined, change, cell);
      continue;
    }
    let old = sheet.cells[next++];
    while (old !== undefined && cellKey(old) !== key) {
      prove(old, old, changes.get(cellKey(old)));
      old = sheet.cells[next++];
    }
    if (old === undefined) throw fault(`${at(sheet, cell.row, cell.column)} came from nowhere`);
    prove(cell, old, change, cell);
  }
  for (const old of sheet.cells.slice(next)) prove(old, old, changes.get(cellKey(old)));
  for (const change of added.values()) prove(change, undefined, change);
}

function meantCell(
  old: WorkbookCell | undefined,
  change: CellChange | undefined,
  place: CellPosition,
): MeantCell {
  if (change === undefined) return old ?? { value: null };
  const value = change.value === undefined ? (old?.value ?? null) : change.value;
  const formula = change.formula === undefined ? old?.formula : (change.formula ?? undefined);
  if (formula === undefined) return { value };
  const isFilling = formula.kind === "array" || formula.kind === "dynamic";
  const range = isFilling
    ? (change.range ?? formula.range ?? (hasNewFormula(change) ? single(place) : undefined))
    : formula.range;
  const { text, kind } = formula;
  return {
    value,
    formula: range === undefined || kind === "normal" ? { text, kind } : { text, kind, range },
  };
}

function hasNewFormula(change: CellChange): boolean {
  return change.formula !== undefined && change.formula !== null;
}

function single({ row, column }: CellPosition): CellRange {
  return { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
}

function isMeant(meant: MeantCell, cell: WorkbookCell | undefined): boolean {
  if (!isSameValue(meant.value, cell?.value ?? null)) return false;
  const a = meant.formula;
  const b = cell?.formula;
  return (
    a === b || (a?.text === b?.text && a?.kind === b?.kind && rangeText(a?.range) === rangeText(b?.range))
  );
}

function rangeText(range: CellRange | undefined): string {
  return range === undefined ? "" : rangeAddress(range);
}

/** Whether a cell looks as it is meant to. */
function isDressed(
  old: WorkbookCell | undefined,
  change: CellChange | undefined,
  cell: WorkbookCell | undefined,
  { before, after, areWhole }: Looks,
): boolean {
  const style = change?.style ?? old?.style;
  const isRestyled = change?.numberFormat !== undefined || change?.look !== undefined;
  // A cell that was not there takes its look from row or column, and one that is empty needs none.
  if (cell === undefined || (style === undefined && !isRestyled)) return true;
  if (!isRestyled) return style === cell.style;
  const meant = style === undefined ? undefined : before[style];
  const found = after[cell.style];
  const format = change.numberFormat ?? meant?.numberFormat;
  const look = change.look ?? meant;
  // A file whose styles lack a part takes no new ones.
  if (!areWhole) return true;
  const isFormatted = format === undefined || found?.numberFormat === format;
  return isFormatted && found !== undefined && (look === undefined || isSameLook(found, look));
}

/** Whether a file's styles have all that a new one needs. */
function areWholeStyles(parts: WorkbookPackage): boolean {
  const [part] = parts.linked(findWorkbookPart(parts), "styles");
  if (part === undefined || !parts.has(part)) return false;
  const root = readXml(parts.readText(part), part);
  return ["fonts", "fills", "borders", "cellXfs"].every((list) => root.child(list) !== undefined);
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

function isSameMap(
  a: ReadonlyMap<number, number>,
  b: ReadonlyMap<number, number>,
  isFree?: (key: number) => boolean,
): boolean {
  const isFound = ([key, value]: [number, number]): boolean => b.get(key) === value;
  return [...a].every(isFound) && [...b.keys()].every((key) => a.has(key) || isFree?.(key) === true);
}

function isSameSet(a: ReadonlySet<number>, b: ReadonlySet<number>): boolean {
  return a.size === b.size && [...a].every((key) => b.has(key));
}

function changedSet(old: ReadonlySet<number>, change: ReadonlyMap<number, boolean> = new Map()): Set<number> {
  const set = new Set(old);
  for (const [key, isIn] of change) {
    if (isIn) set.add(key);
    else set.delete(key);
  }
  return set;
}

/** Rows, columns and panes are as they were but for what was meant. */
function proveLayout(sheet: SheetModel, written: SheetModel, layout: LayoutChange | undefined): void {
  const heights = new Map([...sheet.rowHeights, ...(layout?.rowHeights ?? [])]);
  const widths = new Map([...sheet.columnWidths, ...(layout?.columnWidths ?? [])]);
  const rows = changedSet(sheet.hiddenRows, layout?.hiddenRows);
  if (!isSameMap(heights, written.rowHeights) || !isSameSet(rows, written.hiddenRows))
    throw fault(`the rows of sheet "${sheet.name}" changed`);
  const columns = changedSet(sheet.hiddenColumns, layout?.hiddenColumns);
  // A column that is only hidden gets the width that it shows without one.
  const isFree = (column: number): boolean => layout?.hiddenColumns?.has(column) === true;
  if (!isSameMap(widths, written.columnWidths, isFree) || !isSameSet(columns, written.hiddenColumns))
    throw fault(`the columns of sheet "${sheet.name}" changed`);
  const frozen = layout?.frozen ?? { rows: sheet.frozenRows, columns: sheet.frozenColumns };
  if (frozen.rows !== written.frozenRows || frozen.columns !== written.frozenColumns)
    throw fault(`the panes of sheet "${sheet.name}" changed`);
}

const DIMENSION = /<(?:[^\s<>/]+:)?dimension\b[^>]*>/;
const COLUMNS = /<(?:[^\s<>/]+:)?cols\b.*<\/(?:[^\s<>/]+:)?cols\s*>/s;
const VIEWS = /<((?:[^\s<>/]+:)?sheetViews)\b(?:[^>]*\/>|.*<\/\1\s*>)/s;

/** What lies around the cells of a sheet must be as it was. */
function proveSurroundings(
  sheet: SheetModel,
  texts: readonly [string, string],
  layout: LayoutChange | undefined,
): void {
  const [one, two] = texts.map((text) => {
    const start = text.search(/<(?:[^\s<>/]+:)?sheetData[\s/>]/);
    const end = Math.max(
      ...[...text.matchAll(/sheetData\s*\/?>/g)].map((match) => match.index + match[0].length),
    );
    let head = text.slice(0, start).replace(DIMENSION, "");
    // What these hold was read and compared.
    if (layout?.columnWidths !== undefined || layout?.hiddenColumns !== undefined)
      head = head.replace(COLUMNS, "");
    if (layout?.frozen !== undefined) head = head.replace(VIEWS, "");
    return [head, text.slice(end)];
  });
  if (one?.[0] !== two?.[0] || one?.[1] !== two?.[1]) {
    throw fault(`what lies around the cells of sheet "${sheet.name}" changed`);
  }
}
