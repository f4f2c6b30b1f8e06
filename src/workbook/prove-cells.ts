import { type CellPosition, type CellRange, rangeAddress } from "../formula/address";
import { isSameLook } from "./cell-looks";
import { storedError } from "./cell-markup";
import { FilledRanges } from "./filled-ranges";
import type { CellChange, CellStyle, CellValue, SheetModel, WorkbookCell } from "./model";
import { cellWords, proofFault } from "./proof-fault";

/** What a cell is meant to hold. */
type MeantCell = Pick<WorkbookCell, "value" | "formula">;

/** The styles that cells of the file before and after refer to. */
export interface Looks {
  readonly before: readonly CellStyle[];
  readonly after: readonly CellStyle[];
  /** Whether the styles can take new ones; asked only where a cell is restyled. */
  readonly areWhole: boolean;
}

/** A number of its own for each cell of a sheet. */
export function cellNumber({ row, column }: { readonly row: number; readonly column: number }): number {
  return row * 2 ** 14 + column;
}

/** Every cell holds what it is meant to, those that were there in the order in which they were. */
export function proveCells(
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
      throw proofFault(`${cellWords(sheet, place.row, place.column)} holds something else`);
  };
  /** Changes of cells that were not there. */
  let added: Map<number, CellChange> | undefined;
  const addedCells = (): Map<number, CellChange> => {
    if (added !== undefined) return added;
    added = new Map(changes);
    if (added.size > 0) for (const cell of sheet.cells) added.delete(cellNumber(cell));
    return added;
  };
  let next = 0;
  let changed = 0;
  for (const cell of written.cells) {
    const key = cellNumber(cell);
    const change = changes.get(key);
    if (change !== undefined) changed++;
    let old = sheet.cells[next];
    // Most cells stand where they stood; only beside one that does not is it asked which came anew.
    if ((old === undefined || cellNumber(old) !== key) && addedCells().delete(key)) {
      prove(cell, undefined, change, cell);
      continue;
    }
    for (next++; old !== undefined && cellNumber(old) !== key; old = sheet.cells[next++])
      prove(old, old, changes.get(cellNumber(old)));
    if (old === undefined) throw proofFault(`${cellWords(sheet, cell.row, cell.column)} came from nowhere`);
    prove(cell, old, change, cell);
  }
  for (const old of sheet.cells.slice(next)) prove(old, old, changes.get(cellNumber(old)));
  // Every change was met in a cell, or is one of a cell that was not there and is not.
  if (changed === changes.size) return;
  for (const change of addedCells().values()) prove(change, undefined, change);
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
  if (formula === old?.formula && change.range === undefined) return { value, formula };
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

/** Whether a change gives a cell another number format or look. */
export function isRestyling({ numberFormat, look }: CellChange): boolean {
  return numberFormat !== undefined || look !== undefined;
}

/** Whether a cell looks as it is meant to. */
function isDressed(
  old: WorkbookCell | undefined,
  change: CellChange | undefined,
  cell: WorkbookCell | undefined,
  { before, after, areWhole }: Looks,
): boolean {
  const style = change?.style ?? old?.style;
  const isRestyled = change !== undefined && isRestyling(change);
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

function isSameValue(meant: CellValue, found: CellValue): boolean {
  if (typeof meant !== "object" || meant === null) return meant === found;
  return typeof found === "object" && found !== null && storedError(meant.error) === storedError(found.error);
}

/** Cells that belong to an array formula, and formulas, each in its own range and no other; faults that were there stay. */
export function proveFormulas(sheet: SheetModel, written: SheetModel): void {
  const faults = formulaFaults(written);
  if (faults.length === 0) return;
  const known = new Set(formulaFaults(sheet).map(cellNumber));
  const fresh = faults.find((cell) => !known.has(cellNumber(cell)));
  if (fresh !== undefined) {
    throw proofFault(
      `${cellWords(sheet, fresh.row, fresh.column)} has a formula outside the range that it belongs to`,
    );
  }
}

function formulaFaults(sheet: SheetModel): readonly WorkbookCell[] {
  const filling: CellRange[] = [];
  for (const { formula } of sheet.cells) {
    if ((formula?.kind === "array" || formula?.kind === "dynamic") && formula.range !== undefined)
      filling.push(formula.range);
  }
  const ranges = new FilledRanges(filling);
  return sheet.cells.filter(({ row, column, formula, isFilled }) => {
    if (isFilled === true) return !ranges.has(row, column);
    if (formula === undefined) return false;
    return ranges.over(row, column).some((range) => range !== formula.range);
  });
}
