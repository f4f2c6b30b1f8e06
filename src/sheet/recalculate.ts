import { type CellRange, contains } from "../formula/address";
import { storedError } from "../workbook/cell-markup";
import type { CellChange, CellValue, SheetModel, WorkbookCell } from "../workbook/model";
import { openWorkbook } from "../workbook/read";
import type {
  ComputedCell,
  DifferingCell,
  EngineFunction,
  RecalculateOptions,
  UncomputedCell,
} from "./engine";
import { type FailingCell, failingCells } from "./failing-cells";
import { UniverEngine } from "./univer-engine";

/** A cell whose value became another one. */
export interface ChangedCell extends CellChange {
  readonly before: CellValue;
  readonly value: CellValue;
}

/** A file with fresh values, and what became of its formulas. */
export interface RecalculatedWorkbook {
  readonly bytes: Uint8Array;
  readonly sheetNames: readonly string[];
  readonly changes: readonly ChangedCell[];
  /** Formula cells that keep their stored value, and why. */
  readonly uncomputed: readonly UncomputedCell[];
  /** Formula cells whose stored value stands although the engine gives another one. */
  readonly differing: readonly DifferingCell[];
  /** Cells that show an error of a function of ours, with its sentence. */
  readonly failing: readonly FailingCell[];
}

/**
 * Recalculates a whole .xlsx file and writes the values that changed; all else stays as it is.
 * Throws WorkbookError where the file cannot be read or written, and the signal's reason where it is stopped.
 */
export async function recalculateWorkbook(
  bytes: Uint8Array,
  functions: readonly EngineFunction[],
  options: RecalculateOptions = {},
): Promise<RecalculatedWorkbook> {
  const workbook = openWorkbook(bytes);
  const engine = new UniverEngine(functions);
  try {
    await engine.load(workbook.model);
    const { computed, uncomputed, differing } = await engine.recalculate(options);
    const changes = changesOf(workbook.model.sheets, computed);
    return {
      bytes: changes.length === 0 ? bytes : workbook.patched(changes),
      sheetNames: workbook.model.sheets.map((sheet) => sheet.name),
      changes,
      uncomputed,
      differing,
      failing: failingCells(computed),
    };
  } finally {
    engine.dispose();
  }
}

/** What the computed cells change in the sheets as they were read. */
export function changesOf(
  sheets: readonly SheetModel[],
  computed: readonly ComputedCell[],
): readonly ChangedCell[] {
  const stored = sheets.map(
    (sheet) => new Map(sheet.cells.map((cell) => [placeKey(cell.row, cell.column), cell])),
  );
  const changes = new Map<string, ChangedCell>();
  const cellAt = (sheet: number, row: number, column: number): WorkbookCell | undefined =>
    stored[sheet]?.get(placeKey(row, column));
  const note = (sheet: number, row: number, column: number, value: CellValue, range?: CellRange): void => {
    const before = cellAt(sheet, row, column)?.value ?? null;
    if (range === undefined && isSameValue(before, value)) return;
    const change = { sheet, row, column, value, before };
    changes.set(
      `${String(sheet)}!${placeKey(row, column)}`,
      range === undefined ? change : { ...change, range },
    );
  };
  const spills = computed.map((cell) => {
    const formula = cellAt(cell.sheet, cell.row, cell.column)?.formula;
    const isFilling = formula?.kind === "dynamic" || formula?.kind === "array";
    const old = isFilling ? (formula.range ?? single(cell)) : single(cell);
    const fresh = cell.spill ?? single(cell);
    return { cell, old, fresh, range: isFilling && !isSameRange(old, fresh) ? fresh : undefined };
  });
  // What a spill leaves is cleared first, so that another spill may take the place.
  for (const { cell, old, fresh } of spills) {
    forEachCell(old, (row, column) => {
      const hasFormula = cellAt(cell.sheet, row, column)?.formula !== undefined;
      if (!hasFormula && !contains(fresh, row, column)) note(cell.sheet, row, column, null);
    });
  }
  for (const { cell, fresh, range } of spills) {
    note(cell.sheet, cell.row, cell.column, cell.value, range);
    forEachCell(fresh, (row, column) => {
      if (row === cell.row && column === cell.column) return;
      const key = `${String(cell.sheet)}!${placeKey(row, column)}`;
      changes.delete(key);
      note(
        cell.sheet,
        row,
        column,
        cell.spilled?.[row - fresh.firstRow]?.[column - fresh.firstColumn] ?? null,
      );
    });
  }
  return [...changes.values()];
}

/** Relative difference up to which two numbers are the same to Excel, which shows and compares 15 digits. */
const SAME_NUMBER = 5e-15;

function isSameValue(a: CellValue, b: CellValue): boolean {
  if (typeof a === "number" && typeof b === "number") {
    return Math.abs(a - b) <= SAME_NUMBER * Math.max(Math.abs(a), Math.abs(b));
  }
  if (a !== null && b !== null && typeof a === "object" && typeof b === "object") {
    return storedError(a.error) === storedError(b.error);
  }
  return a === b;
}

function single({ row, column }: { readonly row: number; readonly column: number }): CellRange {
  return { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
}

function isSameRange(a: CellRange, b: CellRange): boolean {
  return a.lastRow === b.lastRow && a.lastColumn === b.lastColumn;
}

function forEachCell(range: CellRange, visit: (row: number, column: number) => void): void {
  for (let row = range.firstRow; row <= range.lastRow; row++) {
    for (let column = range.firstColumn; column <= range.lastColumn; column++) visit(row, column);
  }
}

function placeKey(row: number, column: number): string {
  return `${String(row)},${String(column)}`;
}
