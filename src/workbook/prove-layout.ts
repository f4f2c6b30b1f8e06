import type { SheetModel } from "./model";
import { proofFault } from "./proof-fault";
import type { LayoutChange } from "./sheet-layout";

/** Rows, columns and panes are as they were but for what was meant. */
export function proveLayout(sheet: SheetModel, written: SheetModel, layout: LayoutChange | undefined): void {
  const heights = new Map([...sheet.rowHeights, ...(layout?.rowHeights ?? [])]);
  const widths = new Map([...sheet.columnWidths, ...(layout?.columnWidths ?? [])]);
  const rows = changedSet(sheet.hiddenRows, layout?.hiddenRows);
  if (!isSameMap(heights, written.rowHeights) || !isSameSet(rows, written.hiddenRows))
    throw proofFault(`the rows of sheet "${sheet.name}" changed`);
  const columns = changedSet(sheet.hiddenColumns, layout?.hiddenColumns);
  // A column that is only hidden gets the width that it shows without one.
  const isFree = (column: number): boolean => layout?.hiddenColumns?.has(column) === true;
  if (!isSameMap(widths, written.columnWidths, isFree) || !isSameSet(columns, written.hiddenColumns))
    throw proofFault(`the columns of sheet "${sheet.name}" changed`);
  const frozen = layout?.frozen ?? { rows: sheet.frozenRows, columns: sheet.frozenColumns };
  if (frozen.rows !== written.frozenRows || frozen.columns !== written.frozenColumns)
    throw proofFault(`the panes of sheet "${sheet.name}" changed`);
}

const DIMENSION = /<(?:[^\s<>/]+:)?dimension\b[^>]*>/;
const COLUMNS = /<(?:[^\s<>/]+:)?cols\b.*<\/(?:[^\s<>/]+:)?cols\s*>/s;
const VIEWS = /<((?:[^\s<>/]+:)?sheetViews)\b(?:[^>]*\/>|.*<\/\1\s*>)/s;

/** What lies around the cells of a sheet must be as it was. */
export function proveSurroundings(
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
    throw proofFault(`what lies around the cells of sheet "${sheet.name}" changed`);
  }
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
